// The way to the search: what leads to the tables without script opens a window with it. What it takes is loaded then,
// not before, as script files: a page opened as a file may load those and nothing else.
(function (leaf) {
  "use strict";
  const link = document.querySelector("a.find");
  if (!link) return;
  const { root } = link.dataset;
  // It stays the element that it is, so that nothing on the page moves.
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
  // A button answers to the space bar, too, which would scroll otherwise.
  link.addEventListener("keydown", (event) => {
    if (event.key === " ") open(event);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey) return;
    if (!event.target.closest?.("input, textarea, select, [contenteditable]")) open(event);
  });
})((globalThis.leaf ??= {}));
