(function (leaf) {
"use strict";
const mark = leaf.data("page-words")?.["decimal-mark"] ?? ".";
leaf.numerals = (value) => (mark === "." ? String(value) : String(value).replace(/(\d)\.(?=\d)/g, `$1${mark}`));
leaf.numeralsIn = (words) =>
mark === "." ? words : words.replace(/[\d.]*\d(?:[–±\s\u00a0-]*[\d.]*\d)?[\s\u00a0]?(?:N·m|lbf·|kgf·|mm|µm|in\b|°|bar\b|kPa|psi|mL|L\b|kg|g\b)/g, leaf.numerals);
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const DIGITS = "!#$%()*+,-./0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_abcdefghijklmnopqrstuvwxyz{|}~";
const ENDS = 60;
const WEIGHTS = { name: 3, id: 2, value: 2, more: 1.2, place: 0.7 };
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
(function (leaf) {
"use strict";
const MOST = 30;
let box, index, root, say;
const make = () => {
index = leaf.readIndex(leaf.index);
const names = ["field", "hint", "close", "found", "nothing", "first", "meant"];
say = Object.fromEntries(names.map((name, at) => [name, leaf.index.say[at]]));
const field = leaf.element("input", {
id: "search.field", type: "text", role: "combobox", "aria-controls": "search.list", "aria-expanded": "false", "aria-autocomplete": "list",
"aria-describedby": "search.hint", autocomplete: "off", autocapitalize: "off", spellcheck: "false", enterkeyhint: "go",
});
const close = leaf.element("button", { type: "button" }, say.close);
const status = leaf.element("p", { role: "status", class: "search-status" });
const list = leaf.element("div", { id: "search.list", role: "listbox", "aria-label": say.found, class: "search-list" });
const window = leaf.element(
"dialog",
{ class: "search", "aria-labelledby": "search.label" },
leaf.element(
"div",
{ class: "search-head" },
leaf.element("label", { id: "search.label", for: "search.field" }, say.field),
leaf.element("div", { class: "search-row" }, field, close),
leaf.element("p", { id: "search.hint", class: "search-hint" }, say.hint),
status,
),
list,
);
close.addEventListener("click", () => window.close());
window.addEventListener("click", (event) => event.target === window && window.close());
list.addEventListener("click", (event) => event.target.closest("a") && window.close());
field.addEventListener("input", () => show(field.value));
field.addEventListener("keydown", keys);
document.body.append(window);
return { window, field, status, list };
};
const active = () => box.list.querySelector('[aria-selected="true"]');
const choose = (option) => {
active()?.setAttribute("aria-selected", "false");
option?.setAttribute("aria-selected", "true");
if (option) box.field.setAttribute("aria-activedescendant", option.id);
else box.field.removeAttribute("aria-activedescendant");
option?.scrollIntoView({ block: "nearest" });
};
const keys = (event) => {
const options = [...box.list.children];
const at = options.indexOf(active());
if (event.isComposing) return;
if (event.key === "ArrowDown") choose(options[at + 1] ?? options[0]);
else if (event.key === "ArrowUp") choose(options[at - 1] ?? options.at(-1));
else if (event.key === "Enter") (active() ?? options[0])?.click();
else return;
event.preventDefault();
};
const option = (entry, at) =>
leaf.element(
"a",
{ id: `search.${at + 1}`, role: "option", "aria-selected": "false", tabindex: "-1", href: root + entry.href },
leaf.element("span", { class: "search-what" }, leaf.numeralsIn(entry.name)),
...(entry.value ? [" ", leaf.element("b", {}, entry.not ? entry.value : leaf.numerals(entry.value))] : []),
" ",
leaf.element("small", {}, [entry.kind, ...entry.where].join(" · ")),
);
const show = (query) => {
const here = new URL(root, location.href);
const machine = decodeURIComponent(location.pathname.slice(here.pathname.length).split("/")[0]);
const { found, meant } = leaf.find(index, query, machine);
const typed = query.trim() !== "";
box.list.replaceChildren(...found.slice(0, MOST).map(option));
box.field.setAttribute("aria-expanded", String(found.length > 0));
choose(null);
const said = meant.map(([wrong, right]) => say.meant.replace("%1", () => wrong).replace("%2", () => right));
if (typed) said.push(found.length ? `${say.found}: ${found.length}.` : say.nothing);
if (found.length > MOST) said.push(say.first);
box.status.textContent = said.join(" ");
};
leaf.search = (from) => {
root = from;
box ??= make();
if (!box.window.open) box.window.showModal();
box.field.focus();
box.field.select();
};
})((globalThis.leaf ??= {}));
