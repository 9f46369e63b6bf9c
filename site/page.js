(function (leaf) {
"use strict";
leaf.element = function (name, attributes, ...children) {
const element = document.createElement(name);
for (const [key, value] of Object.entries(attributes ?? {})) {
if (value === true) element.setAttribute(key, "");
else if (value !== false && value !== null && value !== undefined) element.setAttribute(key, value);
}
element.append(...children);
return element;
};
leaf.load = (...all) =>
Promise.all(
all.map(String).map((href) => {
const style = href.endsWith(".css");
const element = style ? leaf.element("link", { rel: "stylesheet", href }) : leaf.element("script", { src: href });
element.async = false;
return new Promise((done, failed) => {
element.onload = done;
element.onerror = failed;
document.head.append(element);
});
}),
);
leaf.data = function (id) {
try {
return JSON.parse(document.getElementById(id)?.textContent ?? "null");
} catch {
return null;
}
};
leaf.fill = function (word, values) {
return String(word ?? "").replace(/\{([a-z]+)\}/g, (hole, name) => String(values?.[name] ?? hole));
};
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const words = leaf.data("page-words") ?? {};
const script = document.currentScript?.src;
const worker = globalThis.navigator.serviceWorker;
if (!script || !worker || !globalThis.location.protocol.startsWith("http")) return;
if (document.getElementById("page.desk")) return;
const root = new URL("./", script);
let asked = false;
worker.register(new URL("offline.js", root), { scope: root.pathname, updateViaCache: "none" }).then((registration) => {
if (registration.waiting) offer(registration.waiting);
registration.addEventListener("updatefound", () => {
const coming = registration.installing;
coming?.addEventListener("statechange", () => {
if (coming.state === "installed" && registration.active) offer(coming);
});
});
document.addEventListener("visibilitychange", () => {
if (document.visibilityState === "visible") registration.update().catch(() => {});
});
}).catch(() => {
});
const before = worker.controller;
worker.addEventListener("controllerchange", () => {
if (asked || (before && !leaf.bench)) globalThis.location.reload();
else if (before) bar(words["saved-older"], () => globalThis.location.reload());
});
function offer(coming) {
const answer = new MessageChannel();
const path = decodeURIComponent(globalThis.location.pathname.slice(root.pathname.length));
answer.port1.onmessage = ({ data }) => {
const now = data?.revision;
const text = Number.isSafeInteger(now) ? leaf.fill(words["saved-new-revision"], { now }) : words["saved-new"];
bar(text, () => {
asked = true;
coming.postMessage({ do: "take over" });
});
};
coming.postMessage({ do: "tell", path }, [answer.port2]);
}
let shown;
function bar(text, load) {
shown ??= leaf.load(new URL("saved-news.css", root), new URL("saved-news.js", root));
shown.then(() => leaf.news(words, text, load)).catch(() => {});
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const link = document.querySelector("a.find");
if (!link) return;
const { root } = link.dataset;
for (const [name, value] of [["role", "button"], ["aria-haspopup", "dialog"], ["aria-keyshortcuts", "/"]]) link.setAttribute(name, value);
let ready;
const open = (event) => {
event.preventDefault();
ready ??= leaf.load(`${root}search.css`, `${root}search-index.js`, `${root}search.js`);
ready.then(() => leaf.search(root)).catch(() => (location.href = link.href));
};
link.addEventListener("click", (event) => {
if (!(event.ctrlKey || event.metaKey || event.shiftKey)) open(event);
});
link.addEventListener("keydown", (event) => {
if (event.key === " ") open(event);
});
document.addEventListener("keydown", (event) => {
if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey) return;
if (!event.target.closest?.("input, textarea, select, [contenteditable]")) open(event);
});
})((globalThis.leaf ??= {}));
