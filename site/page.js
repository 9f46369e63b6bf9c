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
leaf.storage = {
read(key) {
try {
const text = globalThis.localStorage.getItem(key);
return text === null ? null : JSON.parse(text);
} catch {
return null;
}
},
write(key, value) {
try {
globalThis.localStorage.setItem(key, JSON.stringify(value));
return true;
} catch {
return false;
}
},
};
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const link = document.querySelector("a.find");
if (!link) return;
const { root } = link.dataset;
for (const [name, value] of [["role", "button"], ["aria-haspopup", "dialog"], ["aria-keyshortcuts", "/"]]) link.setAttribute(name, value);
const loaded = (element) =>
new Promise((done, failed) => {
element.async = false;
element.onload = done;
element.onerror = failed;
document.head.append(element);
});
let ready;
const load = () =>
Promise.all([
loaded(leaf.element("link", { rel: "stylesheet", href: `${root}search.css` })),
loaded(leaf.element("script", { src: `${root}search-index.js` })),
loaded(leaf.element("script", { src: `${root}search.js` })),
]);
const open = () =>
(ready ??= load()).then(() => leaf.search(root)).catch(() => (location.href = link.href));
link.addEventListener("click", (event) => {
if (event.ctrlKey || event.metaKey || event.shiftKey) return;
event.preventDefault();
open();
});
link.addEventListener("keydown", (event) => {
if (event.key !== " ") return;
event.preventDefault();
open();
});
document.addEventListener("keydown", (event) => {
const writing = event.target.closest?.("input, textarea, select, [contenteditable]");
if (event.key !== "/" || writing || event.ctrlKey || event.metaKey || event.altKey) return;
event.preventDefault();
open();
});
})((globalThis.leaf ??= {}));
