// What stands behind the search: reading the index, and finding in it what was meant. No page is touched here.
(function (leaf) {
  "use strict";

  // As `src/page/find_words.rs` writes numbers.
  const DIGITS = "!#$%()*+,-./0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_abcdefghijklmnopqrstuvwxyz{|}~";
  const ENDS = 60;
  const WEIGHTS = { name: 3, id: 2, value: 2, more: 1.2, place: 0.7 };

  /** The words of a text as they are compared: small letters without accents, numbers whole, units in one spelling. */
  const wordsOf = (text) =>
    text
      .normalize("NFKD")
      .replace(/\p{M}/gu, "")
      .toLowerCase()
      .replace(/\b(?:lbf?[\s·.-]?ft|ft[\s·.-]?lbf?)\b/g, "lbfft")
      .replace(/\b(?:lbf?[\s·.-]?in|in[\s·.-]?lbf?)\b/g, "lbfin")
      .replace(/\bn[\s·.-]?m\b/g, "nm")
      .replace(/(\d)\s*[x×*]\s*(?=\d)/g, "$1 ")
      .replace(/(\d),(?=\d)/g, "$1.")
      .match(/\d+(?:\.\d+)*\p{L}*|[\p{L}][\p{L}\d]*/gu) ?? [];

  const numbers = (field) => {
    const found = [];
    let lead = 0;
    for (const sign of field ?? "") {
      const digit = DIGITS.indexOf(sign);
      if (digit < ENDS) {
        found.push(lead * ENDS + digit);
        lead = 0;
      } else lead = lead * (DIGITS.length - ENDS) + digit - ENDS;
    }
    return found;
  };

  /** The index as entries, and every word that is looked for with the entries' words it stands in. */
  leaf.readIndex = (data) => {
    const words = data.words.split(" ");
    const text = (list) => list.map((word) => words[word]).join(" ");
    const [, , , , , , , ...levels] = data.say;
    const entries = [];
    let machine, procedure, step;
    const entry = (kind, fields, page, anchor, place) => {
      const [id, name, value, more] = fields;
      const whole = page + (anchor && `#${anchor}`);
      entries.push({
        kind, href: whole, name: text(name), value: text(value), where: place.map((one) => one.title), machine: machine.id,
        fields: { id, name, value, more, place: place.flatMap((one) => one.words) },
      });
    };
    for (const line of data.lines.split("\n").filter(Boolean)) {
      const [letter, rest] = [line[0], line.slice(1).split(" ")];
      const page = () => `${encodeURIComponent(machine.id)}/${procedure ? `${encodeURIComponent(procedure.id)}.html` : "index.html"}`;
      if (letter === "0" || letter === "1") {
        const name = numbers(rest[1]);
        const here = { id: rest[0], title: text(name), words: name };
        if (letter === "0") [machine, procedure] = [here, undefined];
        else [procedure, step] = [here, 0];
        entry(levels[Number(letter)], [[], name, [], []], page(), "", letter === "0" ? [] : [machine]);
        continue;
      }
      const [id, ...texts] = [0, 1, 2, 3].map((at) => numbers(rest[at]));
      const written = id.map((word) => words[word]).join("-");
      if (letter === "2") {
        step += 1;
        entry(`${levels[2]} ${step}`, [id, texts[0], [], []], page(), written, [machine, procedure]);
        continue;
      }
      const shop = letter < "a";
      const [list, kind, table] = data.kinds[letter.toLowerCase().charCodeAt(0) - 97];
      const home = [machine.id, shop ? "shop" : procedure?.id, list, written].filter(Boolean).join(".");
      const place = procedure && !shop ? [machine, procedure] : [machine];
      entry(kind, [id, ...texts], table || `${encodeURIComponent(machine.id)}/index.html`, home, place);
      if (list === "terms") entries[entries.length - 1].not = text(texts[2]).split(" | ").filter(Boolean);
    }
    const known = new Map();
    words.forEach((word, at) => {
      for (const part of wordsOf(word)) known.set(part, [...(known.get(part) ?? []), at]);
    });
    const terms = new Map();
    for (const { not, name } of entries) for (const wrong of not ?? []) terms.set(wrong, name);
    return { words, entries, known, terms: [...terms] };
  };

  /** The fewest slips, one letter wrong, missing, too many or two swapped, between a word and the beginning of another. */
  leaf.slips = (typed, word) => {
    let [before, last] = [[], Array.from({ length: word.length + 1 }, (_, at) => at)];
    for (let i = 1; i <= typed.length; i += 1) {
      const row = [i];
      for (let j = 1; j <= word.length; j += 1) {
        row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (typed[i - 1] === word[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && typed[i - 1] === word[j - 2] && typed[i - 2] === word[j - 1]) row[j] = Math.min(row[j], before[j - 2] + 1);
      }
      [before, last] = [last, row];
    }
    return Math.min(...last.slice(Math.max(0, typed.length - 2)));
  };

  /** How well each of the index's words matches a typed one; with `slips` also where it was mistyped. */
  const matches = (index, typed, slips) => {
    const found = new Map();
    const allowed = !slips || /^\d/.test(typed) || typed.length < 4 ? 0 : typed.length < 8 ? 1 : 2;
    for (const [word, places] of index.known) {
      let score = 0;
      if (word === typed) score = 1;
      else if (word.startsWith(typed)) score = 0.75;
      else if (allowed) {
        const wrong = leaf.slips(typed, word);
        if (wrong <= allowed) score = 0.5 / wrong - 0.01 * Math.abs(word.length - typed.length);
      }
      if (score > 0) for (const place of places) found.set(place, Math.max(score, found.get(place) ?? 0));
    }
    return found;
  };

  const worth = (entry, typed) => {
    let best = 0;
    for (const [field, weight] of Object.entries(WEIGHTS)) {
      for (const word of entry.fields[field]) best = Math.max(best, weight * (typed.get(word) ?? 0));
    }
    return best;
  };

  /** The entries in which all typed words stand, or, where there are none, those in which most of them do. */
  const ranked = (index, typed, here) => {
    const exact = typed.map((word) => matches(index, word, false));
    const lax = typed.map((word, at) => (exact[at].size ? exact[at] : matches(index, word, true)));
    const all = () => typed.map((word) => matches(index, word, true));
    const found = (sets, least) => {
      const list = [];
      index.entries.forEach((entry, at) => {
        const worths = sets.map((set) => worth(entry, set));
        const there = worths.filter(Boolean).length;
        if (there < least || there === 0) return;
        const length = entry.fields.name.length;
        const named = entry.fields.name.filter((word) => sets.some((set) => set.has(word))).length;
        const score = worths.reduce((sum, one) => sum + one, 0) + named / (length || 1) + (entry.machine === here ? 0.4 : 0);
        list.push({ entry, score, there, at });
      });
      return list.sort((a, b) => b.there - a.there || b.score - a.score || a.at - b.at);
    };
    for (const sets of [exact, lax]) {
      const list = found(sets, typed.length);
      if (list.length) return list;
    }
    const list = found(all(), typed.length);
    return list.length ? list : found(lax, Math.ceil(typed.length / 2));
  };

  /** What a reader's words mean: the entries, the best first, and the terms that were called by another name. */
  leaf.find = (index, query, here) => {
    let typed = wordsOf(query);
    const meant = [];
    for (const [wrong, right] of index.terms) {
      const parts = wordsOf(wrong);
      const at = typed.findIndex((_, from) => parts.every((part, by) => typed[from + by] === part));
      if (parts.length === 0 || at < 0) continue;
      meant.push([wrong, right]);
      typed = [...typed.slice(0, at), ...wordsOf(right), ...typed.slice(at + parts.length)];
    }
    if (typed.length === 0) return { found: [], meant };
    return { found: ranked(index, typed.slice(0, 12), here).map(({ entry }) => entry), meant };
  };
})((globalThis.leaf ??= {}));
