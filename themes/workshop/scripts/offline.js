// The worker that keeps one whole version of the manual. `COPY`, in front, is what the publisher knows: the version, and
// each file with its hash. A file is only taken where its hash is the one listed, so a copy is of one version or is none.

const ROOT = new URL("./", self.location);
const FAMILY = `leaf ${ROOT.pathname} `;
const NAME = FAMILY + COPY.version;
const AT_ONCE = new Map(COPY.files);
const LATER = new Map(COPY.later);

self.addEventListener("install", (event) => event.waitUntil(keepAll()));

// It waits until a reader has said that it may take over: no skipWaiting here.
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

/** A folder stands for its first page. */
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

/** What has not changed since an earlier version need not be fetched again. */
async function fromEarlier(names, path, hash) {
  for (const name of names) {
    const response = await (await caches.open(name)).match(addressOf(path));
    if (response && (hash === "" || (await hashOf(response.clone())) === hash)) return response;
  }
  return null;
}

/** A file from the network; refused where it is not the one listed. */
async function fetched(path, hash) {
  const response = await fetch(addressOf(path), { cache: "no-cache", credentials: "same-origin" });
  if (!response.ok) throw new Error(`${response.status} for ${path}`);
  if (hash !== "" && (await hashOf(response.clone())) !== hash) throw new Error(`${path} is not of this version`);
  // Browsers refuse to open a page from an answer that was led elsewhere first.
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
  // Not looked at yet, or cleared by the device: only the bytes of this version may stand in for it.
  try {
    const response = await fetched(path, hash);
    await cache.put(addressOf(path), response.clone()).catch(() => {});
    return response;
  } catch {
    // Another size of the same photograph is the same photograph.
    const other = Object.hasOwn(COPY.instead, path) ? await cache.match(addressOf(COPY.instead[path])) : undefined;
    return other ?? Response.error();
  }
}
