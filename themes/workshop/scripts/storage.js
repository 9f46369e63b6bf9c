// What this device keeps; storage may be full or denied.
(function (leaf) {
  "use strict";

  /** What was written; nothing where it is not in order. */
  function parsed(text) {
    try {
      return JSON.parse(text);
    } catch {
      return undefined;
    }
  }

  /** What this device keeps, by key, as JSON. `write` tells whether it was kept: storage may be full or denied. */
  leaf.storage = {
    parsed,
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
})((globalThis.leaf ??= {}));
