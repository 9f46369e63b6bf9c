// Several pages of one device that write to one thing before they have heard of each other: nothing noted gets lost.

import assert from "node:assert/strict";
import { test } from "node:test";
import { parts, plain } from "./scripts.mjs";

const { record, writings } = parts("core", "writings", "record");
const TIME = "2026-09-14T18:02:00Z";
const FORM = record.form("tarn-18", "4711");
const copy = (value) => JSON.parse(JSON.stringify(value));

function sample() {
  const tick = { step: "tighten", act: "torque:pinion-nut", number: 1, value: "78 N·m", at: TIME, by: "Ann" };
  return {
    format: "benchleaf-build/1", manual: "title", machine: "tarn-18", serial: "4711", variant: { shaft: "L" }, people: ["Ann"], begun: TIME, saved: TIME,
    procedures: { pinion: { revision: 4, fingerprint: "ABCD-EFGH-JKMN", begun: TIME, finished: null, ticks: [tick], readings: [], signatures: [{ step: "tighten", act: "hold:editor", by: "Bo", at: TIME }] } },
    deviations: [], open: [{ item: "carrier", procedure: "pinion", left: "dry-fitted" }],
  };
}

const tick = (act, at = TIME, more = {}) => ({ step: "fit", act, number: 1, at, by: "Ann", ...more });
const acts = (value) => value.procedures.pinion.ticks.map(({ act }) => act).sort();

/** A page that has read what is stored. */
function page(name, stored, form = FORM) {
  let count = 0;
  const shared = new writings.Shared(form, () => `${name}_${(count += 1)}`);
  assert.ok(shared.see(copy(stored)));
  return {
    shared,
    see: (what) => shared.see(copy(what)),
    value: () => plain(shared.value),
    /** What it stores once it has changed what it knows. */
    change(work) {
      const value = plain(shared.value);
      return plain(shared.note(work(value) ?? value));
    },
  };
}

/** Both have read the same, and each writes before it hears of the other. */
function race(stored, first, second, form = FORM) {
  const [a, b] = [page("a", stored, form), page("b", stored, form)];
  const [one, two] = [a.change(first), b.change(second)];
  // The second lies there. One hears of it; the other hears of the first, which is gone by then.
  a.see(two);
  b.see(one);
  b.see(two);
  assert.equal(a.shared.lacks, b.shared.lacks, "both know whether something is missing");
  const mended = plain(a.shared.stored);
  b.see(mended);
  assert.ok(!b.shared.lacks, "once it is mended nobody writes again");
  a.see(plain(b.shared.stored));
  assert.ok(!a.shared.lacks);
  return { value: b.value(), stored: mended, a, b };
}

test("what is stored holds its writings beside it, and nobody is shown them", () => {
  const a = page("a", sample());
  const stored = a.change((value) => void value.procedures.pinion.ticks.push(tick("new")));
  assert.equal(stored.writings.trail[0], "1.a_1");
  assert.deepEqual(Object.values(stored.writings.noted), ["1.a_1"]);
  assert.ok(!("writings" in a.value()));
  assert.deepEqual(plain(record.check(a.value())), { record: a.value(), left: 0 });
  assert.deepEqual(page("b", stored).value(), a.value());
});

test("a record from before writings were told is read as it was, and so is one whose writings are out of order", () => {
  for (const odd of [undefined, null, 7, [], {}, { trail: [], noted: {} }, { trail: [5], noted: {} }, { trail: ["5"], noted: {} }, { trail: [`1.${"x".repeat(99)}`], noted: {} }, { trail: ["1.x"], noted: null }, { trail: Array(99).fill("1.x"), noted: {} }]) {
    assert.deepEqual(page("a", { ...sample(), writings: odd }).value(), sample());
  }
  assert.ok(!page("a", sample()).see({ ...sample(), serial: "4712" }), "of another machine");
  assert.ok(!page("a", sample()).see({ format: "benchleaf-build/1" }), "out of order");
});

test("two ticks made at once are both kept, in a new record as well", () => {
  assert.deepEqual(acts(race(sample(), (v) => void v.procedures.pinion.ticks.push(tick("one")), (v) => void v.procedures.pinion.ticks.push(tick("two"))).value), ["one", "torque:pinion-nut", "two"]);
  const begun = (act) => () => ({ ...sample(), procedures: { pinion: { ...sample().procedures.pinion, ticks: [tick(act)] } } });
  assert.deepEqual(acts(race(null, begun("one"), begun("two")).value), ["one", "two"]);
});

test("every part of a record is kept: readings, signatures, answers, deviations, people, what is open, other procedures", () => {
  const { value } = race(
    sample(),
    (v) => {
      v.procedures.pinion.readings.push({ step: "depth", act: "measure:depth", number: 1, value: "0.71 mm", at: TIME });
      v.procedures.pinion.stops = [tick("stop")];
      v.people.push("Cy");
      v.open = [];
    },
    (v) => {
      v.procedures.pinion.signatures.push({ step: "tighten", act: "hold:editor", by: "Di", at: TIME });
      v.procedures.carrier = { revision: 2, begun: TIME, finished: TIME, ticks: [], readings: [], signatures: [] };
      v.deviations.push({ procedure: "pinion", step: "fit", what: "old nut", at: TIME });
      v.people.push("Di");
      v.saved = "2026-09-14T19:02:00Z";
    },
  );
  const { pinion, carrier } = value.procedures;
  assert.deepEqual([pinion.readings.length, pinion.stops.length, pinion.signatures.length, value.deviations.length, value.open.length], [1, 1, 2, 1, 0]);
  assert.deepEqual([[...value.people].sort(), carrier.revision, carrier.finished, value.saved], [["Ann", "Cy", "Di"], 2, TIME, "2026-09-14T19:02:00Z"]);
});

test("of one line written by both the later counts, whoever lay there last", () => {
  const written = (at, by) => (v) => void (v.procedures.pinion.ticks = [{ ...v.procedures.pinion.ticks[0], at, by }]);
  const [early, late] = [written("2026-09-14T19:00:00Z", "Cy"), written("2026-09-14T20:00:00Z", "Di")];
  for (const { value } of [race(sample(), early, late), race(sample(), late, early)]) assert.deepEqual(value.procedures.pinion.ticks.map(({ by }) => by), ["Di"]);
});

test("a hold point that two pages have signed at once is signed once, and another of the same person waits", () => {
  const hold = (at) => ({ step: "tighten", act: "hold:second", by: "Ed", at });
  const sign = (at) => (v) => void v.procedures.pinion.signatures.push(hold(at));
  const [early, late] = ["2026-09-14T18:02:01Z", "2026-09-14T18:02:02Z"];
  for (const { value, a } of [race(sample(), sign(early), sign(late)), race(sample(), sign(late), sign(early))]) {
    const of = (record) => record.procedures.pinion.signatures.filter(({ act }) => act === "hold:second");
    assert.deepEqual(of(value), [hold(late)]);
    // The next one is the second, wherever it comes to lie.
    a.change((v) => void v.procedures.pinion.signatures.push(hold(TIME)));
    assert.deepEqual(of(a.value()), [hold(late), hold(TIME)]);
  }
});

test("of two editions worked by at once the newer one counts", () => {
  const by = (revision) => (v) => void Object.assign(v.procedures.pinion, { revision, fingerprint: `R${revision}` });
  for (const { value } of [race(sample(), by(9), by(10)), race(sample(), by(10), by(9))]) assert.equal(value.procedures.pinion.fingerprint, "R10");
});

test("what is taken off by who has seen it stays off, and what nobody has seen yet is not taken off with it", () => {
  const off = (v) => void (v.procedures.pinion.ticks = []);
  assert.deepEqual(acts(race(sample(), off, (v) => void v.procedures.pinion.ticks.push(tick("two"))).value), ["two"]);
  // The line that one takes off the other writes anew: that has not been seen.
  const anew = (v) => void (v.procedures.pinion.ticks = [{ ...v.procedures.pinion.ticks[0], by: "Di" }]);
  assert.deepEqual(race(sample(), off, anew).value.procedures.pinion.ticks.map(({ by }) => by), ["Di"]);
  // Joined twice over, and taken off behind it.
  const { stored, a, b } = race(sample(), (v) => void v.procedures.pinion.ticks.push(tick("one")), (v) => void v.procedures.pinion.ticks.push(tick("two")));
  const without = b.change((v) => void (v.procedures.pinion.ticks = v.procedures.pinion.ticks.filter(({ act }) => act !== "one")));
  const more = a.change((v) => void v.procedures.pinion.ticks.push(tick("three")));
  const c = page("c", stored);
  for (const what of [without, more]) c.see(what);
  assert.deepEqual(acts(c.value()), ["three", "torque:pinion-nut", "two"]);
});

test("a tick taken off opens a procedure again that another page finishes at the same time", () => {
  const { value } = race(sample(), (v) => void (v.procedures.pinion.ticks = []), (v) => void (v.procedures.pinion.finished = TIME));
  assert.equal(value.procedures.pinion.finished, null);
});

test("what was cleared away is not put back, and who lags behind by very much takes what lies there", () => {
  const a = page("a", sample());
  a.change((v) => void v.procedures.pinion.ticks.push(tick("one")));
  a.see(null);
  assert.equal(a.shared.value, null);
  assert.ok(!a.shared.lacks);
  const [late, busy] = [page("l", sample()), page("b", sample())];
  busy.see(late.change((v) => void v.procedures.pinion.ticks.push(tick("one"))));
  let stored = busy.change((v) => void (v.procedures.pinion.ticks = []));
  for (let count = 0; count < 100; count += 1) stored = busy.change((v) => void v.procedures.pinion.ticks.push(tick(`more-${count}`)));
  assert.ok(stored.writings.trail.length <= 40 && Object.keys(stored.writings.noted).length <= 40);
  late.see(stored);
  assert.ok(!late.shared.lacks && !acts(late.value()).includes("one"));
});

test("lists and maps of the device are kept as well", () => {
  const list = writings.list(({ key }) => key);
  assert.deepEqual(race([{ key: "a" }], () => [{ key: "a" }, { key: "b" }], () => [{ key: "c" }], list).value.map(({ key }) => key).sort(), ["b", "c"]);
  assert.deepEqual(race({ a: TIME }, (v) => ({ ...v, b: TIME }), () => ({ c: TIME }), writings.map).value, { b: TIME, c: TIME });
  assert.deepEqual([page("a", [], list).value(), page("a", [null, 5, { key: "a" }], list).value()], [[], [{ key: "a" }]]);
});

// ---- pages in processes of their own ----

/** Numbers that look like chance and are the same each time. */
function chance(seed) {
  let state = seed * 2_654_435_761;
  return (below) => {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x9e3779b9) | 0;
    return ((state ^ (state >>> 12)) >>> 0) % below;
  };
}

/**
 * A device whose pages each see a copy of the storage that lags behind. A page sees its own writing at once; what others
 * wrote reaches it in the order of the storage, and nothing of it is seen while a writing of its own is under way.
 */
class Device {
  constructor(random, joins) {
    Object.assign(this, { random, joins, stored: null, pages: [], made: new Map(), off: new Set(), readings: new Set(), writes: 0, count: 0 });
  }

  open() {
    const name = `p${(this.count += 1)}_`;
    let writes = 0;
    const one = { view: this.stored, leaving: [], coming: [], events: [], underWay: 0, shared: new writings.Shared(FORM, () => name + (writes += 1)) };
    this.pages.push(one);
    this.see(one, one.view);
  }

  see(one, text) {
    if (!this.joins) one.shared.forget();
    one.shared.see(text === null ? null : JSON.parse(text));
  }

  write(one, stored) {
    one.view = JSON.stringify(stored);
    one.leaving.push(one.view);
    one.underWay += 1;
    this.writes += 1;
  }

  /** A writing reaches the storage, which tells every page. */
  arrive(from) {
    this.stored = from.leaving.shift();
    for (const one of this.pages) one.coming.push({ text: this.stored, own: one === from });
  }

  hear(one) {
    const { text, own } = one.coming.shift();
    if (own) one.underWay -= 1;
    else {
      if (one.underWay === 0) one.view = text;
      one.events.push(text);
    }
  }

  event(one) {
    this.see(one, one.events.shift());
    this.see(one, one.view);
    if (one.shared.lacks && this.joins) this.write(one, plain(one.shared.stored));
  }

  act(one) {
    this.see(one, one.view);
    const value = plain(one.shared.value) ?? { ...sample(), procedures: { pinion: { ...sample().procedures.pinion, ticks: [] } } };
    const { ticks } = value.procedures.pinion;
    const kind = this.random(6);
    const at = new Date(Date.parse(TIME) - this.random(1000) * 1000).toISOString();
    if (kind < 3) {
      const act = `act-${this.made.size}`;
      this.made.set(act, at);
      ticks.push(tick(act, at));
    } else if (kind === 3 && ticks.length > 0) {
      const [{ act }] = ticks.splice(this.random(ticks.length), 1);
      this.off.add(act);
    } else {
      const text = `${this.readings.size} mm`;
      this.readings.add(text);
      value.procedures.pinion.readings = [{ step: "depth", act: "measure:depth", number: 1, value: text, at }];
    }
    this.write(one, plain(one.shared.note(value)));
  }

  /** One thing that may happen next; false where nothing is left to come. */
  next(mayAct) {
    const can = this.pages.flatMap((one) => [
      ...(one.leaving.length > 0 ? [() => this.arrive(one)] : []), ...(one.coming.length > 0 ? [() => this.hear(one)] : []), ...(one.events.length > 0 ? [() => this.event(one)] : []),
    ]);
    const isBehind = this.pages.some((one) => one.leaving.length + one.coming.length + one.events.length > 8);
    if (mayAct && !isBehind && this.random(3) === 0) this.act(this.pages[this.random(this.pages.length)]);
    else if (can.length > 0) can[this.random(can.length)]();
    else return false;
    return true;
  }

  /** A page is closed, having heard or not what others wrote; another is opened. */
  change() {
    const at = 1 + this.random(this.pages.length - 1);
    while (this.pages[at].leaving.length > 0) this.arrive(this.pages[at]);
    this.pages.splice(at, 1);
    this.open();
  }

  rest() {
    const before = this.writes;
    while (this.next(false)) assert.ok(this.writes - before < 500, "the pages never come to rest");
  }
}

/** What is wrong once all have come to rest, in words; nothing where all is right. */
function wrong({ pages, stored, made, off, readings }) {
  if (pages.some(({ view }) => view !== stored)) return "pages see different records";
  if (stored === null) return made.size > 0 ? "nothing is stored" : null;
  const { ticks, readings: read } = JSON.parse(stored).procedures.pinion;
  const there = new Map(ticks.map(({ act, at }) => [act, at]));
  if (there.size !== ticks.length) return "a tick is there twice";
  const lost = [...made].find(([act, at]) => !off.has(act) && there.get(act) !== at);
  if (lost) return `lost: ${lost[0]}`;
  const back = [...there.keys()].find((act) => off.has(act) || !made.has(act));
  if (back) return `came back: ${back}`;
  if (readings.size > 0 && (read.length !== 1 || !readings.has(read[0].value))) return "a reading is lost";
  const known = pages.find(({ shared }) => JSON.stringify(acts(plain(shared.value))) !== JSON.stringify([...there.keys()].sort()));
  return known ? "a page knows of another record" : null;
}

function simulated(seed, pages, { joins = true, changes = false, steps = 120 } = {}) {
  const device = new Device(chance(seed), joins);
  for (let count = 0; count < pages; count += 1) device.open();
  for (let step = 0; step < steps; step += 1) {
    device.next(true);
    if (changes && device.random(25) === 0) device.change();
  }
  device.rest();
  return wrong(device);
}

for (const pages of [2, 3, 4]) {
  test(`${pages} pages whose writings arrive late come to rest at one record that has all of it`, () => {
    for (let seed = 1; seed <= 150; seed += 1) assert.equal(simulated(seed, pages), null, `seed ${seed}`);
    for (let seed = 1; seed <= 75; seed += 1) assert.equal(simulated(seed, pages, { changes: true }), null, `seed ${seed}, with pages that come and go`);
    for (let seed = 1; seed <= 3; seed += 1) assert.equal(simulated(seed, pages, { steps: 1200 }), null, `seed ${seed}, longer than writings are told apart`);
  });
}

test("without joining, the same pages lose what was noted", () => {
  const faults = Array.from({ length: 100 }, (_, seed) => simulated(seed + 1, 2, { joins: false }));
  assert.ok(faults.filter((fault) => fault?.startsWith("lost")).length > 50, String(faults));
});
