"use strict";
const COPY = {"version":"48444d6549b830154b3e162e065e288b","files":[["book.css","99004b250492235e7129474f1ad19089"],["book.html","6f2754eba04d5252e3aeeb3fb366585d"],["hb-2/book.html","dd37bbfd17fec2907aeef9fcc18d28e3"],["hb-2/builds/no-1.html","c77931417b2730b06d26112d611d1a90"],["hb-2/cover-fill-load-test-sheet-E.html","db71a9863a184a4b7e6df9f13e2cc872"],["hb-2/cover-fill-load-test-sheet-M.html","d1cea337df37c6388791d2f36397afd7"],["hb-2/cover-fill-load-test.behind.html","0eda0ff2720f986ef4f703f59eb44d45"],["hb-2/cover-fill-load-test.chapters.vtt","e147c3c47a5b61106052e4c68ba5ac35"],["hb-2/cover-fill-load-test.html","3db3be85af2bfbe6b9b583512b6e5ee1"],["hb-2/cover-fill-load-test.source.html","11129a6d35292ba3b978fd45a47ca598"],["hb-2/housing-and-cups-sheet.html","a82cf58fe0d3803b0ca39ac49a114a13"],["hb-2/housing-and-cups.behind.html","dc21997e61b407489b4462c80bf17786"],["hb-2/housing-and-cups.chapters.vtt","a6b30d180a4d97200c7ceeb85db65904"],["hb-2/housing-and-cups.html","d8e61035a8c26fd468123e7681bb85e6"],["hb-2/housing-and-cups.source.html","12f5c9028baee8ba3493f09e0d4ee611"],["hb-2/index.html","382643953df2d26c1cdd91c21bf37ba7"],["hb-2/machine.bulletins.html","ebe51fa143ce2eea29a092ee487e56a6"],["hb-2/machine.review.html","b68ea49c08451fa443b85caf6241ad92"],["hb-2/machine.variants.html","c606e5d1bbdf4a509df643ce09045851"],["hb-2/output-shaft-and-hub-nut-sheet.html","7f22401dc28ed7181af1a36ee4f14697"],["hb-2/output-shaft-and-hub-nut.behind.html","ef9fafe116300b76bc271b5c13d7afa8"],["hb-2/output-shaft-and-hub-nut.chapters.vtt","832c00d95b60341ce6964e6bebd7b872"],["hb-2/output-shaft-and-hub-nut.html","0e2689c9f9adf3cb8ce28ef36429abff"],["hb-2/output-shaft-and-hub-nut.source.html","e0ace1fc7d132343f0813842e643f81e"],["hb-2/pictures/brake-pack.svg","2dab4ef2e48af022ea28c1c8d5cc2f2a"],["hb-2/pictures/cover.svg","b901b41b883672cb37a83581cf3006cf"],["hb-2/pictures/cups.svg","e3490c245a7ba58fb9bb97d1d724bd32"],["hb-2/pictures/load-test.svg","892996a00509600e84d9551f2cd6bc90"],["hb-2/pictures/pattern.svg","083ef781a7a51dbd4807e2665da5e64b"],["hb-2/pictures/worm-shaft.svg","2c22fb8d63f60e1efbae238bbb0e7792"],["hb-2/torque-card.html","8dac709f9ecc72d80d93532716f983bc"],["hb-2/wet-brake-pack-sheet-kit.html","0d1182360a3f08daac86644c02dae456"],["hb-2/wet-brake-pack-sheet-stock.html","a01fa60062833fb4d9e13fb8d405b182"],["hb-2/wet-brake-pack.behind.html","15ce7b67c7d516f1c6321b75a54291b8"],["hb-2/wet-brake-pack.chapters.vtt","f6233915aff7c6dbfb7e02b2dd21a285"],["hb-2/wet-brake-pack.html","1c379c78fef2eba8d7cd6634dffe6086"],["hb-2/wet-brake-pack.source.html","bb5debca991490d307a392e55ea74228"],["hb-2/worm-shaft-preload-sheet.html","2f6f131694e5d3b2f3ad43fe2fa4e657"],["hb-2/worm-shaft-preload.behind.html","af4c55d7210c1beafd2c0c1ad4b69c7c"],["hb-2/worm-shaft-preload.chapters.vtt","9a659f3bd51407a1d38b1cdc25b3f19a"],["hb-2/worm-shaft-preload.html","e4897504c6f5775afec40e41beb0b51b"],["hb-2/worm-shaft-preload.source.html","0d924a9944eb3735b327501311bbcce0"],["index.html","d108c6a7e70a5cb040ffcdcc0565a043"],["lists.css","a6181ded9c3a7a681072517007349071"],["manual.webmanifest","698df1431dadf6706fdb64bb989b81b6"],["mark.svg","66d7d2d53bd19e92a20fb5f17bf02a8d"],["page.css","b40b48dd5b87db932f78795a12979d10"],["page.js","140c6957b78b8b00980b14c64835808c"],["saved-news.css","99c6cc8c6bded7727c52dfc89db57fda"],["saved-news.js","77da0ef594f681890536ef360aef5b21"],["search-index.js","1a8db2f201ebb250fe6888f628589e62"],["search.css","2bda3aefba8000d243420bb39d4cb08f"],["search.js","afcd503914d287222cf7cd60f9815262"],["sheet.css","5cd4a9f8ada179d96999470354721950"],["sheet.js","1cf066ac79254b6012afee299012a9df"],["tables/open-items.html","2fd862ce9062353e4001ddfc711febe9"],["tables/parts.html","b3aac30536047322228b8d5f61e4b337"],["tables/people.html","0ade5752982793243d59a9cb405af565"],["tables/seals.html","f288fe720e6efe8daaa66a528cf9f0b4"],["tables/terms.html","961c50258bcaee08e573a35768096e6a"],["tables/thread-lockers.html","ee153e3103a5bb62144bd194047d3d9f"],["tables/to-have.html","fc4d6da80adc1db78f5a27fa63cf9152"],["tables/tools.html","5c877f8505b71b29c16385231b83ff96"],["tables/torque.html","048bb1832adddc7ca538499d8c4a2ced"],["tarn-18/belt-and-flywheel-sheet-E.html","dfe7dc35205b79da108feea0c4fd6169"],["tarn-18/belt-and-flywheel-sheet-R.html","51230b64abdcd5e7f5899a403144ca65"],["tarn-18/belt-and-flywheel.behind.html","53a0a12fba44ae49c8f9d0d67e3d4390"],["tarn-18/belt-and-flywheel.chapters.vtt","fe25f2a9e9134c3d1ee74a9e0ca71e57"],["tarn-18/belt-and-flywheel.html","9505d7d1da13322c2af51ebf047fe32a"],["tarn-18/belt-and-flywheel.source.html","d69a482375c59f6345ac49ffe4a745f4"],["tarn-18/book.html","f714804c56d657ee81781ba1f8566862"],["tarn-18/builds/no-3.html","fcb781fa4039f7f5a63065b2203f9272"],["tarn-18/builds/no-7.html","142dc17b11ed2d5126bc87fcc3cc5928"],["tarn-18/close-crankcase-sheet.html","c848e35c57fec443ea712a655f66b454"],["tarn-18/close-crankcase.behind.html","c1ea4d3258bf0d80166e9b8073485d59"],["tarn-18/close-crankcase.chapters.vtt","df555c53f22bdf1eb593874fe3c2d604"],["tarn-18/close-crankcase.html","4e73aa7de9ecc4197c09f987c334f5f9"],["tarn-18/close-crankcase.source.html","49e314b76ab4e1c20778e9c515d8fca5"],["tarn-18/close-gearcase-board-mid-bolt.html","68ea4eb6d0dedd194e11b823d56bc488"],["tarn-18/close-gearcase-sheet-L-fresh.html","5eee38dbd1bda8929260386eef207578"],["tarn-18/close-gearcase-sheet-L-salt.html","8edfef0bf5bd535a639cfb139ae51fb0"],["tarn-18/close-gearcase-sheet-S-fresh.html","3a6f89d5164410683e3ea7ba9750c1df"],["tarn-18/close-gearcase-sheet-S-salt.html","8c7d45f886be1c91884a56ba90a89fce"],["tarn-18/close-gearcase.behind.html","997e8c43f7ec768dc317345438a773d0"],["tarn-18/close-gearcase.chapters.vtt","b71cd863fee0e60f4571d235ef957404"],["tarn-18/close-gearcase.html","14e97c4cf07e1d74658dab81cf927c3e"],["tarn-18/close-gearcase.source.html","7c3edec350cf320bc3cad263248b1aa3"],["tarn-18/crank-rods-pistons-sheet.html","8f7575b50778d8273233745854dc9b2d"],["tarn-18/crank-rods-pistons.behind.html","f0c8a746d62fdf43f12dbf0c9b16e8ed"],["tarn-18/crank-rods-pistons.chapters.vtt","22436318dc92be3faea572c34a4336e6"],["tarn-18/crank-rods-pistons.html","f1815eb8c77117535fb1c55184ddcaa8"],["tarn-18/crank-rods-pistons.source.html","e05e20fbf3c9a366f6de6015919a12f3"],["tarn-18/first-start-sheet-E.html","4605677fbcb57009ebfa0a4ec2452ea2"],["tarn-18/first-start-sheet-R.html","eae9e0433a37cff964a73d94632ed265"],["tarn-18/first-start.behind.html","1cab1d86136c132348d7f88fbc2bf7f7"],["tarn-18/first-start.chapters.vtt","89b74848c61de1fe082714651307644a"],["tarn-18/first-start.html","e011cb3c827c78b7535e2fb1e3559ef7"],["tarn-18/first-start.source.html","c92b818eb268fdb927d98a675772c09f"],["tarn-18/head-valves-camshaft-board-head-bolt.html","a3f04a2bb62c908369c1de6a6241fb9a"],["tarn-18/head-valves-camshaft-sheet.html","eba3bc7cbaba5f26f8dc73da54b0dd71"],["tarn-18/head-valves-camshaft.behind.html","731c53663b3e1d89fe1c8e05117e71c9"],["tarn-18/head-valves-camshaft.chapters.vtt","b696d96b4c926e608ec667fcf7020a0b"],["tarn-18/head-valves-camshaft.html","d557c9a8780e037266f2c48ed0a60494"],["tarn-18/head-valves-camshaft.source.html","5e5eb143ed2a1025bcc0ac83b9a728be"],["tarn-18/index.html","a25ca609401a7cbfdf3933b03b3bdbd0"],["tarn-18/machine.bulletins.html","8a7e4c359c40d2f0c375b8f4aaca1420"],["tarn-18/machine.review.html","5642c1ed3666719c0dcbf284e6ec6ad4"],["tarn-18/machine.variants.html","a78dfbca0c2a6faf37086d54aade5d8b"],["tarn-18/pictures/backlash.svg","9c4714cd1e4b25618c49494ee0eea811"],["tarn-18/pictures/belt.svg","83bd7866c2c377e6039d3472e3b50980"],["tarn-18/pictures/bolt-board.svg","82fe085d2ba90dabb6042d1f79c62ea1"],["tarn-18/pictures/carrier.svg","7bd438d2f367f313a5df8d4178a296cd"],["tarn-18/pictures/close-gearcase.svg","c2e7783173499bf06e7ef780df556c28"],["tarn-18/pictures/crankcase.svg","b66d822d356ceed3e15e3b253bd4c2f1"],["tarn-18/pictures/lamp.svg","ba601d133d60c9a4e154d9e332e95158"],["tarn-18/pictures/pinion.svg","b9fed8d06dd5aa18aa1c02874495aefb"],["tarn-18/pictures/piston.svg","8241c2984767aa77abf88301e912d89e"],["tarn-18/pictures/pump.svg","8ed39be849af929433b1c86be3a8526b"],["tarn-18/pictures/valve.svg","38bf9d3fa11f1decc005d5257d3ee094"],["tarn-18/pinion-height-and-backlash-sheet-early.html","b952a98296947003ab6ef59aab7ff309"],["tarn-18/pinion-height-and-backlash-sheet-late.html","c40721c038c7b7b1b4ea1546d4812694"],["tarn-18/pinion-height-and-backlash.behind.html","f7c16c65f5760b4b68353abfc7eff964"],["tarn-18/pinion-height-and-backlash.chapters.vtt","b28d58abdf10ffc0137ec6ef8a45f4c7"],["tarn-18/pinion-height-and-backlash.html","1c6246d397ef86838e0837bbe21c17ee"],["tarn-18/pinion-height-and-backlash.source.html","ec57ca94b569d81793767ea90b84bf64"],["tarn-18/propeller-shaft-carrier-sheet.html","0dbdd8e2d4b75f16e4d3f368410f4f9b"],["tarn-18/propeller-shaft-carrier.behind.html","3ea0623a08aa69ffcea5d312e0e9e700"],["tarn-18/propeller-shaft-carrier.chapters.vtt","654378b3d6b008951eaa9fda1c03dc3b"],["tarn-18/propeller-shaft-carrier.html","b8001dce092f221ffc35093f0cb78ff6"],["tarn-18/propeller-shaft-carrier.source.html","ddcc34a6c41c5e61ed104d2ed49c444c"],["tarn-18/strip-and-tag-sheet-L-E.html","91668b2315a462431c3632e11afbdc39"],["tarn-18/strip-and-tag-sheet-L-R.html","b27d67dfd0aba8ae0f1bd3320d5650ba"],["tarn-18/strip-and-tag-sheet-S-E.html","6dafef953eb9f5ed3cc3a245f1ad1478"],["tarn-18/strip-and-tag-sheet-S-R.html","92227439d6ac7aec5a6c4e2c455b0745"],["tarn-18/strip-and-tag.behind.html","78c9cbc95cf77aed0ba20f078b3bf4f8"],["tarn-18/strip-and-tag.chapters.vtt","eeca26a0db79a8ac3269af076af2dcf6"],["tarn-18/strip-and-tag.html","56fb98d2d42d7048a7450f5d8605d04c"],["tarn-18/strip-and-tag.source.html","b7882b481fcb66fc193f812e430cdf4d"],["tarn-18/torque-card.html","1f1502dc11c42e305ec096017e6915bc"]],"later":[],"instead":{},"revisions":{"hb-2/cover-fill-load-test-sheet-E.html":4,"hb-2/cover-fill-load-test-sheet-M.html":4,"hb-2/cover-fill-load-test.html":4,"hb-2/housing-and-cups-sheet.html":1,"hb-2/housing-and-cups.html":1,"hb-2/output-shaft-and-hub-nut-sheet.html":1,"hb-2/output-shaft-and-hub-nut.html":1,"hb-2/wet-brake-pack-sheet-kit.html":3,"hb-2/wet-brake-pack-sheet-stock.html":3,"hb-2/wet-brake-pack.html":3,"hb-2/worm-shaft-preload-sheet.html":2,"hb-2/worm-shaft-preload.html":2,"tarn-18/belt-and-flywheel-sheet-E.html":1,"tarn-18/belt-and-flywheel-sheet-R.html":1,"tarn-18/belt-and-flywheel.html":1,"tarn-18/close-crankcase-sheet.html":1,"tarn-18/close-crankcase.html":1,"tarn-18/close-gearcase-sheet-L-fresh.html":2,"tarn-18/close-gearcase-sheet-L-salt.html":2,"tarn-18/close-gearcase-sheet-S-fresh.html":2,"tarn-18/close-gearcase-sheet-S-salt.html":2,"tarn-18/close-gearcase.html":2,"tarn-18/crank-rods-pistons-sheet.html":1,"tarn-18/crank-rods-pistons.html":1,"tarn-18/first-start-sheet-E.html":1,"tarn-18/first-start-sheet-R.html":1,"tarn-18/first-start.html":1,"tarn-18/head-valves-camshaft-sheet.html":1,"tarn-18/head-valves-camshaft.html":1,"tarn-18/pinion-height-and-backlash-sheet-early.html":4,"tarn-18/pinion-height-and-backlash-sheet-late.html":4,"tarn-18/pinion-height-and-backlash.html":4,"tarn-18/propeller-shaft-carrier-sheet.html":4,"tarn-18/propeller-shaft-carrier.html":4,"tarn-18/strip-and-tag-sheet-L-E.html":1,"tarn-18/strip-and-tag-sheet-L-R.html":1,"tarn-18/strip-and-tag-sheet-S-E.html":1,"tarn-18/strip-and-tag-sheet-S-R.html":1,"tarn-18/strip-and-tag.html":1}};
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
