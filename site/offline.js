"use strict";
const COPY = {"version":"d71b7548327778b3f4fa6536a1931951","files":[["book.css","99004b250492235e7129474f1ad19089"],["book.html","430917b6f01a576fd6a5884c28f3ae8d"],["hb-2/book.html","6683e8b2f4505b35603ad60d60c0691c"],["hb-2/builds/no-1.html","c77931417b2730b06d26112d611d1a90"],["hb-2/cover-fill-load-test-sheet-E.html","db71a9863a184a4b7e6df9f13e2cc872"],["hb-2/cover-fill-load-test-sheet-M.html","d1cea337df37c6388791d2f36397afd7"],["hb-2/cover-fill-load-test.behind.html","a8b815e0087af8a7b71a9d75aab18a18"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","6b4c3f8d249359dfc1bac4124b2457cc"],["hb-2/housing-and-cups-sheet.html","a82cf58fe0d3803b0ca39ac49a114a13"],["hb-2/housing-and-cups.behind.html","74c5aab1a804d74af4e62117f29c5faf"],["hb-2/housing-and-cups.chapters.vtt","a6b30d180a4d97200c7ceeb85db65904"],["hb-2/housing-and-cups.html","818001ab320e84ddd8566971a4db8ca9"],["hb-2/index.html","5b91aa8c80aa1fd4925f3875be36034a"],["hb-2/output-shaft-and-hub-nut-sheet.html","7f22401dc28ed7181af1a36ee4f14697"],["hb-2/output-shaft-and-hub-nut.behind.html","9513da631a1ecb21c91939eeeee4bcc3"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","c4ff7ad811d5fa9dc04f60e51628e672"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","083ef781a7a51dbd4807e2665da5e64b"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","8dac709f9ecc72d80d93532716f983bc"],["hb-2/wet-brake-pack-sheet-kit.html","0d1182360a3f08daac86644c02dae456"],["hb-2/wet-brake-pack-sheet-stock.html","a01fa60062833fb4d9e13fb8d405b182"],["hb-2/wet-brake-pack.behind.html","03fd90deae55b65f9eb0757a566921e4"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","78a74164145d188da6f94bc54e2f33ae"],["hb-2/worm-shaft-preload-sheet.html","2f6f131694e5d3b2f3ad43fe2fa4e657"],["hb-2/worm-shaft-preload.behind.html","b40bdcfc60b0ac2d58c046d3dd8571a3"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","943ae87a891facfaa3ced673ae843120"],["index.html","76b6d6b2af3409f3ff4f423e800436ed"],["lists.css","4882ca79a1da040dbf680a8db703046a"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","b40b48dd5b87db932f78795a12979d10"],["page.js","b20169a54c0d5721af64491451b84e74"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","1a8db2f201ebb250fe6888f628589e62"],["search.css","2bda3aefba8000d243420bb39d4cb08f"],["search.js","afcd503914d287222cf7cd60f9815262"],["sheet.css","6053bdd1e657c335d1c48afa755f69c4"],["sheet.js","c832128836f748f6e7ff73eb5cdeb323"],["tables/open-items.html","2fd862ce9062353e4001ddfc711febe9"],["tables/parts.html","b3aac30536047322228b8d5f61e4b337"],["tables/people.html","0ade5752982793243d59a9cb405af565"],["tables/seals.html","f288fe720e6efe8daaa66a528cf9f0b4"],["tables/terms.html","961c50258bcaee08e573a35768096e6a"],["tables/thread-lockers.html","ee153e3103a5bb62144bd194047d3d9f"],["tables/to-have.html","fc4d6da80adc1db78f5a27fa63cf9152"],["tables/tools.html","5c877f8505b71b29c16385231b83ff96"],["tables/torque.html","048bb1832adddc7ca538499d8c4a2ced"],["tarn-18/belt-and-flywheel-sheet-E.html","dfe7dc35205b79da108feea0c4fd6169"],["tarn-18/belt-and-flywheel-sheet-R.html","51230b64abdcd5e7f5899a403144ca65"],["tarn-18/belt-and-flywheel.behind.html","10f5e6c873c3e227c068fbf32526d3f6"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","5ff4f074fe3350b95ba50b7bb1865ec9"],["tarn-18/book.html","1e87885c6c4ca12404148f3191f9ca79"],["tarn-18/builds/no-3.html","fcb781fa4039f7f5a63065b2203f9272"],["tarn-18/builds/no-7.html","142dc17b11ed2d5126bc87fcc3cc5928"],["tarn-18/close-crankcase-sheet.html","c848e35c57fec443ea712a655f66b454"],["tarn-18/close-crankcase.behind.html","9886798c99133631fcf02b9ba97466dd"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","729ab63a5b247143dfb5426ad65aecbd"],["tarn-18/close-gearcase-board-mid-bolt.html","68ea4eb6d0dedd194e11b823d56bc488"],["tarn-18/close-gearcase-sheet-L-fresh.html","5eee38dbd1bda8929260386eef207578"],["tarn-18/close-gearcase-sheet-L-salt.html","8edfef0bf5bd535a639cfb139ae51fb0"],["tarn-18/close-gearcase-sheet-S-fresh.html","3a6f89d5164410683e3ea7ba9750c1df"],["tarn-18/close-gearcase-sheet-S-salt.html","8c7d45f886be1c91884a56ba90a89fce"],["tarn-18/close-gearcase.behind.html","9f3742a1a2d09bad0b042fad3a4a4818"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","a48ae83adcfec195d8f440f0247c3ab7"],["tarn-18/crank-rods-pistons-sheet.html","8f7575b50778d8273233745854dc9b2d"],["tarn-18/crank-rods-pistons.behind.html","01de8c4a540f490b94725a6b42c5bec8"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","f05199ed0388c6abe0c3ffeb72b8fec6"],["tarn-18/first-start-sheet-E.html","4605677fbcb57009ebfa0a4ec2452ea2"],["tarn-18/first-start-sheet-R.html","eae9e0433a37cff964a73d94632ed265"],["tarn-18/first-start.behind.html","04ded29d9a302d23d383541fb83f38d3"],["tarn-18/first-start.chapters.vtt","89b74848c61de1fe082714651307644a"],["tarn-18/first-start.html","2c3b8c1402dda16a3aaf465ec2035f98"],["tarn-18/head-valves-camshaft-board-head-bolt.html","a3f04a2bb62c908369c1de6a6241fb9a"],["tarn-18/head-valves-camshaft-sheet.html","eba3bc7cbaba5f26f8dc73da54b0dd71"],["tarn-18/head-valves-camshaft.behind.html","c1007743f798117ec7831e2546816513"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","9c635587b323c3946bdf12cb6155c8d1"],["tarn-18/index.html","02a065bf24bb44570176dc642a7d2700"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","b952a98296947003ab6ef59aab7ff309"],["tarn-18/pinion-height-and-backlash-sheet-late.html","eb09bc3110835460502eca581f3d5d23"],["tarn-18/pinion-height-and-backlash.behind.html","1016d924ab1da65f1ef6a191d3224e05"],["tarn-18/pinion-height-and-backlash.chapters.vtt","b28d58abdf10ffc0137ec6ef8a45f4c7"],["tarn-18/pinion-height-and-backlash.html","8f35b7f481dcc43d1db9035188283c9a"],["tarn-18/propeller-shaft-carrier-sheet.html","0dbdd8e2d4b75f16e4d3f368410f4f9b"],["tarn-18/propeller-shaft-carrier.behind.html","8ab613b0880df22ce5c1118c75ffdb05"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","1ad3acf3bcf773576033f398c813219a"],["tarn-18/strip-and-tag-sheet-L-E.html","91668b2315a462431c3632e11afbdc39"],["tarn-18/strip-and-tag-sheet-L-R.html","b27d67dfd0aba8ae0f1bd3320d5650ba"],["tarn-18/strip-and-tag-sheet-S-E.html","6dafef953eb9f5ed3cc3a245f1ad1478"],["tarn-18/strip-and-tag-sheet-S-R.html","92227439d6ac7aec5a6c4e2c455b0745"],["tarn-18/strip-and-tag.behind.html","0ab61e5c8379c0d5cda7ba391ab9981f"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","08239c8961b8ebad16ec702377863994"],["tarn-18/torque-card.html","1f1502dc11c42e305ec096017e6915bc"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
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
