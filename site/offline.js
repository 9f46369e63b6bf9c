"use strict";
const COPY = {"version":"3d11cf344495c550b9d9e66f163512ed","files":[["book.css","0b466f92c99ed0334e5a95a581e77ff5"],["book.html","76c0a18d4e24e4be45564dc8d992bcc4"],["hb-2/book.html","d325d1fd8f630aa1ae7c54fa80cff434"],["hb-2/builds/no-1.html","125d182d4a3e4d8b50c9d154db7b9703"],["hb-2/cover-fill-load-test-sheet-E.html","541d31e3d098a9e49bb401b8f0400f59"],["hb-2/cover-fill-load-test-sheet-M.html","27d69633485944724d236491093faf54"],["hb-2/cover-fill-load-test.behind.html","b919af85ca4c8154ab5716e3bca5bbf9"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","6f8509f933c5792f30db1204ca93aec3"],["hb-2/cover-fill-load-test.source.html","e2aa015d9031705a3c20217605088588"],["hb-2/housing-and-cups-sheet-kit.html","9b275740b60db099de44a6639431a233"],["hb-2/housing-and-cups-sheet-stock.html","97091b21bf86c43785f6f213e162a59f"],["hb-2/housing-and-cups.behind.html","6fbcf25c2198540e99ecd3f575fcc1df"],["hb-2/housing-and-cups.chapters.vtt","07aa014440bd1df1a448c197af8fd8f8"],["hb-2/housing-and-cups.html","adb2557578546d176da8f5c89137036d"],["hb-2/housing-and-cups.source.html","dc835f2e290ca00f09cbe280f5e9688d"],["hb-2/index.html","7c04535b38123c3ded4617ae955f2e44"],["hb-2/machine.bulletins.html","dc983dc03b56a9f76163dcac51ace6df"],["hb-2/machine.review.html","5b89c5b1f5909756767e23acc581d874"],["hb-2/machine.variants.html","ebb1ad1f0d9a1d3f2656111c9100129b"],["hb-2/output-shaft-and-hub-nut-sheet.html","b61e151c6524d8fbc7e6cc693bf8e756"],["hb-2/output-shaft-and-hub-nut.behind.html","661d5220eb23affa4754ba088541839f"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","2dccedb08bab588a62460422afd908dc"],["hb-2/output-shaft-and-hub-nut.source.html","808320f41e97211702d6cfd1b910ed7e"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/ease-springs.svg","ade5e509598eaf0b8584e9aaf0d8934e"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","8bbcbd7bb76c500b949e8125cd764fa0"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","d08894deca422bf6f04ccee8b7e21c7e"],["hb-2/wet-brake-pack-sheet-kit.html","7e01b9fcfac11ce50c3944b290f2c8d8"],["hb-2/wet-brake-pack-sheet-stock.html","6f8d8f29f6b242bb112b15a248616e3f"],["hb-2/wet-brake-pack.behind.html","ccd1d7faab30c78c939b8a1f5d161e58"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","f8da718c9673e5479921ea6af6fac3d9"],["hb-2/wet-brake-pack.source.html","888d6b6d1ee8cd1ec446673691b3a5d1"],["hb-2/worm-shaft-preload-sheet.html","06c42ee8bffe19bed971f196eca139d5"],["hb-2/worm-shaft-preload.behind.html","db672c932d634dc3f6fb72ee24c5438a"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","8a0ea3cbba785a136832198e20bdf968"],["hb-2/worm-shaft-preload.source.html","8f8ac86fda22f5cc441194ab50cb8380"],["index.html","9ca30d911427c7b2650750b78076f916"],["lists.css","47659323506f75334de0e94d0dcfe3b5"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","b3a80771eaa860955add6325b2491fb0"],["page.js","c7dfbf2dbb69d4c1859a0bb974889159"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","65b60b213f3f4ae0c524350aca18db91"],["search.css","4b6059b894726c0322265103c51e3a05"],["search.js","e419cce21baa3c91aa25fbd058df1e83"],["sheet.css","09b0c06a2c8b396ab4ebaf985f46de3a"],["sheet.js","69827e65f0e4b0830a1c554cf50844ac"],["tables/open-items.html","edec4cd4e5fa3211de009ec6caa0ae65"],["tables/parts.html","8155ef791c4fb5affb7948968e86d574"],["tables/people.html","a7048ebece8018792ac9ce6f258c1759"],["tables/seals.html","de37b4c27b58d3afda1616c741fa2624"],["tables/terms.html","b7a029425cae7044c98b1493aab77ed5"],["tables/thread-lockers.html","196acf83d2ab949cdc7f2c4a4ed1ee15"],["tables/to-have.html","644a089385734a2706b4d1385176ecd7"],["tables/tools.html","5a460c5f667add1e4edb65cd253222a2"],["tables/torque.html","293cad58d88f0a5997781ec12104713d"],["tarn-18/belt-and-flywheel-sheet-E.html","4f39862d74e8c5bb33c191ed9dcfb8b8"],["tarn-18/belt-and-flywheel-sheet-R.html","d717f38dee99971223a75168a8a47ec0"],["tarn-18/belt-and-flywheel.behind.html","1b203761991cea0fbec106c7861f96b5"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","3b82cab4999887549a9f9d3dd6e9ed12"],["tarn-18/belt-and-flywheel.source.html","6bac45096d4c20f45bffb11ce40421cd"],["tarn-18/book.html","c0eab28d1712c1403182979b5ebe28f3"],["tarn-18/builds/no-3.html","bb0d0a146d76f83f4b0bfe7e88ebe845"],["tarn-18/builds/no-7.html","2a69bbc3452a0f3faffc046a96ce91ee"],["tarn-18/close-crankcase-sheet.html","f8b5a92ae7a5a3070d71f2c5cb3ee02c"],["tarn-18/close-crankcase.behind.html","3d3db76eb1bb98cca80afbd1fb9c32de"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","a48f6e9c4c9926d68b85244e0ef92476"],["tarn-18/close-crankcase.source.html","d6536d6433857448b6b9065e9f29aa19"],["tarn-18/close-gearcase-board-mid-bolt.html","cbe3f7935e132276526ccebfca83a56e"],["tarn-18/close-gearcase-sheet-L-fresh.html","87bb8cd0705126387d404992add298e8"],["tarn-18/close-gearcase-sheet-L-salt.html","0d9b4d06842074363e2f5834740cbc0c"],["tarn-18/close-gearcase-sheet-S-fresh.html","44b9a8845d05b469272d4ec044013a04"],["tarn-18/close-gearcase-sheet-S-salt.html","c848ea11e1125de5ed6ba743a0b9044e"],["tarn-18/close-gearcase.behind.html","d33a4cb19c669372f573fa9d8ec2b9af"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","47fa73c3985fee70e96ce3de0533e798"],["tarn-18/close-gearcase.source.html","912a02086d31b7153ac26dc74f6d8cfb"],["tarn-18/crank-rods-pistons-sheet.html","e435b9a3bb6eee9f80d13e448d1423d1"],["tarn-18/crank-rods-pistons.behind.html","e056e6054062c07d74515bdf9e7c09a1"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","f97a01bdd67b44292edaec928fd8789f"],["tarn-18/crank-rods-pistons.source.html","116d7abf16c75ea6c69a551a2d745e54"],["tarn-18/first-start-sheet-E.html","9d91640de91042569206e8538500b687"],["tarn-18/first-start-sheet-R.html","727a7d3436788095f5a65a8e69aff9e6"],["tarn-18/first-start.behind.html","56901b86d5aac782329cefafc85177c5"],["tarn-18/first-start.chapters.vtt","14d5bea3eb3a63450b5225d0cfa788ce"],["tarn-18/first-start.html","1ac3348ba83338afe89746836fdf93a7"],["tarn-18/first-start.source.html","799d01f58c0d6cff6734e2a5c2040bcc"],["tarn-18/head-valves-camshaft-board-head-bolt.html","a1407b0d4ecd1fe32302da61fc6518ef"],["tarn-18/head-valves-camshaft-sheet.html","7cbddeb3033206fe0c37f960f45bc3b7"],["tarn-18/head-valves-camshaft.behind.html","46ad60720748c5f2b092433ee8203fad"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","aa586f10532bdd4ca04a6ac2672db69d"],["tarn-18/head-valves-camshaft.source.html","1d74237fe43ae94f81083b95ecfc3336"],["tarn-18/index.html","348e5c4c611ceb47d0abcb10d0a18e2a"],["tarn-18/machine.bulletins.html","ac1e689d32a41c52129e70c70d60605d"],["tarn-18/machine.review.html","a521cfd44e7251b838a294a76c7bd1cd"],["tarn-18/machine.variants.html","2a442b2c5d13a9ee9a5822a6b38759a1"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","69eb009110489c9a68312d50d474cd26"],["tarn-18/pinion-height-and-backlash-sheet-late.html","5c55f7e4eecdda7a4ebb01bf9fcbc149"],["tarn-18/pinion-height-and-backlash.behind.html","c8c42fd9ff2e4c0a9d14d0b5610d9a1f"],["tarn-18/pinion-height-and-backlash.chapters.vtt","562d4ebcd6c7b348f4082715115cff43"],["tarn-18/pinion-height-and-backlash.html","6d343fc11dcb57ec26be8ce0fd11dcf4"],["tarn-18/pinion-height-and-backlash.source.html","f9aa02257ea7db73081ae76c0c8a3d24"],["tarn-18/propeller-shaft-carrier-sheet.html","511cc721f88fe919f65f4c6d60ff6d13"],["tarn-18/propeller-shaft-carrier.behind.html","0ace0b418269eb79048715a902b8bd81"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","2be23470ad3ef060a3124e19766501fc"],["tarn-18/propeller-shaft-carrier.source.html","d1cec6ff64d49d3b183230335a9714e5"],["tarn-18/strip-and-tag-sheet-L-E.html","8e3c5c04a31705c1c55d3f2ec5b1515d"],["tarn-18/strip-and-tag-sheet-L-R.html","801288cb477cee08db26c72671bdc242"],["tarn-18/strip-and-tag-sheet-S-E.html","267010840d17360a981d7db35c0dac33"],["tarn-18/strip-and-tag-sheet-S-R.html","ccf186941415655cad0b2e12b4586e41"],["tarn-18/strip-and-tag.behind.html","da298754c2790b7b1c000db425cabd35"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","8949bad50b27cc1fa1c694fbae17cba0"],["tarn-18/strip-and-tag.source.html","d3c4e54194546f51d67ff2bf67ac249e"],["tarn-18/torque-card.html","4e57d5e1b3c157034f30cc60b1170c96"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet-kit.html":1,"hb-2/housing-and-cups-sheet-stock.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
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
