(function (leaf) {
"use strict";
leaf.element = function (name, attributes, ...children) {
const element = document.createElement(name);
for (const [key, value] of Object.entries(attributes ?? {})) {
if (value === true) element.setAttribute(key, "");
else if (value !== false && value !== null && value !== undefined) element.setAttribute(key, value);
}
element.append(...children);
return element;
};
leaf.load = (...all) =>
Promise.all(
all.map(String).map((href) => {
const style = href.endsWith(".css");
const element = style ? leaf.element("link", { rel: "stylesheet", href }) : leaf.element("script", { src: href });
element.async = false;
return new Promise((done, failed) => {
element.onload = done;
element.onerror = failed;
document.head.append(element);
});
}),
);
leaf.data = function (id) {
try {
return JSON.parse(document.getElementById(id)?.textContent ?? "null");
} catch {
return null;
}
};
leaf.fill = function (word, values) {
return String(word ?? "").replace(/\{([a-z]+)\}/g, (hole, name) => String(values?.[name] ?? hole));
};
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
function parsed(text) {
try {
return JSON.parse(text);
} catch {
return undefined;
}
}
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
(function (leaf) {
"use strict";
const words = leaf.data("page-words") ?? {};
const script = document.currentScript?.src;
const worker = globalThis.navigator.serviceWorker;
if (!script || !worker || !globalThis.location.protocol.startsWith("http")) return;
if (document.getElementById("page.desk")) return;
const root = new URL("./", script);
let asked = false;
worker.register(new URL("offline.js", root), { scope: root.pathname, updateViaCache: "none" }).then((registration) => {
if (registration.waiting) offer(registration.waiting);
registration.addEventListener("updatefound", () => {
const coming = registration.installing;
coming?.addEventListener("statechange", () => {
if (coming.state === "installed" && registration.active) offer(coming);
});
});
document.addEventListener("visibilitychange", () => {
if (document.visibilityState === "visible") registration.update().catch(() => {});
});
}).catch(() => {
});
const before = worker.controller;
worker.addEventListener("controllerchange", () => {
if (asked || (before && !leaf.bench)) globalThis.location.reload();
else if (before) bar(words["saved-older"], () => globalThis.location.reload());
});
function offer(coming) {
const answer = new MessageChannel();
const path = decodeURIComponent(globalThis.location.pathname.slice(root.pathname.length));
answer.port1.onmessage = ({ data }) => {
const now = data?.revision;
const text = Number.isSafeInteger(now) ? leaf.fill(words["saved-new-revision"], { now }) : words["saved-new"];
bar(text, () => {
asked = true;
coming.postMessage({ do: "take over" });
});
};
coming.postMessage({ do: "tell", path }, [answer.port2]);
}
let shown;
function bar(text, load) {
shown ??= leaf.load(new URL("saved-news.css", root), new URL("saved-news.js", root));
shown.then(() => leaf.news(words, text, load)).catch(() => {});
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const mark = leaf.data("page-words")?.["decimal-mark"] ?? ".";
leaf.numerals = (value) => (mark === "." ? String(value) : String(value).replace(/(\d)\.(?=\d)/g, `$1${mark}`));
leaf.numeralsIn = (words) =>
mark === "." ? words : words.replace(/[\d.]*\d(?:[–±\s\u00a0-]*[\d.]*\d)?[\s\u00a0]?(?:N·m|lbf·|kgf·|mm|µm|in\b|°|bar\b|kPa|psi|mL|L\b|kg|g\b)/g, leaf.numerals);
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const LONGEST = 40;
const CUSTOMARY = /lbf|\bin\b|thou|°F|psi|\boz\b/;
function plain(spelling) {
return spelling.trim().replaceAll("μ", "µ").replaceAll("º", "°").replace(/[\s·⋅•*.-]+/g, "·").replace(/·$/, "");
}
function number(text) {
const written = text.trim().replace(/^[−–]/, "-");
if (written.length > LONGEST) return { fault: "bench-not-number" };
if (written.includes(",") && written.includes(".")) return { fault: "bench-thousands" };
if ((written.match(/[.,]/g) ?? []).length > 1) return { fault: "bench-thousands" };
const digits = written.replace(",", ".");
if (!/^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(digits)) return { fault: "bench-not-number" };
const value = Number(digits);
return Number.isFinite(value) ? { value, digits: tidy(digits) } : { fault: "bench-not-number" };
}
function tidy(digits) {
return digits.replace(/^\+/, "").replace(/^(-?)\./, "$10.").replace(/\.$/, "");
}
class Units {
constructor(rows) {
this.rows = rows;
this.known = new Map(rows.flatMap((row) => [row.symbol, ...row.others].map((text) => [plain(text), row])));
}
find(spelling) {
return this.known.get(plain(spelling)) ?? null;
}
read(text, own) {
const match = /^\s*([+\-−–]?[\d.,]+)\s*(.*?)\s*$/.exec(text);
if (!match || text.length > LONGEST) return { fault: "bench-not-number" };
const read = number(match[1]);
if (read.fault) return read;
const unit = this.find(match[2] || own);
if (!unit) return { fault: "bench-unit-unknown", unit: match[2] };
const wanted = this.find(own);
if (wanted && wanted.kind !== unit.kind) return { fault: "bench-unit-other", unit: unit.symbol };
return { ...read, unit };
}
toBase(value, unit) {
return (value - unit.zero) * unit.size;
}
fromBase(value, unit) {
return value / unit.size + unit.zero;
}
show(base, unit, decimals) {
return shown(this.fromBase(base, unit), unit.symbol, decimals);
}
system(text) {
const last = text.replaceAll("\u00a0", " ").replace(/[\])]+$/, "");
const found = this.rows.flatMap((row) => [row.symbol]).filter((symbol) => last.endsWith(symbol) || last.includes(`${symbol} (`));
if (found.length === 0) return null;
const unit = found.reduce((a, b) => (b.length > a.length ? b : a));
return CUSTOMARY.test(unit) ? "customary" : "metric";
}
}
function shown(value, symbol, decimals) {
const digits = (Math.round(value * 10 ** decimals) / 10 ** decimals).toFixed(decimals).replace("-", "−");
const local = leaf.numerals?.(digits) ?? digits;
return symbol === "°" ? `${local}°` : `${local}\u00a0${symbol}`;
}
function judge(value, spec, limit) {
const inside = (band) => !band || ((band.low ?? -Infinity) - hair(band.low) <= value && value <= (band.high ?? Infinity) + hair(band.high));
if (limit && !inside(limit)) return "outside-limit";
if (spec) {
if (inside(spec)) return "inside";
if (spec.low === spec.high) return limit ? "inside-limit" : "no-band";
return limit ? "outside-spec" : "outside-spec-only";
}
return limit ? "inside-limit" : "no-limit";
}
function hair(end) {
return Math.abs(end ?? 0) * 1e-9 + 1e-12;
}
function median(values) {
if (values.length === 0) return null;
const sorted = [...values].sort((a, b) => a - b);
const half = Math.floor(sorted.length / 2);
return sorted.length % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}
leaf.quantity = { Units, number, judge, median, shown };
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const LONGEST = 400;
const DEEPEST = 32;
const HAIR = 1e-6;
function parse(text) {
if (typeof text !== "string" || text.length > LONGEST) return null;
const tokens = text.match(/[()]|[a-z][a-z0-9-]*|-?(?:\d+\.?\d*|\.\d+)|[-+×÷*/]|\S/g) ?? [];
let [at, depth] = [0, 0];
const sum = () => chain(product, ["+", "-"]);
const product = () => chain(operand, ["×", "÷", "*", "/"]);
function chain(part, signs) {
let left = part();
while (left && signs.includes(tokens[at])) {
const sign = tokens[at++];
const right = part();
left = right && { sign, left, right };
}
return left;
}
function operand() {
const token = tokens[at++];
if (token === "(") {
if (++depth > DEEPEST) return null;
const inside = sum();
depth -= 1;
return tokens[at++] === ")" ? inside : null;
}
if (/^[a-z]/.test(token ?? "")) return { name: token };
return /^-?[\d.]/.test(token ?? "") && Number.isFinite(Number(token)) ? { number: Number(token) } : null;
}
const tree = sum();
return tree && at === tokens.length ? tree : null;
}
function names(tree) {
if (!tree) return [];
if (tree.name) return [tree.name];
return tree.sign ? [...new Set([...names(tree.left), ...names(tree.right)])] : [];
}
function line(tree, values, unknown) {
if (!tree) return null;
if (tree.number !== undefined) return { constant: tree.number, slope: 0 };
if (tree.name && tree.name === unknown) return { constant: 0, slope: 1 };
if (tree.name) return Number.isFinite(values[tree.name]) ? { constant: values[tree.name], slope: 0 } : null;
const [a, b] = [line(tree.left, values, unknown), line(tree.right, values, unknown)];
if (!a || !b) return null;
switch (tree.sign) {
case "+": return { constant: a.constant + b.constant, slope: a.slope + b.slope };
case "-": return { constant: a.constant - b.constant, slope: a.slope - b.slope };
case "×": case "*":
if (a.slope !== 0 && b.slope !== 0) return null;
return { constant: a.constant * b.constant, slope: a.slope * b.constant + a.constant * b.slope };
default:
if (b.slope !== 0 || b.constant === 0) return null;
return { constant: a.constant / b.constant, slope: a.slope / b.constant };
}
}
function evaluate(tree, values) {
const found = line(tree, values);
return found && Number.isFinite(found.constant) ? found.constant : null;
}
function solve(tree, unknown, result, values) {
const found = names(tree).includes(unknown) ? line(tree, values, unknown) : null;
if (!found || found.slope === 0) return null;
const value = (result - found.constant) / found.slope;
return Number.isFinite(value) ? value : null;
}
function offered(tree, exact, values, series, accept, size) {
const gives = solve(tree, "target", size, values);
const near = Math.abs(size - exact) <= series.step / 2 + HAIR;
const accepted = accept && gives !== null ? (accept.low ?? -Infinity) - HAIR <= gives && gives <= (accept.high ?? Infinity) + HAIR : near;
return { size, gives, accepted };
}
function shim(formula, values, series, accept) {
const tree = parse(formula);
const exact = evaluate(tree, values);
if (exact === null || !(series.from > 0) || !(series.step > 0) || !(series.to >= series.from)) return null;
const last = Math.floor((series.to - series.from + HAIR) / series.step);
const at = (steps) => Math.round((series.from + steps * series.step) * 1e6) / 1e6;
const offer = (size) => offered(tree, exact, values, series, accept, size);
const steps = Math.floor((exact - series.from + HAIR) / series.step);
const below = steps >= 0 ? offer(at(Math.min(steps, last))) : null;
const met = below !== null && Math.abs(below.size - exact) < HAIR;
const next = Math.max(steps + 1, 0);
const above = !met && next <= last ? offer(at(next)) : null;
const off = ({ size }) => Math.abs(size - exact);
const best = [below, above].filter((one) => one?.accepted).reduce((thin, thick) => (thin === null || off(thick) + HAIR < off(thin) ? thick : thin), null);
return { exact, below, above, best };
}
function fitted(formula, values, series, accept, size) {
const choice = shim(formula, values, series, accept);
return choice && { ...choice, fitted: offered(parse(formula), choice.exact, values, series, accept, size) };
}
function clearance(hole, part) {
const ends = [hole?.low, hole?.high, part?.low, part?.high];
if (!ends.every(Number.isFinite) || hole.low <= 0 || part.low <= 0 || hole.low > hole.high || part.low > part.high) return null;
return { low: hole.low - part.high, high: hole.high - part.low };
}
function degrees(arc, diameter) {
const found = diameter > 0 ? (360 * arc) / (Math.PI * diameter) : NaN;
return Number.isFinite(found) ? found : null;
}
function arc(angle, diameter) {
const found = diameter > 0 ? (Math.PI * diameter * angle) / 360 : NaN;
return Number.isFinite(found) ? found : null;
}
function atTeeth(reading, gear, dial) {
const found = gear > 0 && dial > 0 ? (reading * gear) / dial : NaN;
return Number.isFinite(found) ? found : null;
}
leaf.reckon = { parse, names, evaluate, solve, shim, fitted, clearance, degrees, arc, atTeeth };
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const USABLE_FROM = 0.2;
const HAIR = 1e-9;
const sound = ({ low, high }) => Number.isFinite(low) && Number.isFinite(high) && low >= 0 && high > low;
function fits(wrench, torque) {
if (!sound(wrench) || !(torque > 0)) return false;
const from = Math.max(wrench.low, USABLE_FROM * wrench.high);
return torque <= wrench.high * (1 + HAIR) && torque >= from * (1 - HAIR);
}
function lengthening(length, adapter) {
if (!(length > 0) || !(adapter.length >= 0) || !Number.isFinite(adapter.angle)) return null;
const cosine = Math.cos((adapter.angle * Math.PI) / 180);
const offset = Math.abs(cosine) < 1e-12 ? 0 : adapter.length * cosine;
return length + offset > 0 ? (length + offset) / length : null;
}
function setting(torque, length, adapter) {
const factor = lengthening(length, adapter);
return factor !== null && torque > 0 ? torque / factor : null;
}
function nearest(wrench, torque) {
return wrench.step > 0 ? Math.round(torque / wrench.step) * wrench.step : torque;
}
function shows(wrench, torque) {
return Math.abs(nearest(wrench, torque) - torque) <= torque * 0.005;
}
function readsBest(wrench, torque) {
return 0.25 * wrench.high <= torque && torque <= 0.75 * wrench.high;
}
function best(wrenches, torque, ends = [torque]) {
const found = wrenches.map((wrench, at) => ({ wrench, at })).filter(({ wrench }) => ends.every((end) => fits(wrench, end)));
const rank = ({ wrench }) => [shows(wrench, torque) ? 0 : 1, readsBest(wrench, torque) ? 0 : 1, wrench.high];
found.sort((a, b) => {
const [left, right] = [rank(a), rank(b)];
return left[0] - right[0] || left[1] - right[1] || left[2] - right[2] || a.at - b.at;
});
return found[0]?.at ?? -1;
}
leaf.wrench = { fits, setting, nearest, best };
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const MOST = 40;
const TOKEN = /^\d{1,9}\.\w{0,30}$/;
const NOTHING = "0.";
const text = (value) => JSON.stringify(value);
function nameOf(value) {
const written = text(value);
let sum = 0;
for (let at = 0; at < written.length; at += 1) sum = (Math.imul(sum, 31) + written.charCodeAt(at)) | 0;
return `0.${written.length}x${sum >>> 0}`;
}
const numberOf = (token) => Number.parseInt(token, 10);
const newestFirst = (a, b) => numberOf(b) - numberOf(a) || (a < b ? 1 : -1);
const trailOf = (tokens) => [...new Set(tokens)].sort(newestFirst).slice(0, MOST);
function packed(value, writings) {
return Array.isArray(value) ? [...value, { writings }] : { ...value, writings };
}
function unpacked(stored) {
if (stored === null || typeof stored !== "object") return [stored, undefined];
if (Array.isArray(stored)) {
const { writings } = stored.at(-1) ?? {};
return writings === undefined ? [stored, undefined] : [stored.slice(0, -1), writings];
}
const { writings, ...value } = stored;
return [value, writings];
}
function checked(writings) {
const { trail, noted } = writings ?? {};
const isToken = (one) => typeof one === "string" && TOKEN.test(one);
if (!Array.isArray(trail) || trail.length === 0 || trail.length > MOST || !trail.every(isToken)) return undefined;
if (noted === null || typeof noted !== "object") return undefined;
return { trail: trailOf(trail), noted: among(trail, new Map(Object.entries(noted))) };
}
function among(trail, noted) {
const known = new Set(trail);
return new Map([...noted].filter(([, token]) => known.has(token)));
}
function unknown(one, other) {
const isForgotten = (token) => other.trail.length === MOST && newestFirst(token, other.trail.at(-1)) > 0;
return new Set(one.trail.filter((token) => !other.trail.includes(token) && !isForgotten(token)));
}
function join(form, mine, theirs) {
if (!theirs.trail.some((token) => mine.trail.includes(token))) return theirs;
const [ours, others] = [unknown(mine, theirs), unknown(theirs, mine)];
if (ours.size === 0) return theirs;
if (others.size === 0) return mine;
const own = form.entries(mine.value);
const entries = new Map();
const noted = new Map();
const keep = (key, value, token) => {
entries.set(key, value);
if (token !== undefined) noted.set(key, token);
};
for (const [key, value] of form.entries(theirs.value)) {
const [token, ownToken] = [theirs.noted.get(key), mine.noted.get(key)];
if (!own.has(key)) {
if (others.has(token)) keep(key, value, token);
} else if (!ours.has(ownToken)) keep(key, value, token);
else if (!others.has(token)) keep(key, own.get(key), ownToken);
else if (text(value) === text(own.get(key))) keep(key, value, token > ownToken ? token : ownToken);
else if (form.choose(key, value, own.get(key)) === value) keep(key, value, token);
else keep(key, own.get(key), ownToken);
own.delete(key);
}
for (const [key, value] of own) {
if (ours.has(mine.noted.get(key))) keep(key, value, mine.noted.get(key));
}
const trail = trailOf([...mine.trail, ...theirs.trail]);
const value = form.value(entries);
return value === undefined ? theirs : { value, trail, noted: among(trail, noted) };
}
function alike(form, one, other) {
if (one === other) return true;
const [left, right] = [form.entries(one.value), form.entries(other.value)];
return left.size === right.size && [...left].every(([key, value]) => right.has(key) && text(right.get(key)) === text(value));
}
class Shared {
constructor(form, token) {
this.form = form;
this.token = token;
this.forget();
}
forget() {
this.known = { value: null, trail: [NOTHING], noted: new Map() };
this.lacks = false;
}
get value() {
return this.known.value;
}
get stored() {
return packed(this.known.value, { trail: this.known.trail, noted: Object.fromEntries(this.known.noted) });
}
see(stored) {
if (stored === null) {
this.forget();
return true;
}
const [found, writings] = unpacked(stored);
const value = this.form.read(found);
if (value === undefined) return false;
const theirs = { value, ...(checked(writings) ?? { trail: [nameOf(value)], noted: new Map() }) };
this.known = this.known.value === null ? theirs : join(this.form, this.known, theirs);
this.lacks = !alike(this.form, this.known, theirs);
return true;
}
note(value) {
const before = this.known.value === null ? new Map() : this.form.entries(this.known.value);
const after = this.form.entries(value);
const token = `${numberOf(this.known.trail[0]) + 1}.${this.token()}`;
const noted = new Map(this.known.noted);
for (const [key, one] of after) {
if (!before.has(key) || text(before.get(key)) !== text(one)) noted.set(key, token);
before.delete(key);
}
for (const key of before.keys()) {
noted.delete(key);
const stirred = this.form.stirs?.(key);
if (after.has(stirred)) noted.set(stirred, token);
}
const trail = trailOf([token, ...this.known.trail]);
this.known = { value, trail, noted: among(trail, noted) };
this.lacks = false;
return this.stored;
}
}
function later(a, b) {
const [first, second] = [a, b].map((one) => Date.parse(one?.at ?? one));
if (first !== second && !Number.isNaN(first) && !Number.isNaN(second)) return first > second ? a : b;
return text(a) > text(b) ? a : b;
}
const list = (key) => ({
read: (value) => (Array.isArray(value) ? value.filter((one) => one !== null && typeof one === "object") : undefined),
entries: (value) => new Map(value.map((one) => [key(one), one])),
value: (entries) => [...entries.values()],
choose: (_, a, b) => later(a, b),
});
const map = {
read: (value) => (value !== null && typeof value === "object" && !Array.isArray(value) ? value : undefined),
entries: (value) => new Map(Object.entries(value)),
value: (entries) => Object.fromEntries(entries),
choose: (_, a, b) => later(a, b),
};
const token = () => [...globalThis.crypto.getRandomValues(new Uint32Array(2))].map((part) => part.toString(36)).join("");
leaf.writings = { Shared, later, list, map, token };
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const FORMAT = "benchleaf-build/1";
const LARGEST = 1_000_000;
const MOST = { entries: 5000, procedures: 200, people: 200, axes: 40 };
const TEXT = 300;
const LONG_TEXT = 2000;
const TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,9})?)?(Z|[+-]\d\d:\d\d)$/;
class Fault extends Error {
constructor(place) {
super(place);
this.place = place;
}
}
class Reader {
constructor() {
this.left = 0;
}
fields(value, place, known) {
if (value === null || typeof value !== "object" || Array.isArray(value)) throw new Fault(place);
this.left += Object.keys(value).filter((key) => !known.includes(key)).length;
return value;
}
text(value, place, longest = TEXT) {
if (typeof value !== "string" || value.length > longest) throw new Fault(place);
return value;
}
id(value, place) {
const text = this.text(value, place);
if (text === "" || text === "__proto__") throw new Fault(place);
return text;
}
maybe(value, read) {
return value === undefined || value === null ? undefined : read(value);
}
time(value, place) {
const text = this.text(value, place, 40);
if (!TIME.test(text) || Number.isNaN(Date.parse(text))) throw new Fault(place);
return text;
}
whole(value, place, least) {
if (!Number.isSafeInteger(value) || value < least || value > 1e9) throw new Fault(place);
return value;
}
list(value, place, most, read) {
if (value === undefined) return [];
if (!Array.isArray(value) || value.length > most) throw new Fault(place);
return value.map((one, at) => read(one, `${place}[${at}]`));
}
map(value, place, most, read) {
if (value === undefined) return {};
if (value === null || typeof value !== "object" || Array.isArray(value)) throw new Fault(place);
const pairs = Object.entries(value);
if (pairs.length > most) throw new Fault(place);
return Object.fromEntries(pairs.map(([key, one]) => [this.id(key, place), read(one, `${place}.${key.slice(0, 40)}`)]));
}
tick(value, place) {
this.fields(value, place, ["step", "act", "number", "value", "at", "by"]);
return lean({ ...this.spot(value, place), value: this.maybe(value.value, (v) => this.text(v, `${place}.value`, LONG_TEXT)), at: this.time(value.at, `${place}.at`), by: this.maybe(value.by, (v) => this.text(v, `${place}.by`)) });
}
reading(value, place) {
this.fields(value, place, ["step", "act", "number", "value", "at"]);
return { ...this.spot(value, place), value: this.text(value.value, `${place}.value`), at: this.time(value.at, `${place}.at`) };
}
spot(value, place) {
const number = this.maybe(value.number, (v) => this.whole(v, `${place}.number`, 1)) ?? 1;
return { step: this.id(value.step, `${place}.step`), act: this.id(value.act, `${place}.act`), number };
}
signature(value, place) {
this.fields(value, place, ["step", "act", "by", "at"]);
return { step: this.id(value.step, `${place}.step`), act: this.id(value.act, `${place}.act`), by: this.id(value.by, `${place}.by`), at: this.time(value.at, `${place}.at`) };
}
procedure(value, place) {
this.fields(value, place, ["revision", "fingerprint", "begun", "finished", "ticks", "readings", "signatures", "stops"]);
return lean({
revision: this.maybe(value.revision, (v) => this.whole(v, `${place}.revision`, 0)),
fingerprint: this.maybe(value.fingerprint, (v) => this.text(v, `${place}.fingerprint`)),
begun: this.maybe(value.begun, (v) => this.time(v, `${place}.begun`)),
finished: this.maybe(value.finished, (v) => this.time(v, `${place}.finished`)) ?? null,
ticks: this.list(value.ticks, `${place}.ticks`, MOST.entries, (v, at) => this.tick(v, at)),
readings: this.list(value.readings, `${place}.readings`, MOST.entries, (v, at) => this.reading(v, at)),
signatures: this.list(value.signatures, `${place}.signatures`, MOST.entries, (v, at) => this.signature(v, at)),
stops: this.maybe(value.stops, (v) => this.list(v, `${place}.stops`, MOST.entries, (one, at) => this.tick(one, at))),
});
}
deviation(value, place) {
this.fields(value, place, ["procedure", "step", "of", "what", "because", "by", "at"]);
return lean({
procedure: this.id(value.procedure, `${place}.procedure`),
step: this.maybe(value.step, (v) => this.id(v, `${place}.step`)),
of: this.maybe(value.of, (v) => this.text(v, `${place}.of`)),
what: this.text(value.what, `${place}.what`, LONG_TEXT),
because: this.maybe(value.because, (v) => this.text(v, `${place}.because`, LONG_TEXT)),
by: this.maybe(value.by, (v) => this.text(v, `${place}.by`)),
at: this.time(value.at, `${place}.at`),
});
}
open(value, place) {
this.fields(value, place, ["item", "procedure", "left"]);
return { item: this.id(value.item, `${place}.item`), procedure: this.id(value.procedure, `${place}.procedure`), left: this.text(value.left, `${place}.left`) };
}
record(value) {
this.fields(value, "format", ["format", "manual", "machine", "serial", "variant", "people", "begun", "saved", "procedures", "deviations", "open"]);
return {
format: FORMAT,
manual: this.text(value.manual, "manual"),
machine: this.id(value.machine, "machine"),
serial: this.id(value.serial, "serial"),
variant: this.map(value.variant, "variant", MOST.axes, (v, at) => this.text(v, at)),
people: this.list(value.people, "people", MOST.people, (v, at) => this.text(v, at)),
begun: this.time(value.begun, "begun"),
saved: this.time(value.saved, "saved"),
procedures: this.map(value.procedures, "procedures", MOST.procedures, (v, at) => this.procedure(v, at)),
deviations: this.list(value.deviations, "deviations", MOST.entries, (v, at) => this.deviation(v, at)),
open: this.list(value.open, "open", MOST.entries, (v, at) => this.open(v, at)),
};
}
}
function lean(value) {
return Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined));
}
function check(value) {
if (value !== null && typeof value === "object" && typeof value.format === "string" && value.format !== FORMAT) {
return { fault: value.format.startsWith("benchleaf-build/") ? "bench-import-newer" : "bench-import-json", value: value.format.slice(0, 40) };
}
if (value === null || typeof value !== "object" || value.format !== FORMAT) return { fault: "bench-import-json" };
try {
const reader = new Reader();
return { record: reader.record(value), left: reader.left };
} catch (error) {
if (error instanceof Fault) return { fault: "bench-import-form", place: error.place };
throw error;
}
}
function read(text) {
if (text.length > LARGEST) return { fault: "bench-import-large" };
let value;
try {
value = JSON.parse(text);
} catch {
return { fault: "bench-import-json" };
}
return check(value);
}
function create({ manual, machine, serial, variant, now }) {
return { format: FORMAT, manual, machine, serial, variant: { ...variant }, people: [], begun: now, saved: now, procedures: {}, deviations: [], open: [] };
}
const spot = ({ step, act, number, by }) => JSON.stringify([step, act, number ?? by]);
const whole = (value) => JSON.stringify(value);
const later = (a, b) => (Date.parse(b.at) > Date.parse(a.at) ? b : a);
function joined(own, other, key, count) {
const all = new Map(own.map((one) => [key(one), one]));
for (const one of other) {
const known = all.get(key(one));
const kept = known ? (known.at && one.at ? later(known, one) : known) : one;
if (kept !== known && whole(kept) !== whole(known)) count();
all.set(key(one), kept);
}
return [...all.values()];
}
function merge(own, other) {
let added = 0;
const count = () => (added += 1);
const procedures = { ...own.procedures };
for (const [id, theirs] of Object.entries(other.procedures)) {
const ours = Object.hasOwn(procedures, id) ? procedures[id] : { ...theirs, ticks: [], readings: [], signatures: [], stops: undefined };
const stops = joined(ours.stops ?? [], theirs.stops ?? [], spot, count);
procedures[id] = lean({
...ours,
finished: ours.finished ?? theirs.finished,
ticks: joined(ours.ticks, theirs.ticks, spot, count),
readings: joined(ours.readings, theirs.readings, spot, count),
signatures: joined(ours.signatures, theirs.signatures, spot, count),
stops: stops.length > 0 ? stops : undefined,
});
}
const record = {
...own,
variant: { ...other.variant, ...own.variant },
people: [...new Set([...own.people, ...other.people])],
begun: Date.parse(other.begun) < Date.parse(own.begun) ? other.begun : own.begun,
procedures,
deviations: joined(own.deviations, other.deviations, whole, count),
open: joined(own.open, other.open, ({ item, procedure }) => whole([item, procedure]), count),
};
return { record, added };
}
const OF_PROCEDURE = { ticks: spot, readings: spot, stops: spot };
function entries(record) {
const all = new Map();
const set = (value, ...key) => all.set(whole(key), value);
for (const field of ["manual", "begun", "saved"]) set(record[field], field);
for (const [axis, value] of Object.entries(record.variant)) set(value, "variant", axis);
for (const name of record.people) set(name, "people", name);
for (const [id, own] of Object.entries(record.procedures)) {
set([own.revision ?? null, own.fingerprint ?? null], "edition", id);
set(own.begun ?? null, "begun", id);
set(own.finished ?? null, "finished", id);
for (const [name, key] of Object.entries(OF_PROCEDURE)) {
for (const one of own[name] ?? []) set(one, name, id, key(one));
}
const before = new Map();
for (const one of own.signatures) {
const place = whole([one.step, one.act]);
const nth = before.get(place) ?? 0;
before.set(place, nth + 1);
set(one, "signatures", id, place, nth);
}
}
for (const one of record.deviations) set(one, "deviations", whole(one));
for (const one of record.open) set(one, "open", one.item, one.procedure);
return all;
}
function together(all, machine, serial) {
const record = { format: FORMAT, manual: "", machine, serial, variant: {}, people: [], begun: "", saved: "", procedures: {}, deviations: [], open: [] };
const named = (id) => (Object.hasOwn(record.procedures, id) ? record.procedures[id] : (record.procedures[id] = { finished: null, ticks: [], readings: [], signatures: [] }));
const place = ([key, value]) => ({ value, key: JSON.parse(key) });
const inOrder = (a, b) => (a.key[3] ?? 0) - (b.key[3] ?? 0);
for (const { key: [kind, id], value } of [...all].map(place).sort(inOrder)) {
if (kind === "variant") record.variant[id] = value;
else if (Array.isArray(record[kind])) record[kind].push(value);
else if (id === undefined) record[kind] = value;
else if (kind === "edition") Object.assign(named(id), lean({ revision: value[0] ?? undefined, fingerprint: value[1] ?? undefined }));
else if (kind === "begun" || kind === "finished") named(id)[kind] = value;
else (named(id)[kind] ??= []).push(value);
}
return check(record).record;
}
const form = (machine, serial) => ({
read: (value) => {
const { record } = check(value);
return record?.machine === machine && record.serial === serial ? record : undefined;
},
entries,
value: (all) => together(all, machine, serial),
choose: (key, a, b) => {
const [kind] = JSON.parse(key);
if (kind === "edition" && a[0] !== b[0]) return (a[0] ?? 0) > (b[0] ?? 0) ? a : b;
const last = leaf.writings.later(a, b);
return kind === "begun" ? (last === a ? b : a) : last;
},
stirs: (key) => {
const [kind, id] = JSON.parse(key);
return kind === "ticks" || kind === "signatures" ? whole(["finished", id]) : undefined;
},
});
leaf.record = { FORMAT, LARGEST, check, read, create, merge, form };
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const JUMP = 60_000;
class Watch {
constructor(now, steady, seen) {
this.now = now;
this.steady = steady;
this.last = { now: now(), steady: steady() };
this.wentBack = Number.isFinite(seen) && seen - this.last.now > JUMP ? seen - this.last.now : 0;
}
look() {
const current = { now: this.now(), steady: this.steady() };
const jump = current.now - this.last.now - (current.steady - this.last.steady);
this.last = current;
return Math.abs(jump) > JUMP ? jump : 0;
}
}
function parts(milliseconds) {
const units = [["days", 86_400], ["hours", 3600], ["minutes", 60], ["seconds", 1]];
let rest = Math.max(0, Math.ceil(milliseconds / 1000));
const first = Math.max(0, units.findIndex(([, size]) => rest >= size));
if (rest === 0) return [[0, "seconds"]];
const found = units.slice(first, first + 2).map(([name, size]) => {
const count = Math.floor(rest / size);
rest -= count * size;
return [count, name];
});
return found.filter(([count]) => count > 0);
}
leaf.clock = { Watch, parts, JUMP };
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const HELD = 500;
leaf.hold = function (button, act, plain = () => false, short = () => {}) {
let timer = null;
let byPointer = false;
const stop = () => {
clearTimeout(timer);
timer = null;
button.classList.remove("holding");
};
button.addEventListener("pointerdown", (event) => {
byPointer = event.isTrusted && (event.width > 0 || event.height > 0);
if (!byPointer || plain() || event.button !== 0) return;
stop();
button.classList.add("holding");
timer = setTimeout(() => {
stop();
globalThis.navigator.vibrate?.(40);
act();
}, HELD);
});
button.addEventListener("pointerup", () => {
const early = timer !== null;
stop();
if (early) short();
});
for (const end of ["pointercancel", "pointerleave"]) button.addEventListener(end, stop);
button.addEventListener("contextmenu", (event) => event.preventDefault());
button.addEventListener("click", (event) => {
const touched = byPointer && event.detail > 0;
byPointer = false;
if (!touched || plain()) act();
});
button.addEventListener("keydown", (event) => {
if (event.repeat && (event.key === "Enter" || event.key === " ")) event.preventDefault();
});
return button;
};
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const data = leaf.data("bench-data");
if (!data?.acts || !data.words) return;
const SETTINGS = "leaf.settings";
const DEFAULTS = { oneStep: false, tap: false, printTicks: false, awake: true, units: "printed", who: "" };
const VALUES = new Set(["value", "was", "now", "spec", "limit", "low", "high", "size", "gives", "formula", "best"]);
const ofMachine = (kind) => `leaf.${kind}:${JSON.stringify([data.manual, data.machine])}`;
const ofBuild = (kind, machine, serial, ...more) => `leaf.${kind}:${JSON.stringify([data.manual, machine, serial, ...more])}`;
class Bench {
constructor() {
this.data = data;
this.units = new leaf.quantity.Units(data.units);
this.acts = new Map(data.acts.map((act) => [act.key, act]));
this.root = document.querySelector(".sheet main");
this.memory = new Map();
this.sharing = new Map();
this.listeners = [];
this.parts = [];
this.notices = new Map();
this.dismissed = new Set();
this.settings = { ...DEFAULTS, ...this.keptSettings };
const serial = this.read(ofMachine("current"));
this.serial = typeof serial === "string" ? serial.slice(0, 200) : "";
}
say(key, values) {
const shown = Object.entries(values ?? {}).map(([name, value]) => [name, VALUES.has(name) ? leaf.numerals(value) : value]);
return leaf.fill(data.words[key], Object.fromEntries(shown));
}
time(at) {
const moment = new Date(at);
const today = moment.toDateString() === new Date().toDateString();
const style = today ? { timeStyle: "short" } : { dateStyle: "medium", timeStyle: "short" };
return moment.toLocaleString(document.documentElement.lang || undefined, style);
}
span(milliseconds) {
return leaf.clock.parts(milliseconds).map(([count, name]) => this.say(`bench-${name}`, { count })).join(" ");
}
now() {
return new Date().toISOString();
}
read(key) {
return this.memory.has(key) ? this.memory.get(key) : leaf.storage.read(key);
}
write(key, value) {
this.cached = undefined;
if (leaf.storage.write(key, value)) {
this.memory.delete(key);
return true;
}
this.memory.set(key, value);
this.notice("denied", this.say("bench-denied"));
return false;
}
shared(key, form) {
if (!this.sharing.has(key)) this.sharing.set(key, new leaf.writings.Shared(form, leaf.writings.token));
return this.sharing.get(key);
}
readShared(key, form) {
const shared = this.shared(key, form);
return shared.see(this.read(key)) ? shared.value : null;
}
writeShared(key, form, value) {
return this.write(key, this.shared(key, form).note(value));
}
heard(key, text) {
this.cached = undefined;
for (const [known, shared] of this.sharing) {
if (key !== null && key !== known) continue;
if (typeof text === "string") shared.see(leaf.storage.parsed(text));
if (shared.see(this.read(known)) && shared.lacks) this.write(known, shared.stored);
}
this.tell();
}
get keptSettings() {
const kept = this.read(SETTINGS);
return Object.fromEntries(Object.entries(DEFAULTS).flatMap(([key, value]) => (typeof kept?.[key] === typeof value ? [[key, kept[key]]] : [])));
}
set(changes) {
Object.assign(this.settings, changes);
this.write(SETTINGS, { ...this.settings, ...this.keptSettings, ...changes });
this.tell();
}
get ready() {
return this.serial !== "" && this.settings.who !== "";
}
begin(serial, who) {
if (serial !== this.serial) this.dismissed.clear();
this.serial = serial;
this.write(ofMachine("current"), serial);
globalThis.navigator.storage?.persist?.().catch(() => {});
this.set({ who });
}
key(kind, ...more) {
return ofBuild(kind, data.machine, this.serial, ...more);
}
serials() {
const begin = `leaf.build:${JSON.stringify([data.manual, data.machine]).slice(0, -1)},`;
const keys = [...leaf.storage.keys(begin), ...this.memory.keys()].filter((key) => key.startsWith(begin));
return [...new Set(keys.map((key) => JSON.parse(key.slice("leaf.build:".length))[2]))];
}
get record() {
if (this.cached === undefined) {
this.cached = this.fresh;
queueMicrotask(() => (this.cached = undefined));
}
return this.cached;
}
get fresh() {
return this.serial === "" ? null : this.recordOf(data.machine, this.serial);
}
recordOf(machine, serial) {
const key = ofBuild("build", machine, serial);
const shared = this.shared(key, leaf.record.form(machine, serial));
if (shared.see(this.read(key))) return JSON.parse(JSON.stringify(shared.value));
if (this.write(ofBuild("aside", machine, serial, this.now()), this.read(key))) this.write(key, null);
shared.forget();
this.notice("aside", this.say("bench-aside-store"));
return null;
}
keep(record) {
const key = ofBuild("build", record.machine, record.serial);
const kept = this.writeShared(key, leaf.record.form(record.machine, record.serial), record);
this.tell();
return kept;
}
change(work) {
if (!this.ready) return;
const now = this.now();
const record = this.fresh ?? leaf.record.create({ manual: data.manual, machine: data.machine, serial: this.serial, variant: data.variant, now });
const own = Object.hasOwn(record.procedures, data.procedure)
? record.procedures[data.procedure]
: { begun: now, finished: null, ticks: [], readings: [], signatures: [] };
work(own, record, now);
record.procedures[data.procedure] = this.dated(own);
record.manual = data.manual;
record.variant = { ...record.variant, ...data.variant };
if (!record.people.includes(this.settings.who)) record.people.push(this.settings.who);
record.open = this.openItems(record, own);
record.saved = now;
this.keep(record);
}
dated(own) {
const stale = own.ticks.some((tick) => this.isStale(tick));
const { revision, fingerprint, ...rest } = own;
const was = { revision, fingerprint };
const is = stale ? was : { revision: data.revision, fingerprint: data.fingerprint };
return JSON.parse(JSON.stringify({ revision: is.revision ?? undefined, fingerprint: is.fingerprint ?? undefined, ...rest }));
}
openItems(record, own) {
const begun = own.ticks.length > 0;
const others = record.open.filter(({ item, procedure }) => {
if (procedure === data.procedure) return false;
return !(own.finished && data.finishes.some((one) => one.item === item && one.procedure === procedure));
});
return [...others, ...(begun ? data.leaves.map(({ item, left }) => ({ item, procedure: data.procedure, left })) : [])];
}
get own() {
const procedures = this.record?.procedures ?? {};
return Object.hasOwn(procedures, data.procedure) ? procedures[data.procedure] : { finished: null, ticks: [], readings: [], signatures: [] };
}
actOf({ step, act, number }) {
return this.acts.get(`${step}/${act}/${number}`);
}
isStale(tick) {
const act = this.actOf(tick);
return act !== undefined && !act.fits && (act.value ?? "") !== (tick.value ?? "");
}
get conflict() {
const was = this.record?.variant ?? {};
const axes = Object.keys(data.variant).filter((axis) => Object.hasOwn(was, axis) && was[axis] !== data.variant[axis]);
if (axes.length === 0) return null;
const words = (variant) => axes.map((axis) => `${axis} ${variant[axis]}`).join(", ");
return { was: words(was), now: words(data.variant), variant: was };
}
elsewhere(serial) {
if (!/^\d+$/.test(serial)) return null;
const within = ({ low, high }) => (low === null || Number(serial) >= low) && (high === null || Number(serial) <= high);
const other = (data.numbers ?? []).find((one) => within(one) && data.variant[one.axis] !== one.value);
return other ? { serial, variant: `${other.axis} ${other.value}`, limit: other.means, now: `${other.axis} ${data.variant[other.axis]}` } : null;
}
part(begin) {
this.parts.push(begin);
}
onChange(show) {
this.listeners.push(show);
}
tell() {
for (const show of this.listeners) show();
}
notice(key, text, actions = []) {
if (this.notices.get(key)?.text === text || this.dismissed.has(key + text)) return;
this.notices.set(key, { text, actions });
this.showNotices?.();
}
dismiss(key) {
if (key !== "clock") this.dismissed.add(key + (this.notices.get(key)?.text ?? ""));
this.withdraw(key);
}
withdraw(key) {
if (this.notices.delete(key)) this.showNotices?.();
}
}
leaf.bench = new Bench();
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
bench.part(() => {
for (const row of bench.root.querySelectorAll(".tick[data-act]")) tickRow(row);
for (const row of bench.root.querySelectorAll(".mark-hold[data-act]")) signRow(row);
for (const row of bench.root.querySelectorAll(".mark-close")) stopRow(row);
for (const line of bench.root.querySelectorAll(".have-line")) {
const name = line.querySelector(".have-label").textContent.trim();
const key = `have#${line.textContent.replace(/\s+/g, " ").trim().slice(0, 200)}`;
const state = element("span", { class: "tick-state", "aria-live": "polite" });
line.querySelector(".have-items").append(state);
markBox(line.querySelector(".box"), key, bench.say("bench-before-tick", { name }), state);
}
});
function holdButton(act, state) {
const button = element("button", { type: "button", class: "hold" }, element("span", { class: "hold-mark", "aria-hidden": "true" }));
return leaf.hold(button, act, () => bench.settings.tap, () => tooShort(state));
}
const SHORT_SAID = 5000;
function tooShort(state) {
const word = bench.say("bench-hold-longer");
state.textContent = word;
setTimeout(() => {
if (state.textContent === word) bench.tell();
}, SHORT_SAID);
}
function allowed() {
if (!bench.ready) {
bench.askBuild(bench.say("bench-need-build"));
return false;
}
return bench.conflict === null;
}
bench.allowed = allowed;
function tickRow(row) {
const act = bench.acts.get(row.dataset.act);
if (!act) return;
const name = row.querySelector(".tick-words").textContent.replace(/\s+/g, " ").trim();
const state = element("p", { class: "tick-state", "aria-live": "polite" });
const button = holdButton(() => toggle(row, act, state), state);
row.prepend(button);
row.querySelector(".tick-line").after(state);
const boxes = gridBoxes(row, act, state);
row.emptyBoxes = () => boxes.filter((key) => !bench.marks.has(key)).length;
const show = () => {
const tick = tickOf(act);
const stale = tick !== undefined && bench.isStale(tick);
row.classList.toggle("ticked", tick !== undefined && !stale);
row.classList.toggle("stale", stale);
const doubt = tick && !stale ? (row.doubt?.() ?? null) : null;
row.classList.toggle("doubtful", doubt !== null && !bench.deviates(act.step));
button.setAttribute("aria-label", bench.say(tick && !stale ? "bench-untick" : "bench-hold", { name }));
state.textContent = stale
? bench.say("bench-changed", { was: tick.value ?? "–", now: act.value ?? "–" })
: tick ? [bench.say("bench-ticked", { time: bench.time(tick.at), by: tick.by ?? "–" }), doubt].filter(Boolean).join(" · ") : "";
};
bench.onChange(show);
show();
}
const same = (act) => (one) => one.step === act.step && one.act === act.act && one.number === act.number;
const tickOf = (act) => bench.own.ticks.find(same(act));
function toggle(row, act, state) {
if (!allowed()) return;
const empty = row.emptyBoxes();
const tick = tickOf(act);
const adds = tick === undefined || bench.isStale(tick);
if (adds && empty > 0) {
state.textContent = bench.say("bench-grid-first", { count: empty });
return;
}
const answered = bench.deviates(act.step);
const early = adds && !answered ? bench.early(act) : null;
if (early) {
state.textContent = bench.say("bench-early", early);
return;
}
const waits = adds ? waiting(row, act) : null;
if (waits) {
state.textContent = waits;
return;
}
const thickness = row.thickness?.();
if (adds && row.needsThickness && !answered && thickness === undefined) {
state.textContent = bench.say("bench-shim-need");
return;
}
const refused = adds && !answered ? row.refused?.() : null;
if (refused) {
state.textContent = refused;
return;
}
const value = act.fits ? thickness : act.value;
bench.change((own, record, now) => {
own.ticks = own.ticks.filter((one) => !same(act)(one));
if (adds) own.ticks.push({ step: act.step, act: act.act, number: act.number, ...(value === undefined ? {} : { value }), at: bench.begunAt(act) ?? now, by: bench.settings.who });
else own.finished = null;
});
}
function waiting(row, act) {
if (bench.deviates(act.step)) return null;
const follows = (mark, line) => (mark.compareDocumentPosition(line) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
const done = [...bench.root.querySelectorAll(".tick[data-act]")].filter((line) => {
const other = bench.acts.get(line.dataset.act);
return other && tickOf(other) && !bench.deviates(other.step);
});
for (const mark of [...bench.root.querySelectorAll(".mark-close, .mark-hold")].filter((mark) => follows(mark, row))) {
const isPassed = bench.deviates(mark.closest("[data-step]").dataset.step) || (mark.matches(".mark-close") && done.some((line) => follows(mark, line)));
const waits = isPassed ? null : mark.waits?.();
if (waits) return waits;
}
return null;
}
bench.marks = {
all: () => bench.readShared(bench.key("marks", bench.data.procedure), leaf.writings.map) ?? {},
has: (key) => Object.hasOwn(bench.marks.all(), key),
toggle(key, value = bench.now()) {
const all = { ...bench.marks.all() };
if (Object.hasOwn(all, key)) delete all[key];
else all[key] = value;
bench.writeShared(bench.key("marks", bench.data.procedure), leaf.writings.map, all);
bench.tell();
},
};
function markBox(box, key, name, state, place, waits = () => null) {
const button = holdButton(() => {
if (!allowed()) return;
const why = bench.marks.has(key) ? null : waits();
if (why) state.textContent = why;
else bench.marks.toggle(key);
}, state);
if (place !== undefined) button.append(element("span", { class: "hold-place", "aria-hidden": "true" }, place));
box.before(button);
const show = () => {
const marked = bench.marks.has(key);
button.classList.toggle("marked", marked);
box.classList.toggle("marked", marked);
if (state.matches("span")) state.textContent = "";
button.setAttribute("aria-label", name);
button.setAttribute("aria-pressed", String(marked));
};
bench.onChange(show);
show();
}
function gridBoxes(row, act, state) {
const keys = [];
const line = row.querySelector(".tick-number").textContent;
for (const table of row.querySelectorAll(".grid")) {
const positions = [...table.querySelectorAll("thead th")].map((cell) => cell.textContent);
for (const [stage, rows] of [...table.tBodies].entries()) {
const value = rows.querySelector("th")?.textContent.trim() ?? "";
for (const [at, box] of [...rows.querySelectorAll(".small-box")].entries()) {
const key = `${act.key}#${stage + 1}.${positions[at]}.${act.value ?? ""}`;
keys.push(key);
markBox(box, key, bench.say("bench-box", { number: line, value, place: positions[at] }), state, positions[at], () => waiting(row, act));
}
}
}
return keys;
}
function stopRow(row) {
const words = (part) => row.querySelector(part).textContent.replace(/\s+/g, " ").trim();
const name = words("p");
const items = [...row.querySelectorAll(".close-item")].map((item) => item.textContent).join(", ");
const asked = `${name} ${items}`.slice(0, 200);
const spot = before(row);
const state = element("p", { class: "tick-state", "aria-live": "polite" });
const seen = () => (bench.own.stops ?? []).find((one) => spot && same(spot)(one) && one.value === asked);
row.waits = () => (seen() ? null : bench.say("bench-stop-first", { name: words("p > span") }));
const button = holdButton(() => {
if (!spot || !allowed()) return;
const answered = seen();
bench.change((own, record, now) => {
own.stops = (own.stops ?? []).filter((one) => !same(spot)(one));
if (!answered) own.stops.push({ step: spot.step, act: spot.act, number: spot.number, value: asked, at: now, by: bench.settings.who });
});
}, state);
row.append(element("div", { class: "sign-block" }, button, element("div", { class: "sign-fields" }, element("p", {}, bench.say("bench-stop-seen")), state)));
const show = () => {
const answer = seen();
button.classList.toggle("marked", answer !== undefined);
button.setAttribute("aria-label", bench.say(answer ? "bench-untick" : "bench-hold", { name }));
state.textContent = answer ? bench.say("bench-signed", { time: bench.time(answer.at), by: answer.by ?? "–" }) : "";
row.querySelector(".close-seen .blank-rule").setAttribute("data-written", answer?.by ?? "");
};
bench.onChange(show);
show();
}
function before(row) {
for (let next = row.nextElementSibling; next; next = next.nextElementSibling) {
const act = bench.acts.get(next.dataset.act);
if (act) return act;
}
return undefined;
}
function signRow(row) {
const act = bench.acts.get(row.dataset.act);
if (!act) return;
for (const [at, line] of [...row.querySelectorAll(".signature")].entries()) {
const person = act.people[at];
if (person === undefined) continue;
const verb = act.act.split(":")[0];
signLine(row, line, { step: act.step, act: `${verb}:${person}` }, repeats(act, verb, person));
}
if (act.act.startsWith("hold:")) row.waits = () => unsigned(row);
}
function unsigned(row) {
const by = (row.signLines ?? []).filter(({ found }) => found() === undefined).map(({ role }) => role).join(", ");
const step = row.closest("[data-step]").querySelector(".step-count").textContent;
const name = row.querySelector(".hold-words > span").textContent.replace(/\s+/g, " ").trim();
return by === "" ? null : bench.say("bench-hold-first", { step, name, by });
}
function repeats(act, verb, person) {
const all = bench.data.acts.filter((other) => other.step === act.step && other.act.startsWith(`${verb}:`) && other.people.includes(person));
return all.findIndex((other) => other.key === act.key);
}
function signLine(row, line, spot, nth) {
const role = line.querySelector(".signature-who").textContent.trim();
const id = `bench.${bench.acts.size}.${document.querySelectorAll(".sign-block").length}`;
const input = element("input", { type: "text", id, maxlength: "100", autocomplete: "off", autocapitalize: "words" });
const state = element("p", { class: "tick-state", "aria-live": "polite" });
const label = element("label", { for: id }, `${role}: ${bench.say("bench-sign-name")}`);
const found = () => bench.own.signatures.filter((one) => one.step === spot.step && one.act === spot.act)[nth];
const button = holdButton(() => {
if (!allowed()) return;
const signed = found();
const by = input.value.trim();
if (!signed && by === "") {
state.textContent = bench.say("bench-sign-need");
return;
}
bench.change((own, record, now) => {
if (signed) {
own.signatures = own.signatures.filter((one) => JSON.stringify(one) !== JSON.stringify(signed));
own.finished = null;
} else {
own.signatures.push({ ...spot, by, at: now });
if (!record.people.includes(by)) record.people.push(by);
}
});
}, state);
line.after(element("div", { class: "sign-block" }, button, element("div", { class: "sign-fields" }, label, input, state)));
row.signLines = [...(row.signLines ?? []), { role, found }];
const show = () => {
const signed = found();
button.classList.toggle("marked", signed !== undefined);
button.setAttribute("aria-label", bench.say(signed ? "bench-untick" : "bench-sign", { name: role }));
input.disabled = signed !== undefined;
if (signed) input.value = signed.by;
const others = row.signLines.map((other) => other.found()).filter((one) => one && signed && one.by === signed.by);
state.textContent = !signed ? "" : others.length > 1
? bench.say("bench-sign-twice", { by: signed.by })
: bench.say("bench-signed", { time: bench.time(signed.at), by: signed.by });
row.classList.toggle("ticked", row.signLines.every((other) => other.found() !== undefined));
};
bench.onChange(show);
show();
}
bench.progress = () => {
const rows = [...bench.root.querySelectorAll("[data-act].tick, [data-act].mark-hold")];
return { all: rows.length, open: rows.filter((row) => !row.classList.contains("ticked") || (row.refused?.() ?? null) !== null) };
};
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
bench.part(() => {
const groups = grouped();
const back = element("button", { type: "button", class: "bench-move" }, bench.say("bench-back"));
const next = element("button", { type: "button", class: "bench-move" }, bench.say("bench-next"));
const place = element("span", {}, element("span", { class: "bench-place" }));
const way = element("span", { class: "bench-way" });
const where = element("button", { type: "button", class: "bench-move bench-where" }, place, way);
const status = element("button", { type: "button", class: "bench-status" });
const timers = element("button", { type: "button", class: "bench-status bench-soonest", hidden: true });
const notices = element("div", { class: "bench-notices", role: "status" });
const moves = element("div", { class: "bench-moves" }, back, where, next);
const bar = element("section", { class: "bench-bar", "aria-label": bench.say("bench-build-title") }, notices, timers, status, moves);
document.querySelector(".sheet main").after(bar);
bench.bar = { status, timers };
let at = placeKept(groups);
function show(focus = false) {
const one = bench.settings.oneStep;
for (const [index, group] of groups.entries()) {
for (const part of group.parts) part.classList.toggle("not-now", one && index !== at);
}
document.body.classList.toggle("one-step", one);
place.firstChild.textContent = words(at);
way.textContent = bench.say(one ? "bench-list" : "bench-one");
back.disabled = at === 0;
next.disabled = at === groups.length - 1;
if (focus) {
const heading = groups[at].parts[0].querySelector("h2, h1") ?? groups[at].parts[0];
heading.tabIndex = -1;
heading.focus({ preventScroll: true });
groups[at].parts[0].scrollIntoView();
}
}
function words(index) {
if (index === 0) return bench.say("bench-start");
const part = (name) => groups[index].parts[0].querySelector(name)?.textContent.trim() ?? "";
return groups[index].step ? bench.say("bench-step", { number: part(".step-count"), name: part(".step-title") }) : bench.say("bench-end");
}
function go(to) {
at = Math.min(Math.max(to, 0), groups.length - 1);
bench.write(bench.key("place", bench.data.procedure), groups[at].step ?? String(at));
show(true);
}
back.addEventListener("click", () => go(at - 1));
next.addEventListener("click", () => go(at + 1));
where.addEventListener("click", () => {
bench.set({ oneStep: !bench.settings.oneStep });
show(true);
});
bench.onChange(() => show());
let waits = false;
document.addEventListener("scroll", () => {
if (waits || bench.settings.oneStep) return;
waits = true;
requestAnimationFrame(() => {
waits = false;
const line = globalThis.innerHeight / 3;
const seen = groups.findLastIndex((group) => group.parts[0].getBoundingClientRect().top <= line);
if (seen >= 0 && seen !== at) {
at = seen;
show();
}
});
}, { passive: true });
const follow = () => {
const target = document.getElementById(decodeURIComponent(globalThis.location.hash.slice(1)));
const index = target ? groups.findIndex(({ parts }) => parts.some((part) => part.contains(target))) : -1;
if (index >= 0 && target.id !== "page.content") go(index);
};
globalThis.addEventListener("hashchange", follow);
bench.showNotices = () => {
notices.replaceChildren(...[...bench.notices].map(([key, { text, actions }]) => {
const buttons = actions.map(([label, act]) => {
const button = element("button", { type: "button", class: "bench-button" }, label);
button.addEventListener("click", act);
return button;
});
const seen = element("button", { type: "button", class: "bench-button" }, bench.say("bench-dismiss"));
seen.addEventListener("click", () => bench.dismiss(key));
return element("div", { class: "bench-notice" }, element("p", {}, text), element("div", { class: "bench-buttons" }, ...buttons, ...(actions.length ? [] : [seen])));
}));
};
bench.showNotices();
show();
follow();
});
function grouped() {
const groups = [{ parts: [] }];
const end = { parts: [] };
const parts = [...bench.root.querySelector(".paper > tbody > tr > td").children];
for (const part of parts.flatMap((part) => (part.matches(".sheet-steps") ? [...part.children] : [part]))) {
if (part.matches(".sheet-caution, .stopped")) continue;
if (part.matches(".sheet-step")) groups.push({ parts: [part], step: part.dataset.step });
else (groups.length === 1 ? groups[0] : end).parts.push(part);
}
if (end.parts.length > 0) groups.push(end);
return groups;
}
function placeKept(groups) {
const kept = bench.read(bench.key("place", bench.data.procedure));
const found = groups.findIndex(({ step }, index) => (step ?? String(index)) === kept);
return Math.max(found, 0);
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
bench.part(() => {
for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
const act = bench.acts.get(row.dataset.act);
if (act && slots(act).length > 0) readings(row, act);
}
});
function slots({ measure, reads }) {
if (!measure) return reads ?? [];
return Array.from({ length: measure.count }, (_, at) => ({ ...measure, name: measure.places?.[at] ?? (measure.count > 1 ? bench.say("bench-reading", { number: at + 1 }) : bench.say("bench-reading-one")) }));
}
function written(act) {
const all = slots(act);
const first = (act.number - 1) * all.length;
const own = bench.own.readings.filter((one) => one.step === act.step && one.act === act.act);
return all.map((_, at) => own.find(({ number }) => number === first + at + 1)?.value);
}
bench.readingsOf = (act) =>
written(act).flatMap((text) => {
const read = text === undefined ? { fault: "" } : bench.units.read(text, act.measure.unit);
return read.fault === undefined ? [bench.units.toBase(read.value, read.unit)] : [];
});
function standing(act) {
const kinds = { missing: [], bad: [], outside: [], worn: [], off: [] };
const texts = written(act);
for (const [at, slot] of slots(act).entries()) {
const kind = texts[at] === undefined ? "missing" : KIND[judged(slot, bench.units.read(texts[at], slot.unit)).verdict];
kinds[kind]?.push(slot.name);
}
return kinds;
}
const KIND = { "outside-limit": "outside", "outside-spec-only": "outside", "outside-spec": "worn", "no-band": "off", bad: "bad" };
function judged(slot, { fault, value, unit }) {
if (fault) return { verdict: "bad", teeth: null };
const base = bench.units.toBase(value, unit);
const teeth = slot.lever ? leaf.reckon.atTeeth(base, ...slot.lever) : null;
return { verdict: leaf.quantity.judge(teeth ?? base, slot.spec, slot.limit), teeth };
}
function answering(row, act) {
const say = (key, names) => bench.say(`bench-reading-${key}`, { name: names.join(", ") });
row.doubt = () => {
const { missing, ...others } = standing(act);
const none = missing.length === slots(act).length;
const told = Object.entries(others).flatMap(([kind, names]) => (names.length > 0 ? [say(kind, names)] : []));
if (missing.length > 0) told.push(none ? bench.say("bench-reading-none") : say("missing", missing));
return told.length > 0 ? told.join("; ") : null;
};
row.refused = () => {
const { outside } = standing(act);
return outside.length > 0 && !act.measure?.shim ? say("first", outside) : null;
};
}
function readings(row, act) {
answering(row, act);
const block = element("div", { class: "readings" });
const blanks = row.querySelectorAll(".blank:not(.blank-wide) .blank-rule");
const others = act.measure?.others ?? [];
const chosen = element("select", {}, ...[act.measure?.unit ?? "", ...others].map((symbol) => element("option", { value: symbol }, symbol)));
if (others.length > 0) block.append(element("label", { class: "reading-unit" }, bench.say("bench-reading-unit"), " ", chosen));
const unitOf = (slot) => (act.measure ? chosen.value : slot.unit);
for (const [at, slot] of slots(act).entries()) block.append(reading(act, at, slot, unitOf, chosen, blanks[at]));
const body = row.querySelector(".tick-body");
(body.querySelector(".blanks") ?? body.lastElementChild).after(block);
}
function reading(act, at, slot, unitOf, chosen, blank) {
const said = element("output", { class: "judgement" });
const input = element("input", { type: "text", inputmode: "decimal", autocomplete: "off", maxlength: "40", "aria-label": `${slot.name}: ${act.name}` });
const shown = element("span", { class: "reading-shown" }, slot.unit);
chosen.addEventListener("change", () => show());
let waits = null;
let typed = null;
const take = () => {
const text = input.value.trim();
typed = text;
const read = text === "" ? null : bench.units.read(text, unitOf(slot));
waits = read?.fault ? "fault" : null;
input.toggleAttribute("aria-invalid", false);
if (waits) {
input.setAttribute("aria-invalid", "true");
tell(said, "bad", bench.say(read.fault, { unit: read.unit ?? "" }));
} else if (bench.allowed()) {
keep(act, at, read === null ? null : `${read.digits}${read.unit.symbol === "°" ? "" : " "}${read.unit.symbol}`);
} else {
waits = "build";
}
};
input.addEventListener("change", take);
const show = () => {
if (waits === "build" && bench.ready && bench.conflict === null) queueMicrotask(take);
if (waits) return;
const text = written(act)[at];
shown.textContent = text === undefined ? unitOf(slot) : "";
if (document.activeElement !== input) input.value = leaf.numerals(text ?? "");
blank?.setAttribute("data-written", leaf.numerals(text ?? ""));
if (text === undefined) {
tell(said, "", "");
return;
}
const read = bench.units.read(text, slot.unit);
if (read.fault) tell(said, "bad", bench.say(read.fault, { unit: read.unit ?? "" }));
else verdict(said, slot, read, typed === null || [text, read.digits].map(leaf.numerals).includes(typed) ? null : text);
};
bench.onChange(show);
show();
return element("div", { class: "reading" }, element("label", { class: "reading-name" }, element("span", {}, slot.name), input), shown, said);
}
function tell(said, kind, ...words) {
said.className = `judgement ${kind}`;
said.replaceChildren(...words);
}
function verdict(said, measure, read, asRead) {
const { digits } = read;
const { verdict, teeth } = judged(measure, read);
const bands = { spec: measure.spec?.text ?? "", limit: measure.limit?.text ?? "" };
const told = verdict === "no-limit" && measure.shim ? "for-shim" : verdict;
const words = [element("strong", {}, bench.say(`bench-${told}`, bands))];
if (teeth !== null) {
const decimals = (digits.split(".")[1]?.length ?? 0) + 1;
words.unshift(`${bench.say("bench-at-teeth", { value: bench.units.show(teeth, bench.units.find(measure.unit), decimals) })}: `);
}
if (asRead !== null) words.unshift(`${bench.say("bench-read-as", { value: asRead })}; `);
const out = verdict.startsWith("outside");
if (out && measure.otherwise) words.push(" ", bench.say("bench-outside-otherwise", { otherwise: measure.otherwise }));
tell(said, out ? "out" : "in", ...words);
}
function keep(act, at, value) {
const number = (act.number - 1) * slots(act).length + at + 1;
bench.change((own, record, now) => {
own.readings = own.readings.filter((one) => !(one.step === act.step && one.act === act.act && one.number === number));
if (value !== null) own.readings.push({ step: act.step, act: act.act, number, value, at: now });
});
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
bench.part(() => {
for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
const act = bench.acts.get(row.dataset.act);
const body = row.querySelector(".tick-body");
if (act?.measure?.shim) body.append(shim(act));
if (act?.measure?.formula) body.append(formula(act));
if (act?.torque?.stages.length > 0) body.append(adapter(act));
if (act?.align?.diameter) body.append(arc(act));
}
});
const millimetre = () => bench.units.find("mm");
function reckoner(title, fields, work) {
const result = element("div", { class: "reckoned", "aria-live": "polite" });
const labels = fields.map(({ label, input }) => element("label", { class: "reckon-field" }, element("span", {}, label), input));
const box = element("details", { class: "reckoner" }, element("summary", {}, title), ...labels, result, element("p", { class: "reckon-caution" }, bench.say("bench-reckon-caution")));
const show = () => {
if (box.open) result.replaceChildren(...work().map((line) => element("p", {}, line)));
};
for (const { input } of fields) input.addEventListener("input", show);
box.addEventListener("toggle", show);
bench.onChange(() => {
for (const { refill } of fields) refill?.();
show();
});
return box;
}
function field(label, unit, fill, decimals) {
const input = element("input", { type: "text", inputmode: "decimal", autocomplete: "off", maxlength: "40" });
let own = false;
input.addEventListener("input", () => (own = true));
const refill = () => {
if (own) return;
const value = fill();
input.value = value === null || value === undefined ? "" : bench.units.show(value, bench.units.find(unit), decimals).replaceAll("\u00a0", " ").replace("−", "-");
};
refill();
const value = () => {
const read = bench.units.read(input.value, unit);
return read.fault ? null : bench.units.toBase(read.value, read.unit);
};
return { label, input, value, refill };
}
const missing = (fields) => fields.filter((one) => one.value() === null).map((one) => one.label);
function filled(text, show) {
return text.split(/([()\s])/).map((word) => (/^[a-z]/.test(word) ? show(word) : word)).join("").replaceAll(" - ", " − ");
}
function shim(act) {
const { measure } = act;
const { shim: asked } = measure;
const unit = bench.units.find(asked.unit);
const decimals = unit.symbol === "mm" ? 2 : 4;
const inUnit = (value, more = 0) => bench.units.show(value, unit, decimals + more);
const inputs = bench.shimInputs(act);
const labels = Object.fromEntries(inputs.map(({ name, label }) => [name, label]));
const fields = inputs.map(({ name, label, fill }) => ({ name, ...field(label, asked.unit, fill, decimals) }));
return reckoner(bench.say("bench-reckon-shim"), fields, () => {
const open = missing(fields);
if (open.length > 0) return [bench.say("bench-reckon-missing", { name: open.join(", ") })];
const values = Object.fromEntries(fields.map((one) => [one.name, one.value()]));
const choice = leaf.reckon.shim(asked.formula, values, asked, asked.accept);
if (choice === null) return [bench.say("bench-reckon-impossible")];
const lines = [bench.say("bench-reckon-wants", { formula: filled(asked.formula, (name) => `${labels[name] ?? name} ${inUnit(values[name])}`), value: inUnit(choice.exact) })];
if (measure.count > 1) lines.push(bench.say("bench-reckon-median"));
for (const offer of [choice.below, choice.above].filter(Boolean)) {
if (offer.gives === null) continue;
lines.push(bench.say(offer.accepted ? "bench-reckon-offer" : "bench-reckon-offer-off", { size: inUnit(offer.size), gives: inUnit(offer.gives) }));
}
lines.push(choice.best
? bench.say("bench-reckon-take", { size: inUnit(choice.best.size) })
: bench.say("bench-reckon-none", { low: inUnit(asked.from), high: inUnit(asked.to) }));
return lines;
});
}
bench.shimInputs = (act) => {
const { shim: asked } = act.measure;
const known = {
reading: [bench.say("bench-reckon-reading"), () => leaf.quantity.median(bench.readingsOf(act))],
old: [bench.say("bench-reckon-old"), () => {
const trial = bench.trialShim(act);
return trial === undefined ? asked.old : trial;
}],
target: [bench.say("bench-reckon-target"), () => asked.target],
};
for (const [id, name] of asked.names) known[id] = [name, () => middleOf(id)];
return leaf.reckon.names(leaf.reckon.parse(asked.formula)).map((name) => {
const [label, fill] = known[name] ?? [name, () => null];
return { name, label, fill };
});
};
function middleOf(id) {
return leaf.quantity.median(readingsOf(id));
}
function readingsOf(id) {
return bench.data.acts.filter((act) => act.measure?.id === id).flatMap((act) => bench.readingsOf(act));
}
function formula(act) {
const { measure } = act;
const [text, named] = measure.formula;
const labels = Object.fromEntries(named);
const tree = leaf.reckon.parse(text);
const unit = bench.units.find(measure.unit);
const decimals = unit.symbol === "mm" ? 3 : 4;
const inUnit = (value) => bench.units.show(value, unit, decimals);
const fields = leaf.reckon.names(tree).map((name) => ({ name, ...field(labels[name] ?? name, measure.unit, () => middleOf(name), decimals) }));
return reckoner(bench.say("bench-reckon-formula", { name: act.name }), fields, () => {
const open = missing(fields);
if (open.length > 0) return [bench.say("bench-reckon-missing", { name: open.join(", ") })];
const values = Object.fromEntries(fields.map((one) => [one.name, one.value()]));
const value = leaf.reckon.evaluate(tree, values);
if (value === null) return [bench.say("bench-reckon-impossible")];
const verdict = leaf.quantity.judge(value, measure.spec, measure.limit);
const lines = [bench.say("bench-reckon-result", { formula: filled(text, (name) => `${labels[name] ?? name} ${inUnit(values[name])}`), value: inUnit(value) })];
lines.push(bench.say(`bench-${verdict}`, { spec: measure.spec?.text ?? "", limit: measure.limit?.text ?? "" }));
const all = tree.sign === "-" && tree.left.name && tree.right.name ? [readingsOf(tree.left.name), readingsOf(tree.right.name)] : [[], []];
const band = (readings) => ({ low: Math.min(...readings), high: Math.max(...readings) });
const span = all.every((readings) => readings.length > 0) && all.some((readings) => readings.length > 1) ? leaf.reckon.clearance(band(all[0]), band(all[1])) : null;
if (span) lines.push(`${inUnit(span.low)} – ${inUnit(span.high)}`);
return lines;
});
}
function adapter(act) {
const { stages, adapter: given } = act.torque;
const last = stages.at(-1);
const middle = last.nominal ?? ((last.low ?? last.high) + (last.high ?? last.low)) / 2;
const torque = field(bench.say("bench-reckon-torque"), last.unit, () => middle, 1);
const length = field(bench.say("bench-reckon-wrench-length"), "mm", () => bench.wrenchFor?.(act)?.length ?? null, 0);
const offset = field(bench.say("bench-reckon-adapter-length"), "mm", () => given?.[0] ?? null, 0);
const angle = field(bench.say("bench-reckon-angle"), "°", () => given?.[1] ?? 0, 0);
const fields = [torque, length, offset, angle];
return reckoner(bench.say("bench-reckon-adapter"), fields, () => {
const open = missing(fields);
if (open.length > 0) return [bench.say("bench-reckon-missing", { name: open.join(", ") })];
const set = leaf.wrench.setting(torque.value(), length.value(), { length: offset.value(), angle: angle.value() });
if (set === null) return [bench.say("bench-reckon-impossible")];
const unit = bench.units.find(last.unit);
return [bench.say("bench-reckon-set", { value: bench.units.show(set, unit, 1), formula: bench.settingFormula(torque.value(), length.value(), [offset.value(), angle.value()], unit) })];
});
}
bench.settingFormula = (torque, length, [offset, angle], unit) => {
const mm = (value) => bench.units.show(value, millimetre(), 0);
return `T × L ÷ (L + E × cos θ) = ${bench.units.show(torque, unit, 1)} × ${mm(length)} ÷ (${mm(length)} + ${mm(offset)} × cos ${leaf.numerals(angle)}°)`;
};
function arc(act) {
const { align } = act;
const diameter = field(bench.say("bench-reckon-diameter"), "mm", () => align.diameter, 1);
const along = field(bench.say("bench-reckon-arc-length"), "mm", () => align.arc ?? leaf.reckon.arc(align.degrees, align.diameter), 2);
const angle = field(bench.say("bench-reckon-degrees"), "°", () => align.degrees ?? leaf.reckon.degrees(align.arc, align.diameter), 2);
let from = along;
along.input.addEventListener("input", () => (from = along));
angle.input.addEventListener("input", () => (from = angle));
return reckoner(bench.say("bench-reckon-arc"), [diameter, along, angle], () => {
const open = missing([diameter, from]);
if (open.length > 0) return [bench.say("bench-reckon-missing", { name: open.join(", ") })];
const found = from === along ? leaf.reckon.degrees(along.value(), diameter.value()) : leaf.reckon.arc(angle.value(), diameter.value());
if (found === null) return [bench.say("bench-reckon-impossible")];
const [D, s, t] = [diameter, along, angle].map((one) => one.input.value.trim());
return [from === along
? bench.say("bench-reckon-result", { formula: `θ = 360° × s ÷ (π × D) = 360° × ${s} ÷ (π × ${D})`, value: leaf.quantity.shown(found, "°", 2) })
: bench.say("bench-reckon-result", { formula: `s = π × D × θ ÷ 360° = π × ${D} × ${t} ÷ 360°`, value: leaf.quantity.shown(found, "mm", 2) })];
});
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
bench.part(() => {
for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
const act = bench.acts.get(row.dataset.act);
if (act?.fits) shimField(row, act);
}
});
const HAIR = 1e-6;
const isTrial = (act) => act.act.startsWith("dry-fit:");
const tickOf = (act) => bench.own.ticks.find((one) => one.step === act.step && one.act === act.act && one.number === act.number);
const before = (act) => bench.data.acts.slice(0, bench.data.acts.indexOf(act));
function thickness(act) {
const text = tickOf(act)?.value;
const read = text === undefined ? { fault: "" } : bench.units.read(text, act.fits.unit);
return read.fault === undefined ? bench.units.toBase(read.value, read.unit) : undefined;
}
const fields = new Map();
bench.trialShim = (measure) => {
const trials = before(measure).filter((act) => act.fits?.of === measure.measure.shim.of && isTrial(act));
const last = trials.findLast((act) => tickOf(act) || fields.get(act.key)?.written());
const written = last && fields.get(last.key)?.written();
if (written?.fault) return null;
const size = written?.size ?? (last && thickness(last));
return size !== undefined && !isInBox(last, size) && !bench.deviates(last.step) ? null : size;
};
function isInBox({ fits: { series } }, size) {
const half = (series.step ?? 0) / 2 + HAIR;
return (series.low ?? -Infinity) - half <= size && size <= (series.high ?? Infinity) + half;
}
function marked(act, size) {
const unit = bench.units.find(act.fits.unit);
return bench.units.show(size, unit, unit.symbol === "mm" ? 2 : 4);
}
const notInBox = (act, size) => bench.say("bench-shim-box", { size: marked(act, size), spec: act.fits.series.text });
function choosing(act) {
const all = before(act).filter((other) => other.measure?.shim?.of === act.fits.of).reverse();
return all.find((other) => bench.readingsOf(other).length > 0) ?? all[0];
}
function verdict(act, size) {
if (!isInBox(act, size)) return ["out", notInBox(act, size)];
const measured = choosing(act);
if (!measured) return null;
const { shim: asked } = measured.measure;
const inUnit = (value) => marked(act, value);
const inputs = bench.shimInputs(measured).map(({ name, label, fill }) => ({ name, label, value: fill() ?? null }));
const missing = inputs.filter(({ value }) => value === null).map(({ label }) => label);
if (missing.length > 0) return ["", bench.say("bench-shim-unread", { name: missing.join(", ") })];
const values = Object.fromEntries(inputs.map(({ name, value }) => [name, value]));
const choice = leaf.reckon.fitted(asked.formula, values, asked, asked.accept, size);
if (choice === null) return ["", bench.say("bench-reckon-impossible")];
const { fitted, best } = choice;
const words = { value: inUnit(choice.exact), size: inUnit(size), ...(best && { best: inUnit(best.size) }) };
if (!fitted.accepted) return ["out", bench.say(best ? "bench-shim-wrong" : "bench-shim-wrong-none", words)];
return ["in", fitted.gives === null ? bench.say("bench-shim-right", words) : bench.say("bench-shim-gives", { ...words, gives: inUnit(fitted.gives) })];
}
function shimField(row, act) {
const input = element("input", { type: "text", inputmode: "decimal", autocomplete: "off", maxlength: "40" });
const said = element("output", { class: "judgement" });
const unit = element("span", { class: "reading-shown" }, act.fits.unit);
const name = element("span", {}, bench.say(isTrial(act) ? "bench-shim-trial" : "bench-shim"));
const field = element("div", { class: "reading" }, element("label", { class: "reading-name" }, name, input), unit, said);
row.querySelector(".tick-body").append(element("div", { class: "readings" }, field));
const written = () => {
const text = input.value.trim();
const read = text === "" ? null : bench.units.read(text, act.fits.unit);
return read && (read.fault ? read : { text: `${read.digits} ${read.unit.symbol}`, size: bench.units.toBase(read.value, read.unit) });
};
row.thickness = () => written()?.text;
row.needsThickness = !isTrial(act);
row.doubt = () => {
const size = written()?.size;
return size !== undefined && verdict(act, size)?.[0] === "out" ? "" : null;
};
row.refused = () => {
const size = written()?.size;
return size === undefined || isInBox(act, size) ? null : notInBox(act, size);
};
fields.set(act.key, { written });
const tell = () => {
const found = written();
input.toggleAttribute("aria-invalid", false);
if (found?.fault) input.setAttribute("aria-invalid", "true");
const [kind, text] = !found ? ["", ""] : found.fault ? ["bad", bench.say(found.fault, { unit: found.unit ?? "" })] : (verdict(act, found.size) ?? ["", ""]);
said.className = `judgement ${kind}`;
said.textContent = text;
unit.textContent = found?.text ? "" : act.fits.unit;
};
let typed = false;
input.addEventListener("input", () => (typed = true));
input.addEventListener("change", () => {
const found = written();
const tick = tickOf(act);
if (!tick) return bench.tell();
tell();
if (found?.fault || found?.text === tick.value || !bench.allowed()) return;
if (!found && row.needsThickness) return show();
typed = false;
bench.change((own, record, now) => {
const others = own.ticks.filter((one) => !(one.step === act.step && one.act === act.act && one.number === act.number));
const { value, ...rest } = tick;
own.ticks = [...others, { ...rest, ...(found ? { value: found.text } : {}), at: now, by: bench.settings.who }];
});
});
const show = () => {
const kept = tickOf(act)?.value;
if (kept !== undefined) typed = false;
if (document.activeElement !== input && !typed) input.value = leaf.numerals(kept ?? "");
tell();
};
bench.onChange(show);
show();
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
const SEEN = "leaf.seen";
const MOST = 50;
const FORM = leaf.writings.list(({ procedure, key }) => JSON.stringify([procedure, key]));
bench.part(() => {
const seen = leaf.storage.read(SEEN);
const watch = new leaf.clock.Watch(() => Date.now(), () => performance.now(), typeof seen === "number" ? seen : NaN);
if (watch.wentBack > 0) jumped("bench-clock-back", watch.wentBack);
const lines = [];
for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
const act = bench.acts.get(row.dataset.act);
if (act?.timer) lines.push(timerLine(row, act));
}
const show = () => {
for (const line of lines) line();
soonest();
};
bench.onChange(show);
show();
let seconds = 0;
setInterval(() => {
const jump = watch.look();
if (jump < 0) jumped("bench-clock-back", -jump);
if (jump > 0) jumped("bench-clock-forward", jump);
if (seconds++ % 10 === 0) leaf.storage.write(SEEN, Date.now());
show();
}, 1000);
});
function all() {
const kept = bench.serial === "" ? null : bench.readShared(bench.key("timers"), FORM);
if (kept === null) return [];
const whole = (timer) => ["procedure", "key", "name"].every((field) => typeof timer[field] === "string") && Number.isFinite(timer.end) && Number.isFinite(timer.begun);
return kept.filter(whole).slice(0, MOST);
}
function note(timers) {
bench.writeShared(bench.key("timers"), FORM, timers.slice(-MOST));
}
function keep(timers) {
note(timers);
bench.tell();
}
const own = (act) => (timer) => timer.procedure === bench.data.procedure && timer.key === act.key;
bench.early = (act) => {
const begun = (address) => act.wait?.begun === address;
const inReach = (procedure) => act.wait?.own !== true || procedure === bench.data.procedure;
const lasts = (timer) => own(act)(timer) && !act.act.startsWith("begin:");
const running = all().filter((timer) => !timer.within && (lasts(timer) || (inReach(timer.procedure) && begun(timer.key.split("/")[1])))).map(({ end }) => end);
const procedures = Object.entries(bench.record?.procedures ?? {}).filter(([id]) => inReach(id));
const ticked = procedures.flatMap(([, { ticks }]) => ticks.filter((tick) => begun(tick.act)));
const latest = Math.max(...ticked.map(({ at }) => Date.parse(at)));
const end = Math.max(...running, latest + (act.wait?.seconds ?? 0) * 1000);
return end > Date.now() ? { left: bench.span(end - Date.now()), time: bench.time(end) } : null;
};
bench.begunAt = (act) => {
const timer = act.act.startsWith("begin:") ? all().find((one) => !one.within && own(act)(one)) : undefined;
return timer && new Date(timer.begun).toISOString();
};
function jumped(word, milliseconds) {
bench.notice("clock", bench.say(word, { value: bench.span(milliseconds) }));
const timers = all();
if (timers.length > 0) note(timers.map((timer) => (timer.end > Date.now() - milliseconds ? { ...timer, doubt: true } : timer)));
}
function words(timer) {
const left = timer.end - Date.now();
const doubt = timer.doubt ? ` ${bench.say("bench-clock-doubt")}` : "";
if (left > 0) return bench.say("bench-timer-running", { name: timer.name, left: bench.span(left), time: bench.time(timer.end) }) + doubt;
return bench.say(timer.within ? "bench-timer-late" : "bench-timer-over", { name: timer.name, time: bench.time(timer.end) }) + doubt;
}
function timerLine(row, act) {
const { timer } = act;
const word = timer.within ? "bench-timer-within" : "bench-timer-start";
const start = element("button", { type: "button", class: "bench-button" }, bench.say(word, { name: timer.name, value: timer.text }));
const drop = element("button", { type: "button", class: "bench-button" }, bench.say("bench-timer-drop"));
const state = element("p", { class: "timer-state" });
row.querySelector(".tick-body").append(element("div", { class: "timer" }, state, start, drop));
start.addEventListener("click", () => {
if (!bench.allowed()) return;
const begun = Date.now();
keep([...all().filter((one) => !own(act)(one)), { procedure: bench.data.procedure, key: act.key, name: timer.name, begun, end: begun + timer.seconds * 1000, within: timer.within, doubt: false }]);
});
drop.addEventListener("click", () => keep(all().filter((one) => !own(act)(one))));
return () => {
const running = all().find(own(act));
start.hidden = running !== undefined;
drop.hidden = running === undefined;
said(state, running ? words(running) : "");
};
}
function soonest() {
const timers = all().sort((a, b) => a.end - b.end);
const { timers: button } = bench.bar;
button.hidden = timers.length === 0;
if (timers.length === 0) return;
const next = timers.find(({ end }) => end > Date.now()) ?? timers.at(-1);
said(button, bench.say("bench-timer-soonest", { value: words(next) }));
button.onclick = () => {
const row = [...bench.root.querySelectorAll("[data-act]")].find((one) => one.dataset.act === next.key);
if (row && next.procedure === bench.data.procedure) globalThis.location.hash = `#${row.closest("section").getAttribute("aria-labelledby")}`;
};
}
function said(element, text) {
if (element.textContent !== text) element.textContent = text;
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
const KEY = "leaf.wrenches";
const MOST = 40;
const FORM = leaf.writings.list(JSON.stringify);
const unitsOfTorque = () => bench.data.units.filter(({ kind }) => kind === "torque").map(({ symbol }) => symbol);
bench.wrenches = () => {
const kept = bench.readShared(KEY, FORM) ?? [];
const whole = (one) => typeof one.name === "string" && Number.isFinite(one.low) && Number.isFinite(one.high) && one.low < one.high && bench.units.find(String(one.unit))?.kind === "torque";
return kept.filter(whole).slice(0, MOST);
};
function inNewtonMetres(one) {
const unit = bench.units.find(one.unit);
const base = (value) => bench.units.toBase(value, unit);
return { name: one.name, low: base(one.low), high: base(one.high), step: one.step > 0 ? base(one.step) : null, length: one.length > 0 ? one.length : null, unit };
}
bench.part(() => {
for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
const act = bench.acts.get(row.dataset.act);
if (act?.torque?.stages.length > 0) row.querySelector(".tick-line").after(adviceFor(act));
}
unitsShown();
});
function asked({ low, high, nominal }) {
const ends = [low, high].filter((end) => end !== null);
return { middle: nominal ?? ends.reduce((sum, end) => sum + end, 0) / ends.length, ends: [...new Set(ends)] };
}
function set(wrench, torque, adapter) {
if (!adapter) return torque;
return wrench.length === null ? null : leaf.wrench.setting(torque, wrench.length, { length: adapter[0], angle: adapter[1] });
}
function choose(stage, adapter) {
const { middle, ends } = asked(stage);
const wrenches = bench.wrenches().map(inNewtonMetres);
const usable = wrenches.filter((wrench) => ends.every((end) => leaf.wrench.fits(wrench, set(wrench, end, adapter) ?? NaN)));
const ranked = usable.map((wrench) => ({ wrench, set: set(wrench, middle, adapter) }));
ranked.sort((a, b) => (leaf.wrench.best([a.wrench, b.wrench], a.set) === 0 ? -1 : 1));
return { middle, wrenches, best: ranked[0] ?? null };
}
bench.wrenchFor = (act) => choose(act.torque.stages.at(-1), act.torque.adapter).best?.wrench ?? null;
function adviceFor(act) {
const box = element("div", { class: "wrench-advice" });
const show = () => {
const lines = bench.wrenches().length === 0 ? [] : act.torque.stages.map((stage) => advice(stage, act.torque.adapter));
box.replaceChildren(...lines.flat());
};
bench.onChange(show);
show();
return box;
}
function advice(stage, adapter) {
const { middle, wrenches, best } = choose(stage, adapter);
const unknown = adapter ? wrenches.filter((wrench) => wrench.length === null) : [];
const lines = unknown.map((wrench) => element("p", {}, bench.say("bench-wrench-length-missing", { wrench: wrench.name })));
if (best === null) return [...lines, element("p", { class: "warned" }, bench.say("bench-wrench-none", { value: stage.text }))];
const { wrench } = best;
const value = leaf.quantity.shown(bench.units.fromBase(leaf.wrench.nearest(wrench, best.set), wrench.unit), wrench.unit.symbol, decimals(wrench));
const word = adapter ? "bench-wrench-set-adapter" : "bench-wrench-set";
const formula = adapter ? bench.settingFormula(middle, wrench.length, adapter, wrench.unit) : "";
return [...lines, element("p", {}, bench.say(word, { wrench: wrench.name, value, formula }))];
}
function decimals(wrench) {
const step = wrench.step === null ? 0.1 : bench.units.fromBase(wrench.step, wrench.unit);
return [0, 1, 2].find((places) => Math.abs(step * 10 ** places - Math.round(step * 10 ** places)) < 1e-6) ?? 2;
}
bench.wrenchList = () => {
const list = element("ul", { class: "wrench-list" });
const fields = {
name: element("input", { type: "text", maxlength: "60", autocomplete: "off" }),
low: element("input", { type: "text", inputmode: "decimal", maxlength: "12", autocomplete: "off" }),
high: element("input", { type: "text", inputmode: "decimal", maxlength: "12", autocomplete: "off" }),
unit: element("select", {}, ...unitsOfTorque().map((symbol) => element("option", { value: symbol }, symbol))),
step: element("input", { type: "text", inputmode: "decimal", maxlength: "12", autocomplete: "off" }),
length: element("input", { type: "text", inputmode: "decimal", maxlength: "12", autocomplete: "off" }),
};
const labels = Object.entries(fields).map(([key, input]) => element("label", { class: "dialog-field" }, element("span", {}, bench.say(`bench-wrench-${key}`)), input));
const add = element("button", { type: "button", class: "bench-button" }, bench.say("bench-wrench-add"));
const state = element("p", { role: "status" });
const number = (input) => {
const read = leaf.quantity.number(input.value);
return read.fault ? null : read.value;
};
add.addEventListener("click", () => {
const [low, high] = [number(fields.low), number(fields.high)];
const name = fields.name.value.trim();
const bad = name === "" || low === null || high === null || low < 0 || low >= high || [fields.step, fields.length].some((input) => input.value.trim() !== "" && !(number(input) > 0));
state.textContent = bad ? bench.say("bench-wrench-bad") : "";
if (bad) return;
bench.writeShared(KEY, FORM, [...bench.wrenches(), { name, low, high, unit: fields.unit.value, step: number(fields.step), length: number(fields.length) }].slice(-MOST));
for (const input of [fields.name, fields.low, fields.high, fields.step, fields.length]) input.value = "";
bench.tell();
});
const show = () => {
list.replaceChildren(...bench.wrenches().map((one) => {
const words = bench.say("bench-wrench-range", { wrench: one.name, low: one.low, high: one.high, unit: one.unit });
const remove = element("button", { type: "button", class: "bench-button" }, bench.say("bench-wrench-remove", { name: one.name }));
remove.addEventListener("click", () => {
const kept = bench.wrenches();
const at = kept.findIndex((other) => JSON.stringify(other) === JSON.stringify(one));
bench.writeShared(KEY, FORM, kept.filter((_, index) => index !== at));
bench.tell();
});
return element("li", {}, words, " ", remove);
}));
};
bench.onChange(show);
show();
return element("section", { class: "dialog-part" }, element("h3", {}, bench.say("bench-wrenches")), element("p", {}, bench.say("bench-wrenches-about")), list, ...labels, add, state);
};
function unitsShown() {
const pairs = [...bench.root.querySelectorAll(".tick-values .line, .grid tbody th")]
.map((line) => ({ main: line.querySelector(".figure"), other: line.querySelector(".other") }))
.filter(({ main, other }) => main && other)
.map(({ main, other }) => ({ main, other, printed: [main.textContent, other.textContent] }));
const show = (wanted) => {
for (const { main, other, printed: [first, second] } of pairs) {
const inside = second.slice(1, -1);
const swap = bench.units.system(inside) === wanted && bench.units.system(first) !== wanted;
main.textContent = swap ? inside : first;
other.textContent = swap ? (first.includes("(") ? `[${first}]` : `(${first})`) : second;
}
};
bench.onChange(() => show(bench.settings.units));
show(bench.settings.units);
globalThis.addEventListener("beforeprint", () => show("printed"));
globalThis.addEventListener("afterprint", () => show(bench.settings.units));
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
bench.part(() => {
for (const section of bench.root.querySelectorAll(".sheet-step[data-step]")) step(section);
});
const noted = (id) => (bench.record?.deviations ?? []).filter((one) => one.procedure === bench.data.procedure && one.step === id);
bench.deviates = (id) => noted(id).length > 0;
function step(section) {
const id = section.dataset.step;
const number = section.querySelector(".step-count").textContent;
const list = element("div", { class: "deviations" });
const note = element("button", { type: "button", class: "bench-button" }, bench.say("bench-deviation"));
note.addEventListener("click", () => bench.allowed() && ask(id, number));
section.append(element("div", { class: "bench-step-foot" }, list, note));
const show = () => {
const own = noted(id);
list.replaceChildren(...own.map((one) => told(one)));
};
bench.onChange(show);
show();
}
function told(one) {
const name = one.of ?? bench.say("bench-deviation-of-step");
const value = one.because === undefined ? one.what : `${one.what} – ${one.because}`;
const remove = element("button", { type: "button", class: "bench-button" }, bench.say("bench-deviation-remove"));
remove.addEventListener("click", () => {
const text = JSON.stringify(one);
bench.change((own, record) => (record.deviations = record.deviations.filter((other) => JSON.stringify(other) !== text)));
});
return element("p", { class: "deviation" }, bench.say("bench-deviation-told", { name, value, by: one.by ?? "–", time: bench.time(one.at) }), " ", remove);
}
function ask(step, number) {
const things = new Map(bench.data.acts.filter((act) => act.step === step).map((act) => [act.act.split(":")[1]?.split("@").pop().split(/[*/,]/)[0], act.name]));
const of = element("select", {}, element("option", { value: "" }, bench.say("bench-deviation-of-step")), ...[...things].filter(([id]) => id).map(([id, name]) => element("option", { value: id }, name)));
const what = element("textarea", { rows: "3", maxlength: "1000" });
const because = element("textarea", { rows: "2", maxlength: "1000" });
const state = element("p", { role: "alert" });
const field = (key, input) => element("label", { class: "dialog-field" }, element("span", {}, bench.say(key)), input);
const keep = element("button", { type: "button", class: "bench-button bench-main" }, bench.say("bench-keep"));
const dialog = bench.dialog(bench.say("bench-deviation-title", { step: number }), [
field("bench-deviation-of", of), field("bench-deviation-what", what), field("bench-deviation-because", because), state, keep,
], bench.say("bench-cancel"));
keep.addEventListener("click", () => {
const texts = [what, because].map((input) => input.value.trim());
if (texts.includes("")) {
state.textContent = bench.say("bench-deviation-need");
return;
}
bench.change((own, record, now) => {
record.deviations.push({ procedure: bench.data.procedure, step, ...(of.value ? { of: of.value } : {}), what: texts[0], because: texts[1], by: bench.settings.who, at: now });
});
dialog.close();
});
dialog.showModal();
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench, element } = leaf;
if (!bench) return;
let dialogs = 0;
bench.dialog = (title, content, closing) => {
const id = `bench.dialog.${(dialogs += 1)}`;
const close = element("button", { type: "button", class: "bench-button" }, closing);
const dialog = element("dialog", { class: "bench-dialog", "aria-labelledby": id }, element("h2", { id }, title), ...content, close);
close.addEventListener("click", () => dialog.close());
dialog.addEventListener("close", () => {
dialog.remove();
bench.tell();
});
document.body.append(dialog);
return dialog;
};
bench.part(() => {
bench.bar.status.addEventListener("click", () => bench.askBuild(""));
const show = () => {
const { all, open } = bench.progress();
bench.bar.status.textContent = bench.ready
? bench.say("bench-status", { serial: bench.serial, by: bench.settings.who, count: all - open.length, all })
: bench.say("bench-no-build");
document.body.classList.toggle("print-ticks", bench.settings.printTicks);
differences();
};
bench.onChange(show);
show();
});
function differences() {
const { conflict, data, own } = bench;
if (conflict) {
const sheet = data.sheets.find(({ variant }) => Object.entries(variant).every(([axis, value]) => (conflict.variant[axis] ?? value) === value));
const actions = [[bench.say("bench-variant-here", conflict), () => correct()]];
if (sheet) actions.unshift([bench.say("bench-variant-open", conflict), () => globalThis.location.assign(sheet.href)]);
bench.notice("variant", bench.say("bench-variant-other", { serial: bench.serial, ...conflict }), actions);
} else {
bench.withdraw("variant");
}
const elsewhere = bench.ready && !conflict ? bench.elsewhere(bench.serial) : null;
if (elsewhere) bench.notice("serial", bench.say("bench-serial-other", elsewhere));
else bench.withdraw("serial");
const revision = own.revision !== undefined && data.revision !== null && own.revision !== data.revision;
const print = own.fingerprint !== undefined && data.fingerprint !== undefined && own.fingerprint !== data.fingerprint;
if (conflict) bench.withdraw("revision");
else if (revision) bench.notice("revision", bench.say("bench-revision-other", { was: own.revision, now: data.revision }));
else if (print) bench.notice("revision", bench.say("bench-fingerprint-other"));
const unknown = [...own.ticks, ...own.readings].filter((one) => !data.acts.some((act) => act.step === one.step && act.act === one.act && (one.number <= act.number || act.measure)));
if (unknown.length > 0) bench.notice("unknown", bench.say("bench-aside", { count: unknown.length }));
}
function correct() {
const record = bench.fresh;
if (record) bench.keep({ ...record, variant: { ...record.variant, ...bench.data.variant } });
}
bench.askBuild = (why) => {
const serials = element("datalist", { id: "bench.serials" }, ...bench.serials().map((serial) => element("option", { value: serial })));
const people = element("datalist", { id: "bench.people" }, ...(bench.record?.people ?? []).map((name) => element("option", { value: name })));
const serial = element("input", { type: "text", maxlength: "60", autocomplete: "off", list: "bench.serials", value: bench.serial });
const who = element("input", { type: "text", maxlength: "60", autocomplete: "off", autocapitalize: "words", list: "bench.people", value: bench.settings.who });
const state = element("p", { role: "status", class: "warned" }, why);
const keep = element("button", { type: "button", class: "bench-button bench-main" }, bench.say("bench-keep"));
const field = (key, input) => element("label", { class: "dialog-field" }, element("span", {}, bench.say(key)), input);
const dialog = bench.dialog(bench.say("bench-build-title"), [
element("p", {}, bench.say("bench-build-about")), state, field("bench-serial", serial), field("bench-who", who), serials, people, keep,
finishing(), carrying(), settings(), bench.wrenchList(),
], bench.say("bench-close"));
let warned = "";
keep.addEventListener("click", () => {
const [of, by] = [serial, who].map((input) => input.value.trim());
if (of === "" || by === "") {
state.textContent = bench.say("bench-need-who");
return;
}
const elsewhere = bench.elsewhere(of);
if (elsewhere && warned !== of) {
warned = of;
state.textContent = bench.say("bench-serial-other", elsewhere);
return;
}
for (const key of ["revision", "unknown", "variant", "serial"]) bench.withdraw(key);
bench.begin(of, by);
dialog.close();
});
dialog.showModal();
};
function finishing() {
const button = element("button", { type: "button", class: "bench-button" });
const state = element("p", { role: "status" });
const show = () => {
const { finished } = bench.own;
button.textContent = bench.say(finished ? "bench-unfinish" : "bench-finish");
state.textContent = finished ? bench.say("bench-finished", { time: bench.time(finished) }) : "";
};
button.addEventListener("click", () => {
if (!bench.ready || bench.conflict) return;
const told = (row) => (bench.record?.deviations ?? []).some((one) => one.procedure === bench.data.procedure && one.step === row.closest("[data-step]").dataset.step);
const open = bench.progress().open.filter((row) => !told(row));
if (!bench.own.finished && open.length > 0) {
state.textContent = bench.say("bench-unfinished", { count: open.length });
return;
}
bench.change((own, record, now) => (own.finished = own.finished ? null : now));
show();
});
show();
return element("section", { class: "dialog-part" }, button, state);
}
function carrying() {
const out = element("button", { type: "button", class: "bench-button", disabled: bench.record === null }, bench.say("bench-export"));
out.addEventListener("click", () => save(bench.record));
const file = element("input", { type: "file", accept: ".json,application/json", class: "hidden", id: "bench.import" });
const label = element("label", { for: "bench.import", class: "bench-button" }, bench.say("bench-import"));
const state = element("p", { role: "status", class: "import-state" });
file.addEventListener("change", async () => {
const [chosen] = file.files;
if (!chosen) return;
state.textContent = chosen.size > leaf.record.LARGEST ? bench.say("bench-import-large") : take(await chosen.text());
file.value = "";
out.disabled = bench.record === null;
});
return element("section", { class: "dialog-part" }, element("p", {}, bench.say("bench-export-about")), element("div", { class: "bench-buttons" }, out, file, label), state);
}
function save(record) {
if (!record) return;
const name = `${record.machine}-${record.serial}`.replace(/[^A-Za-z0-9-]+/g, "-");
const address = URL.createObjectURL(new Blob([`${JSON.stringify(record, null, 1)}\n`], { type: "application/json" }));
const link = element("a", { href: address, download: `build-${name}.json` });
document.body.append(link);
link.click();
link.remove();
setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
function take(text) {
const { record, left, fault, place, value } = leaf.record.read(text);
if (fault) return bench.say(fault, { place, value });
const known = bench.recordOf(record.machine, record.serial);
const { record: both, added } = leaf.record.merge(known ?? { ...record, procedures: {}, deviations: [], open: [] }, record);
if (!bench.keep(both)) return bench.say("bench-import-full");
const words = [];
if (record.machine === bench.data.machine) {
words.push(bench.say("bench-imported", { count: added, serial: record.serial }));
if (bench.serial !== record.serial) bench.begin(record.serial, bench.settings.who);
} else {
words.push(bench.say("bench-imported-other", { machine: record.machine, serial: record.serial }));
}
if (record.manual !== bench.data.manual) words.push(bench.say("bench-import-manual", { title: record.manual }));
if (left > 0) words.push(bench.say("bench-import-left", { count: left }));
return words.join(" ");
}
function settings() {
const tick = (key, word) => {
const box = element("input", { type: "checkbox", checked: bench.settings[key] });
box.addEventListener("change", () => bench.set({ [key]: box.checked }));
return element("label", { class: "dialog-check" }, box, element("span", {}, bench.say(word)));
};
const units = element("select", {}, ...["printed", "metric", "customary"].map((value) =>
element("option", { value, selected: bench.settings.units === value }, bench.say(`bench-units-${value}`))));
units.addEventListener("change", () => bench.set({ units: units.value }));
const awake = element("p", {}, bench.awakeWords());
bench.onAwake = () => (awake.textContent = bench.awakeWords());
return element("section", { class: "dialog-part" }, element("h3", {}, bench.say("bench-settings")),
tick("oneStep", "bench-one"), tick("tap", "bench-tap"), tick("awake", "bench-awake"), awake, tick("printTicks", "bench-print-ticks"),
element("label", { class: "dialog-field" }, element("span", {}, bench.say("bench-units")), units));
}
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const { bench } = leaf;
if (!bench) return;
let lock = null;
const there = "wakeLock" in globalThis.navigator;
bench.awakeWords = () => bench.say(!there ? "bench-awake-none" : lock === null ? "bench-awake-off" : "bench-awake-on");
async function stayAwake() {
if (!there) return;
try {
if (bench.settings.awake && lock === null && document.visibilityState === "visible") {
lock = await globalThis.navigator.wakeLock.request("screen");
lock.addEventListener("release", () => {
lock = null;
bench.onAwake?.();
});
} else if (!bench.settings.awake && lock !== null) {
await lock.release();
}
} catch {
lock = null;
}
bench.onAwake?.();
}
document.body.classList.add("bench");
for (const begin of bench.parts) begin();
bench.tell();
bench.onChange(stayAwake);
stayAwake();
document.addEventListener("visibilitychange", stayAwake);
globalThis.addEventListener("storage", ({ key, newValue }) => {
if (key === null || (key.startsWith("leaf.") && key !== "leaf.seen")) bench.heard(key, newValue);
});
globalThis.addEventListener("pageshow", ({ persisted }) => persisted && bench.heard(null, null));
})((globalThis.leaf ??= {}));
(function (leaf) {
"use strict";
const FINGERPRINT = /^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}$/;
leaf.paperOf = function (fragment) {
if (!fragment.startsWith("#paper=")) return null;
const [, revision, fingerprint] = /^(\d{1,9}|-)\.([0-9A-Za-z-]{1,20})$/.exec(fragment.slice("#paper=".length)) ?? [];
const signs = (fingerprint ?? "").toUpperCase();
if (!FINGERPRINT.test(signs)) return { revision: null, fingerprint: null };
return { revision: revision === "-" ? null : Number(revision), fingerprint: signs };
};
leaf.verdictOnPaper = function (paper, now) {
if (paper.fingerprint === null) return "unreadable";
const known = paper.revision !== null && now.revision !== null;
if (paper.fingerprint === now.fingerprint) return known && paper.revision !== now.revision ? "same-values" : "current";
if (known && paper.revision < now.revision) return "older";
return known && paper.revision > now.revision ? "later" : "changed";
};
function fillIn(node, words) {
const walker = document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
const text = walker.currentNode;
text.data = text.data.replace(/@(was|now|paper|page)\b/g, (_, word) => words[word]);
}
}
function show() {
document.querySelector("main > .paper-news")?.remove();
const paper = leaf.paperOf(location.hash);
const template = document.getElementById("page.paper-news");
const mark = document.querySelector("[data-fingerprint]");
if (paper === null || !template || !mark) return;
const { fingerprint, revision } = mark.dataset;
const now = { fingerprint, revision: revision ? Number(revision) : null };
const verdict = leaf.verdictOnPaper(paper, now);
const news = template.content.firstElementChild.cloneNode(true);
for (const line of news.querySelectorAll("[data-when]")) if (line.dataset.when !== verdict) line.remove();
const differs = ["older", "changed", "later"].includes(verdict);
for (const list of news.querySelectorAll("[data-changes]")) {
for (const line of list.querySelectorAll("[data-revision]")) {
if (paper.revision !== null && Number(line.dataset.revision) <= paper.revision) line.remove();
}
if (!differs || verdict === "later" || !list.querySelector("li")) list.remove();
}
const dash = "–";
fillIn(news, { was: String(paper.revision ?? dash), now: String(now.revision ?? dash), paper: paper.fingerprint ?? dash, page: fingerprint });
news.classList.add(verdict === "current" || verdict === "same-values" ? "paper-good" : "paper-bad");
news.setAttribute("role", "alert");
document.querySelector("main").prepend(news);
}
addEventListener("hashchange", show);
show();
})((globalThis.leaf ??= {}));
