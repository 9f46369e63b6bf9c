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
  /** What stands before the decimals of a number that is shown. What is kept and compared has the point. */
  const mark = leaf.data("page-words")?.["decimal-mark"] ?? ".";

  /** A value, and no other text, as the language writes it: `0,71 mm`. */
  leaf.numerals = (value) => (mark === "." ? String(value) : String(value).replace(/(\d)\.(?=\d)/g, `$1${mark}`));

  /** Words in which only numbers with a unit are values: `Drehmomentschlüssel 0,5–6 N·m`. */
  leaf.numeralsIn = (words) =>
    mark === "." ? words : words.replace(/[\d.]*\d(?:[–±\s\u00a0-]*[\d.]*\d)?[\s\u00a0]?(?:N·m|lbf·|kgf·|mm|µm|in\b|°|bar\b|kPa|psi|mL|L\b|kg|g\b)/g, leaf.numerals);
})((globalThis.leaf ??= {}));
