(function (leaf) {
"use strict";
leaf.news = function (words, text, load) {
document.querySelector(".saved-bar")?.remove();
const yes = leaf.element("button", { type: "button" }, words["saved-load"]);
const later = leaf.element("button", { type: "button" }, words["saved-later"]);
const shown = leaf.element("section", { class: "saved-bar screen-only", role: "status" }, leaf.element("p", {}, text), yes, later);
yes.addEventListener("click", load);
later.addEventListener("click", () => shown.remove());
document.body.prepend(shown);
};
})((globalThis.leaf ??= {}));
