"use strict";
const COPY = {"version":"7b1462f5565d70cfb9c062e3c0478ef0","files":[["book.css","ca27a71206dae2ce4506a84c35ff8a88"],["book.html","3a8d70fd6801cefd9a31321548b2ef2e"],["hb-2/book.html","61e660bd857ad7c30312057bde78c36e"],["hb-2/builds/no-1.html","3a03bca8f599357093502687c8094395"],["hb-2/cover-fill-load-test-sheet-E.html","e2bd3627269665417a6978cc1836c2f2"],["hb-2/cover-fill-load-test-sheet-M.html","7ee05dd8c3abcfe50ace2a5e5e94e798"],["hb-2/cover-fill-load-test.behind.html","b919af85ca4c8154ab5716e3bca5bbf9"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","f43189313f7857f4e23f4cb07bbb7625"],["hb-2/cover-fill-load-test.source.html","d87edc1da7034f23bac0acc1c2ef4316"],["hb-2/housing-and-cups-sheet-kit.html","367e3de0b878ee80470a53015b5a7b4a"],["hb-2/housing-and-cups-sheet-stock.html","e5c7e117b3ec20f0ed1b8b16be4fdbf8"],["hb-2/housing-and-cups.behind.html","6fbcf25c2198540e99ecd3f575fcc1df"],["hb-2/housing-and-cups.chapters.vtt","07aa014440bd1df1a448c197af8fd8f8"],["hb-2/housing-and-cups.html","20802b4f97f156766595296b106e19a0"],["hb-2/housing-and-cups.source.html","dc835f2e290ca00f09cbe280f5e9688d"],["hb-2/index.html","83a0b8008c611cdcd8679f83eff65968"],["hb-2/machine.bulletins.html","dc983dc03b56a9f76163dcac51ace6df"],["hb-2/machine.review.html","74fdb4062b3fa3f23baa9680cd6423b9"],["hb-2/machine.variants.html","68424c6accbe39cd9234b09ccbd76513"],["hb-2/output-shaft-and-hub-nut-sheet.html","757f9235955d9c7c8c00d6c64c5e76e6"],["hb-2/output-shaft-and-hub-nut.behind.html","661d5220eb23affa4754ba088541839f"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","8966d6edf9e891ef57afdf837f2e1cf8"],["hb-2/output-shaft-and-hub-nut.source.html","808320f41e97211702d6cfd1b910ed7e"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/ease-springs.svg","ade5e509598eaf0b8584e9aaf0d8934e"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","8bbcbd7bb76c500b949e8125cd764fa0"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","96ff20d5f46641468b8911099afe28a5"],["hb-2/wet-brake-pack-sheet-kit.html","9c562f0155501a24ccdb368f68f26feb"],["hb-2/wet-brake-pack-sheet-stock.html","91c0d6d6dbe2ef2677789b8494cd2358"],["hb-2/wet-brake-pack.behind.html","5c38e2ec3015069ca57711519e25dd4d"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","45ff35a6e89236f22dcdbc636bd30588"],["hb-2/wet-brake-pack.source.html","888d6b6d1ee8cd1ec446673691b3a5d1"],["hb-2/worm-shaft-preload-sheet.html","476add465cbd627069cb260ba69ff2fc"],["hb-2/worm-shaft-preload.behind.html","db672c932d634dc3f6fb72ee24c5438a"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","acc9c383d3d5e54ba529957de3a9b496"],["hb-2/worm-shaft-preload.source.html","6061fb9d15eaab9e4f8eae86bb8c38ea"],["index.html","9ca30d911427c7b2650750b78076f916"],["lists.css","7b1a345fc8d00f6da32ab5f83a09e9a1"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","c28754e022cf0d0fd7d54933673b31a8"],["page.js","c7dfbf2dbb69d4c1859a0bb974889159"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","39e8320f27fd16ce1e6f6977ff767468"],["search.css","4b6059b894726c0322265103c51e3a05"],["search.js","e419cce21baa3c91aa25fbd058df1e83"],["sheet.css","0ce8f1f30069fbca79f5f020d7f54244"],["sheet.js","229df783e7a43dd5f7550094bb68ff6a"],["tables/open-items.html","edec4cd4e5fa3211de009ec6caa0ae65"],["tables/parts.html","48e4c2c5283c291fbfb45b448c80f3d3"],["tables/people.html","a7048ebece8018792ac9ce6f258c1759"],["tables/seals.html","de37b4c27b58d3afda1616c741fa2624"],["tables/terms.html","b7a029425cae7044c98b1493aab77ed5"],["tables/thread-lockers.html","196acf83d2ab949cdc7f2c4a4ed1ee15"],["tables/to-have.html","c636ce9b83d57cfff822cf4c57fae991"],["tables/tools.html","e05e7d0fe35a386985dd93cd7bdd4f6d"],["tables/torque.html","7fb3e449e8978305756fa13f58cd7f6e"],["tarn-18/belt-and-flywheel-sheet-E.html","c4b463f49ec9fb01614c94de3213c2c7"],["tarn-18/belt-and-flywheel-sheet-R.html","41525422c70c659238444d7ed4e3d8c1"],["tarn-18/belt-and-flywheel.behind.html","1b203761991cea0fbec106c7861f96b5"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","9a79900104b0c549a9b47d3d4ff001eb"],["tarn-18/belt-and-flywheel.source.html","6bac45096d4c20f45bffb11ce40421cd"],["tarn-18/book.html","5dcf6edce492fdced46470736d438cb6"],["tarn-18/builds/no-3.html","192854966634268dc119ac745a3cb037"],["tarn-18/builds/no-7.html","04daa525476d694c0144c131300d7e6b"],["tarn-18/close-crankcase-sheet.html","4f379b87d93e98c8d679d90cf3482a3f"],["tarn-18/close-crankcase.behind.html","3d3db76eb1bb98cca80afbd1fb9c32de"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","2718b6a7d95f9bba70c80251df879f84"],["tarn-18/close-crankcase.source.html","d6536d6433857448b6b9065e9f29aa19"],["tarn-18/close-gearcase-board-mid-bolt.html","844efc96467f899d879011c5b560a207"],["tarn-18/close-gearcase-sheet-L-fresh.html","771a7ce724bd05dfb9da04b3033426bc"],["tarn-18/close-gearcase-sheet-L-salt.html","328ee31ca94bfb48fbe15989fcbf485b"],["tarn-18/close-gearcase-sheet-S-fresh.html","4e10f316ed6c71c42d5caff96c4d35b3"],["tarn-18/close-gearcase-sheet-S-salt.html","eacf1096bb9c75395eb241534edbcdda"],["tarn-18/close-gearcase.behind.html","d33a4cb19c669372f573fa9d8ec2b9af"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","0806ac1abfd27b84627bbbe78579a8e7"],["tarn-18/close-gearcase.source.html","912a02086d31b7153ac26dc74f6d8cfb"],["tarn-18/crank-rods-pistons-sheet.html","c7680eef3ecbe3d45b2d1ce6ad9e30de"],["tarn-18/crank-rods-pistons.behind.html","e056e6054062c07d74515bdf9e7c09a1"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","30ef858c472f0682a0a850e8fb5614aa"],["tarn-18/crank-rods-pistons.source.html","116d7abf16c75ea6c69a551a2d745e54"],["tarn-18/first-start-sheet-E.html","3b1dd429592a861c131fe60aa232d050"],["tarn-18/first-start-sheet-R.html","bcc38570ef46d4508a7bf5c1e92d7faa"],["tarn-18/first-start.behind.html","56901b86d5aac782329cefafc85177c5"],["tarn-18/first-start.chapters.vtt","14d5bea3eb3a63450b5225d0cfa788ce"],["tarn-18/first-start.html","93cdcd9d145fd246961cb02b2f39fb37"],["tarn-18/first-start.source.html","761f86b9616a2d41c614849aede29a18"],["tarn-18/head-valves-camshaft-board-head-bolt.html","a0d4f0081fb36f32e19e1fdbe569343f"],["tarn-18/head-valves-camshaft-sheet.html","f91b71b828b4012066a8c0f340d54516"],["tarn-18/head-valves-camshaft.behind.html","46ad60720748c5f2b092433ee8203fad"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","c476e0a037e61e37e6324d748e6bf900"],["tarn-18/head-valves-camshaft.source.html","b3991ff1dfeac052e05f4c8e2078faab"],["tarn-18/index.html","0f5b41f8a19097d314f0ce522d0e6082"],["tarn-18/machine.bulletins.html","ac1e689d32a41c52129e70c70d60605d"],["tarn-18/machine.review.html","57b9b428924ceb5f8d2a291ed193a52b"],["tarn-18/machine.variants.html","e4d84d8cfba78317bfe2353bcb24cc8a"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","158719c375b7d50cb7424b26c5bd329b"],["tarn-18/pinion-height-and-backlash-sheet-late.html","33f313fc535773e0d6833f2e27eb9f78"],["tarn-18/pinion-height-and-backlash.behind.html","c8c42fd9ff2e4c0a9d14d0b5610d9a1f"],["tarn-18/pinion-height-and-backlash.chapters.vtt","562d4ebcd6c7b348f4082715115cff43"],["tarn-18/pinion-height-and-backlash.html","b81a8717829e205dce5ddf73a08ed083"],["tarn-18/pinion-height-and-backlash.source.html","f9aa02257ea7db73081ae76c0c8a3d24"],["tarn-18/propeller-shaft-carrier-sheet.html","3b1e96f74dcf3e41ce3f2269cffb58ec"],["tarn-18/propeller-shaft-carrier.behind.html","0ace0b418269eb79048715a902b8bd81"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","24c33c79636ebb4ab33f5176dff182f5"],["tarn-18/propeller-shaft-carrier.source.html","d1cec6ff64d49d3b183230335a9714e5"],["tarn-18/strip-and-tag-sheet-L-E.html","527abe71f920de70d9deb6120d0339d2"],["tarn-18/strip-and-tag-sheet-L-R.html","da06fda00fbacc256abe529a4cb37516"],["tarn-18/strip-and-tag-sheet-S-E.html","ffb43950386f012dc9d9d85ce245d4f2"],["tarn-18/strip-and-tag-sheet-S-R.html","40f028aa7795bbf41bb9385824fb6c0b"],["tarn-18/strip-and-tag.behind.html","da298754c2790b7b1c000db425cabd35"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","6e61e51169b6e940e1b955b137ec9ced"],["tarn-18/strip-and-tag.source.html","29c1e5750d7123bc699a67dd63b67a43"],["tarn-18/torque-card.html","a92cc07a3d0983d40db3b1c395145d74"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet-kit.html":1,"hb-2/housing-and-cups-sheet-stock.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
const ROOT = new URL("./", self.location);
const FAMILY = `leaf ${ROOT.pathname} `;
const NAME = FAMILY + COPY.version;
const AT_ONCE = new Map(COPY.files);
const LATER = new Map(COPY.later);
self.addEventListener("install", (event) => event.waitUntil(keepAll()));
self.addEventListener("message", (event) => {
if (event.data?.do === "take over") self.skipWaiting();
if (event.data?.do === "tell") {
const path = fileOf(String(event.data.path ?? ""));
const revision = Object.hasOwn(COPY.revisions, path) ? COPY.revisions[path] : null;
event.ports[0]?.postMessage({ version: COPY.version, revision });
}
});
self.addEventListener("activate", (event) => event.waitUntil(activate()));
async function activate() {
const names = await caches.keys();
const old = names.filter((name) => name.startsWith(FAMILY) && name !== NAME);
await Promise.all(old.map((name) => caches.delete(name)));
}
self.addEventListener("fetch", (event) => {
const url = new URL(event.request.url);
if (event.request.method !== "GET" || url.origin !== ROOT.origin || !url.pathname.startsWith(ROOT.pathname)) return;
const path = fileOf(decoded(url.pathname.slice(ROOT.pathname.length)));
const hash = AT_ONCE.get(path) ?? LATER.get(path);
if (hash !== undefined) event.respondWith(kept(path, hash));
});
function decoded(path) {
try {
return decodeURIComponent(path);
} catch {
return path;
}
}
function fileOf(path) {
return path === "" || path.endsWith("/") ? `${path}index.html` : path;
}
const addressOf = (path) => new URL(path.split("/").map(encodeURIComponent).join("/"), ROOT).href;
async function keepAll() {
const cache = await caches.open(NAME);
const held = await caches.keys();
const earlier = held.filter((name) => name.startsWith(FAMILY) && name !== NAME);
for (const [path, hash] of AT_ONCE) {
if (await cache.match(addressOf(path))) continue;
const response = (await fromEarlier(earlier, path, hash)) ?? (await fetched(path, hash));
await cache.put(addressOf(path), response);
}
}
async function fromEarlier(names, path, hash) {
for (const name of names) {
const response = await (await caches.open(name)).match(addressOf(path));
if (response && (hash === "" || (await hashOf(response.clone())) === hash)) return response;
}
return null;
}
async function fetched(path, hash) {
const response = await fetch(addressOf(path), { cache: "no-cache", credentials: "same-origin" });
if (!response.ok) throw new Error(`${response.status} for ${path}`);
if (hash !== "" && (await hashOf(response.clone())) !== hash) throw new Error(`${path} is not of this version`);
return response.redirected ? new Response(await response.blob(), { headers: response.headers }) : response;
}
async function hashOf(response) {
const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await response.arrayBuffer()));
return [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join("").slice(0, 32);
}
async function kept(path, hash) {
const cache = await caches.open(NAME);
const found = await cache.match(addressOf(path));
if (found) return found;
try {
const response = await fetched(path, hash);
await cache.put(addressOf(path), response.clone()).catch(() => {});
return response;
} catch {
const other = Object.hasOwn(COPY.instead, path) ? await cache.match(addressOf(COPY.instead[path])) : undefined;
return other ?? Response.error();
}
}
