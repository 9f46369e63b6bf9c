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
const FINGERPRINT = /^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}$/;
leaf.paperOf = function (fragment) {
if (!fragment.startsWith("#paper=")) return null;
const [, revision, fingerprint] = /^(\d{1,9}|-)\.([0-9A-Za-z-]{1,20})$/.exec(fragment.slice("#paper=".length)) ?? [];
const signs = (fingerprint ?? "").toUpperCase();
if (!FINGERPRINT.test(signs)) return { revision: null, fingerprint: null };
return { revision: revision === "-" ? null : Number(revision), fingerprint: signs };
};
leaf.verdictOnPaper = function (paper, now) {
if (paper.fingerprint === null) return "unreadable";
const known = paper.revision !== null && now.revision !== null;
if (paper.fingerprint === now.fingerprint) return known && paper.revision !== now.revision ? "same-values" : "current";
if (known && paper.revision < now.revision) return "older";
return known && paper.revision > now.revision ? "later" : "changed";
};
function fillIn(node, words) {
const walker = document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
const text = walker.currentNode;
text.data = text.data.replace(/@(was|now|paper|page)\b/g, (_, word) => words[word]);
}
}
function show() {
document.querySelector("main > .paper-news")?.remove();
const paper = leaf.paperOf(location.hash);
const template = document.getElementById("page.paper-news");
const mark = document.querySelector("[data-fingerprint]");
if (paper === null || !template || !mark) return;
const { fingerprint, revision } = mark.dataset;
const now = { fingerprint, revision: revision ? Number(revision) : null };
const verdict = leaf.verdictOnPaper(paper, now);
const news = template.content.firstElementChild.cloneNode(true);
for (const line of news.querySelectorAll("[data-when]")) if (line.dataset.when !== verdict) line.remove();
const differs = ["older", "changed", "later"].includes(verdict);
for (const list of news.querySelectorAll("[data-changes]")) {
for (const line of list.querySelectorAll("[data-revision]")) {
if (paper.revision !== null && Number(line.dataset.revision) <= paper.revision) line.remove();
}
if (!differs || verdict === "later" || !list.querySelector("li")) list.remove();
}
const dash = "–";
fillIn(news, { was: String(paper.revision ?? dash), now: String(now.revision ?? dash), paper: paper.fingerprint ?? dash, page: fingerprint });
news.classList.add(verdict === "current" || verdict === "same-values" ? "paper-good" : "paper-bad");
news.setAttribute("role", "alert");
document.querySelector("main").prepend(news);
}
addEventListener("hashchange", show);
show();
})((globalThis.leaf ??= {}));
