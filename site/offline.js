"use strict";
const COPY = {"version":"0c886ddc55876bd7cb95e17c21cbd3d1","files":[["book.css","f82b299dd8eb2e7361612afe79b8f192"],["book.html","3ec4038b05ffffe203af749c1ae405a8"],["hb-2/book.html","48072357ff045611fa0d6b5f802a0614"],["hb-2/builds/no-1.html","99d9c0c8fad9c19fb324ed2557fab815"],["hb-2/cover-fill-load-test-sheet-E.html","d653bb32646068f64e9ab83129829ef7"],["hb-2/cover-fill-load-test-sheet-M.html","bb453129bb0c103d89e1c82e3d640383"],["hb-2/cover-fill-load-test.behind.html","d37a82b340fc5d09bd53e3a03255d6d3"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","d5743bf956f888f86992eab886183086"],["hb-2/cover-fill-load-test.source.html","d87edc1da7034f23bac0acc1c2ef4316"],["hb-2/housing-and-cups-sheet-kit.html","c1d12ba7fa4223a94bd96156038eb160"],["hb-2/housing-and-cups-sheet-stock.html","46a9658166022a54065874c0c44c9102"],["hb-2/housing-and-cups.behind.html","6fbcf25c2198540e99ecd3f575fcc1df"],["hb-2/housing-and-cups.chapters.vtt","07aa014440bd1df1a448c197af8fd8f8"],["hb-2/housing-and-cups.html","0d0675c5aa6cc8154e1870766a6fc18b"],["hb-2/housing-and-cups.source.html","dc835f2e290ca00f09cbe280f5e9688d"],["hb-2/index.html","26761406f2a981650b0ecf460df25408"],["hb-2/machine.bulletins.html","dc983dc03b56a9f76163dcac51ace6df"],["hb-2/machine.review.html","d51cd2757dbe936fda5e06efdd0974aa"],["hb-2/machine.variants.html","233c272fd6d4a71e04fabd3c12941007"],["hb-2/output-shaft-and-hub-nut-sheet.html","c495ebc806b38750f3d48550e0f4f1ea"],["hb-2/output-shaft-and-hub-nut.behind.html","661d5220eb23affa4754ba088541839f"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","33184fa2556fb6413a65cf8ed6822630"],["hb-2/output-shaft-and-hub-nut.source.html","808320f41e97211702d6cfd1b910ed7e"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/ease-springs.svg","ade5e509598eaf0b8584e9aaf0d8934e"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","8bbcbd7bb76c500b949e8125cd764fa0"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","c3d1f6d84a49bea85df7e409ea3cb77b"],["hb-2/wet-brake-pack-sheet-kit.html","ad892417c2770e79444b5da0765aa897"],["hb-2/wet-brake-pack-sheet-stock.html","db30c0a27b30de4a3a61cc0ebecca9bd"],["hb-2/wet-brake-pack.behind.html","5c38e2ec3015069ca57711519e25dd4d"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","1dd63bd0572bb24e9c5d8f2f247fdd26"],["hb-2/wet-brake-pack.source.html","888d6b6d1ee8cd1ec446673691b3a5d1"],["hb-2/worm-shaft-preload-sheet.html","bcff8d498b5233b0fdd445662eea1592"],["hb-2/worm-shaft-preload.behind.html","db672c932d634dc3f6fb72ee24c5438a"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","757403d2e50dcf119ef51b36127fe878"],["hb-2/worm-shaft-preload.source.html","6061fb9d15eaab9e4f8eae86bb8c38ea"],["index.html","9ca30d911427c7b2650750b78076f916"],["lists.css","b2a2ee2b88c382b425bb1760955a3d30"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","c28754e022cf0d0fd7d54933673b31a8"],["page.js","140c6957b78b8b00980b14c64835808c"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","78f1c4fa6150a6db982072b58208dc0e"],["search.css","4b6059b894726c0322265103c51e3a05"],["search.js","e419cce21baa3c91aa25fbd058df1e83"],["sheet.css","1bb182ac2a9c5c197a209c6d94019f0a"],["sheet.js","78cac100804053776fe2ced2d624534a"],["tables/open-items.html","d507192c2fd0fdce1482d8088ce4c7e5"],["tables/parts.html","84426d71d22aeefe6cc794fb7ef5af67"],["tables/people.html","eb6c1480daccf8e5ddb53ec7165f0f51"],["tables/seals.html","ed4916ae7ea6d4ba4ce17c021f37f977"],["tables/terms.html","b7a029425cae7044c98b1493aab77ed5"],["tables/thread-lockers.html","ff6725965c1b5fe56a27848b613302a9"],["tables/to-have.html","abe7ecb6ed67fd24c4eee69e11f8206b"],["tables/tools.html","7dc25319e92e2be96bc93a9fd51d5108"],["tables/torque.html","b65fc9750a9bf1075bcce58a62eb0be5"],["tarn-18/belt-and-flywheel-sheet-E.html","6d2fe0b298ef8b364ceda91a0e005ca9"],["tarn-18/belt-and-flywheel-sheet-R.html","82af6ef4a6e85d200a462a5c554138bb"],["tarn-18/belt-and-flywheel.behind.html","0a87d52459f8df1e7e87e55cd159bb1a"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","9d483a142543b52dbe857add6e9b7bd6"],["tarn-18/belt-and-flywheel.source.html","6bac45096d4c20f45bffb11ce40421cd"],["tarn-18/book.html","913f65b7b0a9ba9a00629df59d50c6ca"],["tarn-18/builds/no-3.html","ba7d368fa18cd92e5c3f4706a860556d"],["tarn-18/builds/no-7.html","4c49563408be232969e669f8eaf0481a"],["tarn-18/close-crankcase-sheet.html","b900c1c41b19e6ecb387d41c0986c260"],["tarn-18/close-crankcase.behind.html","3d3db76eb1bb98cca80afbd1fb9c32de"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","2dbef2ed8e9b3cfdbf53c4f4b1000f7d"],["tarn-18/close-crankcase.source.html","d6536d6433857448b6b9065e9f29aa19"],["tarn-18/close-gearcase-board-mid-bolt.html","935a70b234ad8f50b91108cad2999df3"],["tarn-18/close-gearcase-sheet-L-fresh.html","1d9f777508f7b40d761d164f39a3745e"],["tarn-18/close-gearcase-sheet-L-salt.html","331351313650996e98ab7553954511af"],["tarn-18/close-gearcase-sheet-S-fresh.html","41bc1f59f00463531969a7af645c6edb"],["tarn-18/close-gearcase-sheet-S-salt.html","1413dc77e91a655240014b89f77eb313"],["tarn-18/close-gearcase.behind.html","d33a4cb19c669372f573fa9d8ec2b9af"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","85ca7316c4226f0666e16790a54accb8"],["tarn-18/close-gearcase.source.html","8e3c90468d135aaa1e04b62ec6931927"],["tarn-18/crank-rods-pistons-sheet.html","24c4f7c0f5333d9371722f177d7a5eeb"],["tarn-18/crank-rods-pistons.behind.html","e056e6054062c07d74515bdf9e7c09a1"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","2d006347f0c289ce85ecba5f6561711b"],["tarn-18/crank-rods-pistons.source.html","116d7abf16c75ea6c69a551a2d745e54"],["tarn-18/first-start-sheet-E.html","ae400c222552e3b91c544d3ba3fa11c9"],["tarn-18/first-start-sheet-R.html","e39ce16f25589ad18cc61d29213b8bc9"],["tarn-18/first-start.behind.html","d50a20616402c2c77faa4e3618322c67"],["tarn-18/first-start.chapters.vtt","edcedcc671776142b3d4faa36af0b881"],["tarn-18/first-start.html","d1b7c9f38915fff410aa177ff30eba4d"],["tarn-18/first-start.source.html","7a0f62c9c4139a8b7e049d90d6e5454a"],["tarn-18/head-valves-camshaft-board-head-bolt.html","908d32cac7d42951abed81b505dd794a"],["tarn-18/head-valves-camshaft-sheet.html","11ad775df0c521a1bfb3f12d439bd205"],["tarn-18/head-valves-camshaft.behind.html","e6e9f97eb90c9a166a961bd9610abfb3"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","1dbd1f661e088a4d376270dffea824de"],["tarn-18/head-valves-camshaft.source.html","b3991ff1dfeac052e05f4c8e2078faab"],["tarn-18/index.html","c04161195d7da6ccac8b56ec614356d4"],["tarn-18/machine.bulletins.html","3bc79322aa9736e4c1d065aad0b04287"],["tarn-18/machine.review.html","1d95939b5e6b4aa3582aa7ae9879e6a3"],["tarn-18/machine.variants.html","e4d84d8cfba78317bfe2353bcb24cc8a"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","47fb725c19039e9b2409a4f93a393944"],["tarn-18/pinion-height-and-backlash-sheet-late.html","8184d5d65f4625aeafd18404364e4617"],["tarn-18/pinion-height-and-backlash.behind.html","c8c42fd9ff2e4c0a9d14d0b5610d9a1f"],["tarn-18/pinion-height-and-backlash.chapters.vtt","562d4ebcd6c7b348f4082715115cff43"],["tarn-18/pinion-height-and-backlash.html","903cac2baa1016fb38bf1f2b0e4244ed"],["tarn-18/pinion-height-and-backlash.source.html","f9aa02257ea7db73081ae76c0c8a3d24"],["tarn-18/propeller-shaft-carrier-sheet.html","6a9ca22b98dd3325537f5bbf0f50c606"],["tarn-18/propeller-shaft-carrier.behind.html","0ace0b418269eb79048715a902b8bd81"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","78e121a874040d3bf17cbd1236960ff3"],["tarn-18/propeller-shaft-carrier.source.html","d1cec6ff64d49d3b183230335a9714e5"],["tarn-18/strip-and-tag-sheet-L-E.html","c0497e9df508463521b8ab9b7f17abce"],["tarn-18/strip-and-tag-sheet-L-R.html","f36fa2fdaca22a8235d7eb39e37ef97c"],["tarn-18/strip-and-tag-sheet-S-E.html","890731d7a6d8932ce11536e85b9e230f"],["tarn-18/strip-and-tag-sheet-S-R.html","d040a680ccc8c0a54526f8e2adff0f14"],["tarn-18/strip-and-tag.behind.html","da298754c2790b7b1c000db425cabd35"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","93eed705ad4b209704a9709299cda81e"],["tarn-18/strip-and-tag.source.html","29c1e5750d7123bc699a67dd63b67a43"],["tarn-18/torque-card.html","de11e2a58daefef6455fbefc14e5b6d5"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet-kit.html":1,"hb-2/housing-and-cups-sheet-stock.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
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
