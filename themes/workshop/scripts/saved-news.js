// The bar that says that new values have come to the copy on this device.
(function (leaf) {
  "use strict";

  /** Shows what is new, and offers to load it or to leave it for later. */
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
