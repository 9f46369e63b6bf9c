// Numbers as the language of the page writes them. What is kept and compared has the point.
(function (leaf) {
  "use strict";

  /** What stands before the decimals of a number that is shown. */
  const mark = leaf.data("page-words")?.["decimal-mark"] ?? ".";

  /** A value, and no other text, as the language writes it: `0,71 mm`. */
  leaf.numerals = (value) => (mark === "." ? String(value) : String(value).replace(/(\d)\.(?=\d)/g, `$1${mark}`));

  /** Words in which only numbers with a unit are values: `Drehmomentschlüssel 0,5–6 N·m`. */
  leaf.numeralsIn = (words) =>
    mark === "." ? words : words.replace(/[\d.]*\d(?:[–±\s\u00a0-]*[\d.]*\d)?[\s\u00a0]?(?:N·m|lbf·|kgf·|mm|µm|in\b|°|bar\b|kPa|psi|mL|L\b|kg|g\b)/g, leaf.numerals);
})((globalThis.leaf ??= {}));
