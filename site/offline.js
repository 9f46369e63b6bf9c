"use strict";
const COPY = {"version":"32145bee9f42d6533f90be648145a445","files":[["book.css","40be9e143b792c7141dabfc60b26923b"],["book.html","bb28f52abfbc63ed88bb503aa83d9fd6"],["hb-2/book.html","f6a6b6e1059cefd2843b97e46f67efe0"],["hb-2/builds/no-1.html","f89a1884609fdb652624734e5c5c8945"],["hb-2/cover-fill-load-test-sheet-E.html","c7b577f59c1e7a0c825cc0c34024edef"],["hb-2/cover-fill-load-test-sheet-M.html","fa366a4479c5dd17a8010565a35fb552"],["hb-2/cover-fill-load-test.behind.html","a6ce257d584dccdcbefd65418d6358ca"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","0d4ae70fec8cb0641d05f1ba3312f7c0"],["hb-2/cover-fill-load-test.source.html","d87edc1da7034f23bac0acc1c2ef4316"],["hb-2/housing-and-cups-sheet.html","791fa59669cf940da1e53b72fd9a94ae"],["hb-2/housing-and-cups.behind.html","be42b24d2d19d68a8b29b03e927e6cdd"],["hb-2/housing-and-cups.chapters.vtt","a6b30d180a4d97200c7ceeb85db65904"],["hb-2/housing-and-cups.html","d981cf8d1f39c0ce3fb664dd61b7843b"],["hb-2/housing-and-cups.source.html","59cb43899f89fb18c0dfacce5bb6bf2c"],["hb-2/index.html","8a7ab8013c9fb9b68a19ca6873b744e3"],["hb-2/machine.bulletins.html","f47bbda6446a749c249e56ea97a9c2dd"],["hb-2/machine.review.html","a7ace16102e805f8966c0cde3122d7fe"],["hb-2/machine.variants.html","9ed408a0b5200539eb427dd7ffef6a8d"],["hb-2/output-shaft-and-hub-nut-sheet.html","24553ff3141f0e8de2c9534ff5ae6056"],["hb-2/output-shaft-and-hub-nut.behind.html","e52a327b20ccbb69f7c6c75deff2ce7a"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","b2df44c094338304228fd797524a522c"],["hb-2/output-shaft-and-hub-nut.source.html","092b23e91a27834432fb4f84134e62da"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","083ef781a7a51dbd4807e2665da5e64b"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","c3f748663f4c7d2cf43bd671685447a7"],["hb-2/wet-brake-pack-sheet-kit.html","5513061a675a203d548a0c38a94f003a"],["hb-2/wet-brake-pack-sheet-stock.html","4d407ac3f6e2661fb4c8c8cc776392db"],["hb-2/wet-brake-pack.behind.html","451a6b7ff8bfee0dae640786d71ff2d3"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","cdb9fb4b0593ae0cadc466bc3f16c74c"],["hb-2/wet-brake-pack.source.html","4abb752b246610dea38faafe21b548bf"],["hb-2/worm-shaft-preload-sheet.html","0ba9fea5904ea7101686be2c62859395"],["hb-2/worm-shaft-preload.behind.html","d280c4f1387db8c57bf1939e25351932"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","e24d27271401e557ef0ff008b218c46e"],["hb-2/worm-shaft-preload.source.html","7492ad68d56fb86feb8b745136f1df23"],["index.html","6d38935a8b19c48b0e1dd11a28a85dc3"],["lists.css","6b31f3487a46d10809fb3590611ae3ae"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","a604ae4906e61f7ed0b559e1835154a1"],["page.js","140c6957b78b8b00980b14c64835808c"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","9ab083d59aeb7b5a59cfd951643793f3"],["search.css","4b6059b894726c0322265103c51e3a05"],["search.js","e419cce21baa3c91aa25fbd058df1e83"],["sheet.css","b2586214f766460072bc7a25c42b95b5"],["sheet.js","6db36a71074d25ec48251725bcfe8d09"],["tables/open-items.html","dc8a84ce85bcaefcaa01f19c13dece1a"],["tables/parts.html","f6c3874e0e2b1d479fd769c911f25f14"],["tables/people.html","e9a0ea1f2091e2c84f58fa5bd6454cc8"],["tables/seals.html","670f110f150191d782486ae0adc4e820"],["tables/terms.html","a37f9a2cae1bb2a95dd2fe9edd45b1f0"],["tables/thread-lockers.html","89b55b84920d9764f55b821a01f63604"],["tables/to-have.html","f600c89f5231e7bea49b5cfc0c5e5a02"],["tables/tools.html","fbfa5142cda18968aac01f3619ece7c6"],["tables/torque.html","c9d09be2cb0b5412bec8feba55bad85e"],["tarn-18/belt-and-flywheel-sheet-E.html","c02473731468c64655b47772d09b251a"],["tarn-18/belt-and-flywheel-sheet-R.html","a406c6b032342eea03d81e0aab040c1d"],["tarn-18/belt-and-flywheel.behind.html","a20425e5ba30bc0d287c7fa0d0bb2597"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","a1a69d16aa3c173b0fbb4de11f976897"],["tarn-18/belt-and-flywheel.source.html","6bac45096d4c20f45bffb11ce40421cd"],["tarn-18/book.html","0ed6c2489f0efa4da24c6398fafb7b4f"],["tarn-18/builds/no-3.html","cbe63d63db335b7c2f9d3fd2828721da"],["tarn-18/builds/no-7.html","351ed767df2450c0eaf7f199cc6351d7"],["tarn-18/close-crankcase-sheet.html","fddad0d9229bf97c82f1355c451e68d2"],["tarn-18/close-crankcase.behind.html","a05f63ee17dcfc260ff6da1cea2d9d53"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","adb2c86173cba89ceee4915f1fda1a1d"],["tarn-18/close-crankcase.source.html","bbc8d361d3099526109f4cba77d5bf3f"],["tarn-18/close-gearcase-board-mid-bolt.html","58f0879ae35d6e65eb926071c39c23ed"],["tarn-18/close-gearcase-sheet-L-fresh.html","0d0e5bc5fc4088274979fbd82ebcba70"],["tarn-18/close-gearcase-sheet-L-salt.html","f6b3e90a6a4a3e04090d09790917a047"],["tarn-18/close-gearcase-sheet-S-fresh.html","e87ea0b714d81253d259f3616f45283b"],["tarn-18/close-gearcase-sheet-S-salt.html","b02bcd40e06edd234cf7ce68d26cae7f"],["tarn-18/close-gearcase.behind.html","fae0d9d3bfb1184db0b73d0108dc620c"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","e6d7c0a30b962aaba2a361b93e52dd89"],["tarn-18/close-gearcase.source.html","ccf02c861db8a3ca9a371f5f34777ffd"],["tarn-18/crank-rods-pistons-sheet.html","ce9d51f62c0f4c0697ed9e61bff0608d"],["tarn-18/crank-rods-pistons.behind.html","1bb6a958a4228e9cb0d828dcd0a1e940"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","b22363a03aaa7c036179079d66eda99e"],["tarn-18/crank-rods-pistons.source.html","6d685d1b07c030c373bd0b0226907d15"],["tarn-18/first-start-sheet-E.html","14db80db5c9b9ab313b1eac7f840067e"],["tarn-18/first-start-sheet-R.html","1ae094d58657cd3a21b4649f33c02c8c"],["tarn-18/first-start.behind.html","2a8effa0732907cd67f8d463cca06e12"],["tarn-18/first-start.chapters.vtt","89b74848c61de1fe082714651307644a"],["tarn-18/first-start.html","28d478e77a89255a35a2ec49edb6aed5"],["tarn-18/first-start.source.html","77344cb3f9fd300b8bd4b80ce375d29f"],["tarn-18/head-valves-camshaft-board-head-bolt.html","fcb69b71d72fb49a0f066a6eb9f86c82"],["tarn-18/head-valves-camshaft-sheet.html","48dab4c455b46dde744fc6ad8c77f18e"],["tarn-18/head-valves-camshaft.behind.html","4a29936defd4a6e433ba7eb45b3d3ed1"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","0139a62a01c5d15baef3efee75eac149"],["tarn-18/head-valves-camshaft.source.html","dc3481a61682b255d7754c684a36b899"],["tarn-18/index.html","0a6482a290d8851f16571d0292967934"],["tarn-18/machine.bulletins.html","ff4dcb6c0449bfd8ba527953bfc688aa"],["tarn-18/machine.review.html","cc27c09d35ac358bee8ac4ef0dbf77cd"],["tarn-18/machine.variants.html","2a6b23205f2dde2f8911e3760ea7798e"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","bf08c6758032ff5628d0fe46e6f7c707"],["tarn-18/pinion-height-and-backlash-sheet-late.html","02c125e2eecf20d2480ee750a92e4054"],["tarn-18/pinion-height-and-backlash.behind.html","17f4d13758bf85b38dea747f6030214a"],["tarn-18/pinion-height-and-backlash.chapters.vtt","b28d58abdf10ffc0137ec6ef8a45f4c7"],["tarn-18/pinion-height-and-backlash.html","0340e247a30a64769f2265fe842311da"],["tarn-18/pinion-height-and-backlash.source.html","8d3c904d2c6b73fdca4b71e0be023166"],["tarn-18/propeller-shaft-carrier-sheet.html","7bdf82afc289d984a702db8083fe3298"],["tarn-18/propeller-shaft-carrier.behind.html","97c7bef6581d18cbf1554680c62405ac"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","fccd9cb5d8cc7915e7795057343a042e"],["tarn-18/propeller-shaft-carrier.source.html","d1cec6ff64d49d3b183230335a9714e5"],["tarn-18/strip-and-tag-sheet-L-E.html","06bc27cdd8e9dbefcdabe207db1c09c6"],["tarn-18/strip-and-tag-sheet-L-R.html","f049df764d9e7959b4a7d3c8c7e59c99"],["tarn-18/strip-and-tag-sheet-S-E.html","3eb890a2d8925eda6ec7275b8f5045b0"],["tarn-18/strip-and-tag-sheet-S-R.html","60a97a3eecf561c577039b207b8cfd22"],["tarn-18/strip-and-tag.behind.html","024f51c3c733f97057a460ec7188de61"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","89ec252df48521cc3c045832b912f431"],["tarn-18/strip-and-tag.source.html","36a72a58a1feaceff4d7faf0eaac28e6"],["tarn-18/torque-card.html","dfe8cea692466c413ac44c07248ccf4b"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
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
