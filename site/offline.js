"use strict";
const COPY = {"version":"bceac84e93b931320e27d4031ada2e4a","files":[["book.css","99004b250492235e7129474f1ad19089"],["book.html","6f2754eba04d5252e3aeeb3fb366585d"],["hb-2/book.html","dd37bbfd17fec2907aeef9fcc18d28e3"],["hb-2/builds/no-1.html","592f472017b467f7d71ef76a718ef33a"],["hb-2/cover-fill-load-test-sheet-E.html","0bba90945b5dbebab85132e9104e239c"],["hb-2/cover-fill-load-test-sheet-M.html","5c4b4358c1aa33ca1b7c4bd0c2802d8d"],["hb-2/cover-fill-load-test.behind.html","6ce99fa1e975998c3dcbf4d60da07767"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","27890cac24425556b90b56bfe7889f0e"],["hb-2/cover-fill-load-test.source.html","3ab5c9262bafb31284b73123578a9f98"],["hb-2/housing-and-cups-sheet.html","d8c35bbf4009bc79d7acda4f20326316"],["hb-2/housing-and-cups.behind.html","2ee1d7a36e615cdd33414efc410524e7"],["hb-2/housing-and-cups.chapters.vtt","a6b30d180a4d97200c7ceeb85db65904"],["hb-2/housing-and-cups.html","53facb2281c059e4b4e31b25bf1d166d"],["hb-2/housing-and-cups.source.html","8fabbb5347892958eb97a0ab1a326f29"],["hb-2/index.html","619bde29ed6445911ecec37f032a5142"],["hb-2/machine.bulletins.html","b78632937d3b38559ed9af64a848b2ca"],["hb-2/machine.review.html","0728f2e30fb16a69bea5bf41a7f721a4"],["hb-2/machine.variants.html","3e8d807b6ea7455ae648f2ebaea0b811"],["hb-2/output-shaft-and-hub-nut-sheet.html","7c91158422deb8b3471351dda65d48d1"],["hb-2/output-shaft-and-hub-nut.behind.html","9686745ca4d94eb96a2235e72a552203"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","537f2acca5e870b060f0b21ea72eb3b6"],["hb-2/output-shaft-and-hub-nut.source.html","ddc7ab8c0991d72901aadd06e803fbab"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","083ef781a7a51dbd4807e2665da5e64b"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","9644dcc8e0e05becd4eb15b14e5e68cc"],["hb-2/wet-brake-pack-sheet-kit.html","015cfe7fa96b6e06ca19f8376266ef7a"],["hb-2/wet-brake-pack-sheet-stock.html","ea3c93faa23cd6354ddbcfaa03da3e77"],["hb-2/wet-brake-pack.behind.html","79f2f3675f8e0d326f4ae879023dffa7"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","0d9d6cbff764ae253e489fab55475d0f"],["hb-2/wet-brake-pack.source.html","31113ca0c67587aaac3f79cc2bf5ec4a"],["hb-2/worm-shaft-preload-sheet.html","b707d70d4317b149a27650d3c022096f"],["hb-2/worm-shaft-preload.behind.html","d5b7a7d6f0fc56582f5574ba2f61efa6"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","795ffa4d6eabac21499aa85260c7af11"],["hb-2/worm-shaft-preload.source.html","207156d19acf41a21a579f7fa4adc4c2"],["index.html","a491358f628d6794849483b1c4e91426"],["lists.css","a6181ded9c3a7a681072517007349071"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","b40b48dd5b87db932f78795a12979d10"],["page.js","140c6957b78b8b00980b14c64835808c"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","1a8db2f201ebb250fe6888f628589e62"],["search.css","2bda3aefba8000d243420bb39d4cb08f"],["search.js","afcd503914d287222cf7cd60f9815262"],["sheet.css","5cd4a9f8ada179d96999470354721950"],["sheet.js","1cf066ac79254b6012afee299012a9df"],["tables/open-items.html","57ce1d2b2ed3b9ce92a34a38f485f078"],["tables/parts.html","2c3ff544b7141640907173595528e957"],["tables/people.html","13bbd5b5ff44b6fab0b06967d06d5d58"],["tables/seals.html","b18f297d86d3349400ab3800420075fa"],["tables/terms.html","b67ca730fee0b0751d0e1b44a2d799c3"],["tables/thread-lockers.html","fdbb1794376f6c6c4f8281ae1ae5fb98"],["tables/to-have.html","d2ca6b5d9e67e02976a1e80ee354b592"],["tables/tools.html","e0ea6ba01c21784f9763fa8b6c5fcb45"],["tables/torque.html","79a4d9cb009a30388f19971779ded7a6"],["tarn-18/belt-and-flywheel-sheet-E.html","9cff2a2a8a106383d0dd8f248a4a9c11"],["tarn-18/belt-and-flywheel-sheet-R.html","1a924d1daf9b8566aeb47580be6e1fc2"],["tarn-18/belt-and-flywheel.behind.html","6452b74bebbea2fec911c42efcb70de6"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","570b715b524193ec4a91aace64f563b8"],["tarn-18/belt-and-flywheel.source.html","e3ac381837c0c7f4aa899dc23295eb78"],["tarn-18/book.html","f714804c56d657ee81781ba1f8566862"],["tarn-18/builds/no-3.html","84b6002308c11c56735bcb85e623bfc3"],["tarn-18/builds/no-7.html","413fd0f7995b2a702595a86bc51b6631"],["tarn-18/close-crankcase-sheet.html","9293f6fad7a175c6de76dd408430e8fa"],["tarn-18/close-crankcase.behind.html","0b2a085e68ed6df4532f99608507bbf2"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","9468db5705dffeacda7caca0ebcafce8"],["tarn-18/close-crankcase.source.html","862a150947de3f2745067be0b908beef"],["tarn-18/close-gearcase-board-mid-bolt.html","b62b3d94804724b304b29c70941639e8"],["tarn-18/close-gearcase-sheet-L-fresh.html","b6db21d64e09fe12f3039abeffdf90c5"],["tarn-18/close-gearcase-sheet-L-salt.html","2e8e39ba74e1a56599d94106f861752d"],["tarn-18/close-gearcase-sheet-S-fresh.html","2e3f5f363b6dd20a08822474650aa158"],["tarn-18/close-gearcase-sheet-S-salt.html","14514339a2469ecafe43c02764d3cdf4"],["tarn-18/close-gearcase.behind.html","284aa176ec46a373b36bb38f708cd7ac"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","4d8f3c71cd084e691239200c359a6f2e"],["tarn-18/close-gearcase.source.html","e66dd5896a8a82a7431b0d11347bc81e"],["tarn-18/crank-rods-pistons-sheet.html","1d92d397910de327a046f417b3f66aee"],["tarn-18/crank-rods-pistons.behind.html","44b660a134fa2350e481768c23a79a37"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","ae9c2d2a8375960cd604ce8d8b975c94"],["tarn-18/crank-rods-pistons.source.html","770e3747baa579cb1082f6fc928aa2ad"],["tarn-18/first-start-sheet-E.html","ada6a2c805776e67e7b26c12408fc34d"],["tarn-18/first-start-sheet-R.html","bcea30c81c05c0af2f5064e0311f0fc4"],["tarn-18/first-start.behind.html","55d5c4a0a69c8934fa111880b11fbcf4"],["tarn-18/first-start.chapters.vtt","89b74848c61de1fe082714651307644a"],["tarn-18/first-start.html","edf684ec1292a23e6517c6d08a457a10"],["tarn-18/first-start.source.html","f99bcfdbbad0bdd6884c8834b319d36e"],["tarn-18/head-valves-camshaft-board-head-bolt.html","ce9c3d92a1392747b7237bd21d0cb114"],["tarn-18/head-valves-camshaft-sheet.html","9c39044b89dd5f32d62fd933196d3c51"],["tarn-18/head-valves-camshaft.behind.html","a9e2d8dd1f2ba4198d0b4edc66db3fed"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","117526fab9f547cf40f431bcb41fcf09"],["tarn-18/head-valves-camshaft.source.html","30a5c9fd0aae8257b183c240152dbdb7"],["tarn-18/index.html","72b30777501dc62812cb8369cfddb9a4"],["tarn-18/machine.bulletins.html","a6a9c557c7889676a58599020c366338"],["tarn-18/machine.review.html","92f3649813e5b517902a49c9e76bac2f"],["tarn-18/machine.variants.html","517dc14b90c0e6b8d570e5ed084ff639"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","d7a6798b6f8852be7fd97ab87a6791b3"],["tarn-18/pinion-height-and-backlash-sheet-late.html","00d9a3cce8cf76f1b9c0955a201be71d"],["tarn-18/pinion-height-and-backlash.behind.html","c509c44ea051b32bf2fa598e5204ae16"],["tarn-18/pinion-height-and-backlash.chapters.vtt","b28d58abdf10ffc0137ec6ef8a45f4c7"],["tarn-18/pinion-height-and-backlash.html","7328c1042c52ce0b66205cb3238e4fbc"],["tarn-18/pinion-height-and-backlash.source.html","faf8be09d7b3a47bd7cc96d29a330a11"],["tarn-18/propeller-shaft-carrier-sheet.html","eadbd2ba1927fa44b40628f335035971"],["tarn-18/propeller-shaft-carrier.behind.html","42ab42206192d58e1f27383a2f0888de"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","33698b8c2b573074f8405a34af3fd48f"],["tarn-18/propeller-shaft-carrier.source.html","09967a4ab947813f9b978ab4119f2205"],["tarn-18/strip-and-tag-sheet-L-E.html","23846e9b3c999541f2af25ea384f406a"],["tarn-18/strip-and-tag-sheet-L-R.html","cac5536795f3579c4c5263eb4671c4f8"],["tarn-18/strip-and-tag-sheet-S-E.html","d9d5efa283aa2ab6a7dcf0c0aa9bd826"],["tarn-18/strip-and-tag-sheet-S-R.html","0ef2370ce87441ef2504c1dd5f3bcc0a"],["tarn-18/strip-and-tag.behind.html","c1d8c11847ce31177107bf46323da183"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","d1580b92707ae6dc99ab49e145f24226"],["tarn-18/strip-and-tag.source.html","efa74822fb0f25015db0d33cf53c6363"],["tarn-18/torque-card.html","afa4442ab17217d2d02a4fdce6ab0451"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
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
