"use strict";
const COPY = {"version":"87f34f7b7888cd8671592891215f12a2","files":[["book.css","f82b299dd8eb2e7361612afe79b8f192"],["book.html","1f4fef8af4bc54fa7da8cc77572d1e1a"],["hb-2/book.html","c9644cfb05b0640c9def1f9f5c08a174"],["hb-2/builds/no-1.html","f65b380529218fadc56a96d370707cc1"],["hb-2/cover-fill-load-test-sheet-E.html","e89539dbb2a72c7b1e5d8426e61451f2"],["hb-2/cover-fill-load-test-sheet-M.html","2029dff1195043944c60235c9a403192"],["hb-2/cover-fill-load-test.behind.html","d37a82b340fc5d09bd53e3a03255d6d3"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","c7f26a7eb2605797ff63b28b234bdc4c"],["hb-2/cover-fill-load-test.source.html","d87edc1da7034f23bac0acc1c2ef4316"],["hb-2/housing-and-cups-sheet-kit.html","e5d4877ce62df9a4f420aa99d5d3ef69"],["hb-2/housing-and-cups-sheet-stock.html","04f358a1e8bcf9ff8a9ce6a59e5ecd63"],["hb-2/housing-and-cups.behind.html","6fbcf25c2198540e99ecd3f575fcc1df"],["hb-2/housing-and-cups.chapters.vtt","07aa014440bd1df1a448c197af8fd8f8"],["hb-2/housing-and-cups.html","52a9040bcf3c23cdbea105815b9138a1"],["hb-2/housing-and-cups.source.html","dc835f2e290ca00f09cbe280f5e9688d"],["hb-2/index.html","8a02d9a74bbc4d245bf73df10c673530"],["hb-2/machine.bulletins.html","4b2ec4d96fdcf737200e091fd2f7f3ca"],["hb-2/machine.review.html","1188b49cc741e916323e163ae1894142"],["hb-2/machine.variants.html","233c272fd6d4a71e04fabd3c12941007"],["hb-2/output-shaft-and-hub-nut-sheet.html","b13fccc83b6d959682167aa23e648154"],["hb-2/output-shaft-and-hub-nut.behind.html","661d5220eb23affa4754ba088541839f"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","e1e1aa774a5c561398a19c3715d96928"],["hb-2/output-shaft-and-hub-nut.source.html","808320f41e97211702d6cfd1b910ed7e"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/ease-springs.svg","ade5e509598eaf0b8584e9aaf0d8934e"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","8bbcbd7bb76c500b949e8125cd764fa0"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","f09eb139ce13ce521e4fb8a7e380849f"],["hb-2/wet-brake-pack-sheet-kit.html","708257c29d9c2387f5d17fa75b0e9b27"],["hb-2/wet-brake-pack-sheet-stock.html","b580dceb62cb1106d2918ad9dc122142"],["hb-2/wet-brake-pack.behind.html","5c38e2ec3015069ca57711519e25dd4d"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","96e31e71c037caf811691a83e3fa211b"],["hb-2/wet-brake-pack.source.html","888d6b6d1ee8cd1ec446673691b3a5d1"],["hb-2/worm-shaft-preload-sheet.html","207414622b85088c6257cf81c2203c3c"],["hb-2/worm-shaft-preload.behind.html","db672c932d634dc3f6fb72ee24c5438a"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","ad93937f2d53ffccfbe32be0ce0dcff1"],["hb-2/worm-shaft-preload.source.html","9912cbd6364851134b58681f6acec02c"],["index.html","9ca30d911427c7b2650750b78076f916"],["lists.css","b2a2ee2b88c382b425bb1760955a3d30"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","c28754e022cf0d0fd7d54933673b31a8"],["page.js","140c6957b78b8b00980b14c64835808c"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","34223da3a72e5b56f3056fd3b4af21b7"],["search.css","4b6059b894726c0322265103c51e3a05"],["search.js","e419cce21baa3c91aa25fbd058df1e83"],["sheet.css","7ad5c9ea8995f2ad9c8f4d5766f54bec"],["sheet.js","0ad418ec785d8ffe3578e610311f875d"],["tables/open-items.html","0d55f4e7e1590eeb656d59f59acee027"],["tables/parts.html","5df76940e7d222adc7245923f0680550"],["tables/people.html","db0b6c2b5d44d0c206d3419fc3308b90"],["tables/seals.html","ed4916ae7ea6d4ba4ce17c021f37f977"],["tables/terms.html","b7a029425cae7044c98b1493aab77ed5"],["tables/thread-lockers.html","ff6725965c1b5fe56a27848b613302a9"],["tables/to-have.html","f575bd719935dba37654f00e05e1fcd3"],["tables/tools.html","776520d0d9d94c278058f2be105a4ec1"],["tables/torque.html","9e3379ad6e3e4ff42867f295cc85a617"],["tarn-18/belt-and-flywheel-sheet-E.html","04eb65190ddf05e8232d52aa569ff673"],["tarn-18/belt-and-flywheel-sheet-R.html","83d0d35d884451fac5802a65511e374a"],["tarn-18/belt-and-flywheel.behind.html","19fb69c67104059234950f02f54901a2"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","24179614a662b2234195841ae6250741"],["tarn-18/belt-and-flywheel.source.html","6bac45096d4c20f45bffb11ce40421cd"],["tarn-18/book.html","ef7a198e1cbe958272b21e3fb8030f99"],["tarn-18/builds/no-3.html","ba7d368fa18cd92e5c3f4706a860556d"],["tarn-18/builds/no-7.html","94c0ae8b03f80c33ea84841c90ee55f3"],["tarn-18/close-crankcase-sheet.html","5699ee3871b978e1026e4be1a0137894"],["tarn-18/close-crankcase.behind.html","3d3db76eb1bb98cca80afbd1fb9c32de"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","9ff6d48c71f7b04b510c81104357f27b"],["tarn-18/close-crankcase.source.html","d6536d6433857448b6b9065e9f29aa19"],["tarn-18/close-gearcase-board-mid-bolt.html","42976f4e705953165e7e2c958136ed0a"],["tarn-18/close-gearcase-sheet-L-fresh.html","315dec61f7df2b377d8d9d8a7e0532eb"],["tarn-18/close-gearcase-sheet-L-salt.html","f696961fe30f20451ba97bb8e1160756"],["tarn-18/close-gearcase-sheet-S-fresh.html","35496363d5fbd2299dacf663abd2e5c7"],["tarn-18/close-gearcase-sheet-S-salt.html","4858c6b2058407dada98556ecc1fae2f"],["tarn-18/close-gearcase.behind.html","d33a4cb19c669372f573fa9d8ec2b9af"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","84b0850569c35be23967c249af682710"],["tarn-18/close-gearcase.source.html","8e3c90468d135aaa1e04b62ec6931927"],["tarn-18/crank-rods-pistons-sheet.html","010ac725edfada513d473d8fcf0e8241"],["tarn-18/crank-rods-pistons.behind.html","e056e6054062c07d74515bdf9e7c09a1"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","135089d53f8af02767795bcce57f3897"],["tarn-18/crank-rods-pistons.source.html","116d7abf16c75ea6c69a551a2d745e54"],["tarn-18/first-start-sheet-E.html","4e00daf2497a31e8a9996c39d482c723"],["tarn-18/first-start-sheet-R.html","04abc0f4ba20ffa78a8da776fa31ab34"],["tarn-18/first-start.behind.html","b3b1997d4d9a077cd56c009fbaba883b"],["tarn-18/first-start.chapters.vtt","14d5bea3eb3a63450b5225d0cfa788ce"],["tarn-18/first-start.html","289723a25ebceb2f52dadafd5694049c"],["tarn-18/first-start.source.html","13f2baea14a608b986d14c4f1dae39d8"],["tarn-18/head-valves-camshaft-board-head-bolt.html","fdb97d1c08a916435233f1b607d809a9"],["tarn-18/head-valves-camshaft-sheet.html","7a12266f8b7d6a90d95fc98150ddd7eb"],["tarn-18/head-valves-camshaft.behind.html","e6e9f97eb90c9a166a961bd9610abfb3"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","ec171b38be34508d7dccc70e508cf935"],["tarn-18/head-valves-camshaft.source.html","ae68c7490393aa9b4ed55d2590496f66"],["tarn-18/index.html","8e64e323daa0042f85f945b13dd1ba56"],["tarn-18/machine.bulletins.html","4793e68143c910b4c569f037af1a3546"],["tarn-18/machine.review.html","f05ac3622e99abcf670e6159d1d4ce24"],["tarn-18/machine.variants.html","e4d84d8cfba78317bfe2353bcb24cc8a"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","5ce19c8ed08fd32ec7f925165d4abab9"],["tarn-18/pinion-height-and-backlash-sheet-late.html","b33dcdb9d4b920e3878711c30a5e1caf"],["tarn-18/pinion-height-and-backlash.behind.html","c8c42fd9ff2e4c0a9d14d0b5610d9a1f"],["tarn-18/pinion-height-and-backlash.chapters.vtt","562d4ebcd6c7b348f4082715115cff43"],["tarn-18/pinion-height-and-backlash.html","6e76f83c17ea2dfb5a85086ddc85f570"],["tarn-18/pinion-height-and-backlash.source.html","f9aa02257ea7db73081ae76c0c8a3d24"],["tarn-18/propeller-shaft-carrier-sheet.html","59a38dd2fcaa9d9c73047e6574125d70"],["tarn-18/propeller-shaft-carrier.behind.html","0ace0b418269eb79048715a902b8bd81"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","f5c84b0351ac9942d6f505fc950e9d61"],["tarn-18/propeller-shaft-carrier.source.html","d1cec6ff64d49d3b183230335a9714e5"],["tarn-18/strip-and-tag-sheet-L-E.html","05a91523660590594cd889fa5c4b337f"],["tarn-18/strip-and-tag-sheet-L-R.html","6a0db728c1283ff44402e50dbeb02982"],["tarn-18/strip-and-tag-sheet-S-E.html","597b6460579cb88ee756d7f14800dfcd"],["tarn-18/strip-and-tag-sheet-S-R.html","c5a2f96c5229e527f1102f31c6354317"],["tarn-18/strip-and-tag.behind.html","da298754c2790b7b1c000db425cabd35"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","42713022e8aa66ba13d85290dd9afd37"],["tarn-18/strip-and-tag.source.html","96526a18f8d8f9285a0cb17fd532f800"],["tarn-18/torque-card.html","0e7b08dbe62a757e1ef8c4f7e63dfe34"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet-kit.html":1,"hb-2/housing-and-cups-sheet-stock.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
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
