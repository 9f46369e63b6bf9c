// What all scripts share: one name for everything of ours, elements, and storage that may be full or denied.
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

  /** What this device keeps, by key, as JSON. `write` tells whether it was kept: storage may be full or denied. */
  leaf.storage = {
    read(key) {
      try {
        const text = globalThis.localStorage.getItem(key);
        return text === null ? null : JSON.parse(text);
      } catch {
        return null;
      }
    },
    /** The keys that begin so, sorted. */
    keys(begin) {
      try {
        return Object.keys(globalThis.localStorage).filter((key) => key.startsWith(begin)).sort();
      } catch {
        return [];
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
