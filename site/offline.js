"use strict";
const COPY = {"version":"2e8d929fd2bdd9510dd4ed51aeae5d59","files":[["book.css","f82b299dd8eb2e7361612afe79b8f192"],["book.html","8f9130feb110a61904251a5cb7b2bfc1"],["hb-2/book.html","0c37acdff861f84ade1b127c33f83814"],["hb-2/builds/no-1.html","f65b380529218fadc56a96d370707cc1"],["hb-2/cover-fill-load-test-sheet-E.html","f8b0211f1ab5dec509fb35136daee174"],["hb-2/cover-fill-load-test-sheet-M.html","412d8f5cbf9dd8c7256dcdadf38ae08f"],["hb-2/cover-fill-load-test.behind.html","d37a82b340fc5d09bd53e3a03255d6d3"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","d5743bf956f888f86992eab886183086"],["hb-2/cover-fill-load-test.source.html","d87edc1da7034f23bac0acc1c2ef4316"],["hb-2/housing-and-cups-sheet-kit.html","fb3905508737f3009f49002e03aeaa54"],["hb-2/housing-and-cups-sheet-stock.html","1a03eb8b96dd3b79fabca26300b8290c"],["hb-2/housing-and-cups.behind.html","6fbcf25c2198540e99ecd3f575fcc1df"],["hb-2/housing-and-cups.chapters.vtt","07aa014440bd1df1a448c197af8fd8f8"],["hb-2/housing-and-cups.html","52a9040bcf3c23cdbea105815b9138a1"],["hb-2/housing-and-cups.source.html","dc835f2e290ca00f09cbe280f5e9688d"],["hb-2/index.html","40af71c8050710edaf26dbef6ee34025"],["hb-2/machine.bulletins.html","4b2ec4d96fdcf737200e091fd2f7f3ca"],["hb-2/machine.review.html","1188b49cc741e916323e163ae1894142"],["hb-2/machine.variants.html","233c272fd6d4a71e04fabd3c12941007"],["hb-2/output-shaft-and-hub-nut-sheet.html","438508d47a6d5b766b00d175c4613a76"],["hb-2/output-shaft-and-hub-nut.behind.html","661d5220eb23affa4754ba088541839f"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","d6f085d3357c06d7d992afe799fe9bc0"],["hb-2/output-shaft-and-hub-nut.source.html","808320f41e97211702d6cfd1b910ed7e"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/ease-springs.svg","ade5e509598eaf0b8584e9aaf0d8934e"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","8bbcbd7bb76c500b949e8125cd764fa0"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","c3d1f6d84a49bea85df7e409ea3cb77b"],["hb-2/wet-brake-pack-sheet-kit.html","a1414644010742f34fefef6175f81fd1"],["hb-2/wet-brake-pack-sheet-stock.html","4b79046acb0d735e2786fe355680ed32"],["hb-2/wet-brake-pack.behind.html","5c38e2ec3015069ca57711519e25dd4d"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","1dd63bd0572bb24e9c5d8f2f247fdd26"],["hb-2/wet-brake-pack.source.html","888d6b6d1ee8cd1ec446673691b3a5d1"],["hb-2/worm-shaft-preload-sheet.html","83f3b2691be83514bfc8d071fd81f8b7"],["hb-2/worm-shaft-preload.behind.html","db672c932d634dc3f6fb72ee24c5438a"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","53ea1f122f5af6505fa9a25c3ef06f81"],["hb-2/worm-shaft-preload.source.html","9912cbd6364851134b58681f6acec02c"],["index.html","9ca30d911427c7b2650750b78076f916"],["lists.css","b2a2ee2b88c382b425bb1760955a3d30"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","c28754e022cf0d0fd7d54933673b31a8"],["page.js","140c6957b78b8b00980b14c64835808c"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","34223da3a72e5b56f3056fd3b4af21b7"],["search.css","4b6059b894726c0322265103c51e3a05"],["search.js","e419cce21baa3c91aa25fbd058df1e83"],["sheet.css","7ad5c9ea8995f2ad9c8f4d5766f54bec"],["sheet.js","0ad418ec785d8ffe3578e610311f875d"],["tables/open-items.html","0d55f4e7e1590eeb656d59f59acee027"],["tables/parts.html","5df76940e7d222adc7245923f0680550"],["tables/people.html","db0b6c2b5d44d0c206d3419fc3308b90"],["tables/seals.html","ed4916ae7ea6d4ba4ce17c021f37f977"],["tables/terms.html","b7a029425cae7044c98b1493aab77ed5"],["tables/thread-lockers.html","ff6725965c1b5fe56a27848b613302a9"],["tables/to-have.html","f575bd719935dba37654f00e05e1fcd3"],["tables/tools.html","776520d0d9d94c278058f2be105a4ec1"],["tables/torque.html","b65fc9750a9bf1075bcce58a62eb0be5"],["tarn-18/belt-and-flywheel-sheet-E.html","dec86b6e99d6e6eb3703cddfaea05db9"],["tarn-18/belt-and-flywheel-sheet-R.html","9bc896d51bb5ee9dc49b348feed37f56"],["tarn-18/belt-and-flywheel.behind.html","19fb69c67104059234950f02f54901a2"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","4fce61d1add385e20f07ca7ccf807bdb"],["tarn-18/belt-and-flywheel.source.html","6bac45096d4c20f45bffb11ce40421cd"],["tarn-18/book.html","9d65973c911143f685d86cc7c20b22b3"],["tarn-18/builds/no-3.html","ba7d368fa18cd92e5c3f4706a860556d"],["tarn-18/builds/no-7.html","94c0ae8b03f80c33ea84841c90ee55f3"],["tarn-18/close-crankcase-sheet.html","3745fe5400d7124b2244df3a91614f0b"],["tarn-18/close-crankcase.behind.html","3d3db76eb1bb98cca80afbd1fb9c32de"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","31ddf5fc735657d67a9b67dc6c7b5275"],["tarn-18/close-crankcase.source.html","d6536d6433857448b6b9065e9f29aa19"],["tarn-18/close-gearcase-board-mid-bolt.html","935a70b234ad8f50b91108cad2999df3"],["tarn-18/close-gearcase-sheet-L-fresh.html","341a40a2602a58f71c927b196edb4462"],["tarn-18/close-gearcase-sheet-L-salt.html","1da3e5dfecaff1a8a6526cae8ff7a355"],["tarn-18/close-gearcase-sheet-S-fresh.html","f60b41da3389ad8a823ffc9ed3324ea9"],["tarn-18/close-gearcase-sheet-S-salt.html","8a46a15a085c0e574a8cc54398f4fb63"],["tarn-18/close-gearcase.behind.html","d33a4cb19c669372f573fa9d8ec2b9af"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","85ca7316c4226f0666e16790a54accb8"],["tarn-18/close-gearcase.source.html","8e3c90468d135aaa1e04b62ec6931927"],["tarn-18/crank-rods-pistons-sheet.html","18f2a9e224fb136eeaae7ecbb112c39c"],["tarn-18/crank-rods-pistons.behind.html","e056e6054062c07d74515bdf9e7c09a1"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","cfa275fbc54c9db2689740ab81ac984c"],["tarn-18/crank-rods-pistons.source.html","116d7abf16c75ea6c69a551a2d745e54"],["tarn-18/first-start-sheet-E.html","50d2a6ad10a86a0ff005ee786b4b58e6"],["tarn-18/first-start-sheet-R.html","965d606cb9210a644518bb9ee4b00119"],["tarn-18/first-start.behind.html","b3b1997d4d9a077cd56c009fbaba883b"],["tarn-18/first-start.chapters.vtt","14d5bea3eb3a63450b5225d0cfa788ce"],["tarn-18/first-start.html","90c06aac3b7fa4eef780002adb277e0d"],["tarn-18/first-start.source.html","13f2baea14a608b986d14c4f1dae39d8"],["tarn-18/head-valves-camshaft-board-head-bolt.html","908d32cac7d42951abed81b505dd794a"],["tarn-18/head-valves-camshaft-sheet.html","99575671a13c93da5033a69fd12c56fd"],["tarn-18/head-valves-camshaft.behind.html","e6e9f97eb90c9a166a961bd9610abfb3"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","9786758e0d0720f78ae9edffde0d3a38"],["tarn-18/head-valves-camshaft.source.html","ae68c7490393aa9b4ed55d2590496f66"],["tarn-18/index.html","f07e7fb4d052582c7444de672e0ccb44"],["tarn-18/machine.bulletins.html","4793e68143c910b4c569f037af1a3546"],["tarn-18/machine.review.html","f05ac3622e99abcf670e6159d1d4ce24"],["tarn-18/machine.variants.html","e4d84d8cfba78317bfe2353bcb24cc8a"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","3010a62db6962d117a299ba48ff91966"],["tarn-18/pinion-height-and-backlash-sheet-late.html","c9654d346186760a82ffad6336cd6b3c"],["tarn-18/pinion-height-and-backlash.behind.html","c8c42fd9ff2e4c0a9d14d0b5610d9a1f"],["tarn-18/pinion-height-and-backlash.chapters.vtt","562d4ebcd6c7b348f4082715115cff43"],["tarn-18/pinion-height-and-backlash.html","6e76f83c17ea2dfb5a85086ddc85f570"],["tarn-18/pinion-height-and-backlash.source.html","f9aa02257ea7db73081ae76c0c8a3d24"],["tarn-18/propeller-shaft-carrier-sheet.html","59a38dd2fcaa9d9c73047e6574125d70"],["tarn-18/propeller-shaft-carrier.behind.html","0ace0b418269eb79048715a902b8bd81"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","f5c84b0351ac9942d6f505fc950e9d61"],["tarn-18/propeller-shaft-carrier.source.html","d1cec6ff64d49d3b183230335a9714e5"],["tarn-18/strip-and-tag-sheet-L-E.html","1776479c230e3df9fb9e48c11643dd97"],["tarn-18/strip-and-tag-sheet-L-R.html","33f624b4e51680a7c7b15163cbfc4259"],["tarn-18/strip-and-tag-sheet-S-E.html","115f5c09899a852cc4464a7c9fb43734"],["tarn-18/strip-and-tag-sheet-S-R.html","bd741814c3744510fa7e45b7eae5d844"],["tarn-18/strip-and-tag.behind.html","da298754c2790b7b1c000db425cabd35"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","42713022e8aa66ba13d85290dd9afd37"],["tarn-18/strip-and-tag.source.html","96526a18f8d8f9285a0cb17fd532f800"],["tarn-18/torque-card.html","de11e2a58daefef6455fbefc14e5b6d5"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet-kit.html":1,"hb-2/housing-and-cups-sheet-stock.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
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
