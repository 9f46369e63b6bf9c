// What all scripts share: one name for everything of ours, elements, data blocks, words.
(function (leaf) {
  "use strict";

  /** An element with attributes and children; a text is a child too. Nothing is ever read as markup. */
  leaf.element = function (name, attributes, ...children) {
    const element = document.createElement(name);
    for (const [key, value] of Object.entries(attributes ?? {})) {
      if (value === true) element.setAttribute(key, "");
      else if (value !== false && value !== null && value !== undefined) element.setAttribute(key, value);
    }
    element.append(...children);
    return element;
  };

  /** Loads styles and scripts that were not needed before, by their addresses. */
  leaf.load = (...all) =>
    Promise.all(
      all.map(String).map((href) => {
        const style = href.endsWith(".css");
        const element = style ? leaf.element("link", { rel: "stylesheet", href }) : leaf.element("script", { src: href });
        // In the order in which they are asked for: scripts made here would run in the order in which they come.
        element.async = false;
        return new Promise((done, failed) => {
          element.onload = done;
          element.onerror = failed;
          document.head.append(element);
        });
      }),
    );

  /** The data block with this id, or nothing. */
  leaf.data = function (id) {
    try {
      return JSON.parse(document.getElementById(id)?.textContent ?? "null");
    } catch {
      return null;
    }
  };

  /** A word with its braces filled in. What is filled in is text and is not looked through again. */
  leaf.fill = function (word, values) {
    return String(word ?? "").replace(/\{([a-z]+)\}/g, (hole, name) => String(values?.[name] ?? hole));
  };
})((globalThis.leaf ??= {}));
