// Build records that anybody may have written: read, refused with their place, put together.

import assert from "node:assert/strict";
import { test } from "node:test";
import { parts, plain } from "./scripts.mjs";

const { record } = parts("core", "record");
const TIME = "2026-09-14T18:02:00Z";

function sample() {
  return {
    format: "benchleaf-build/1", manual: "title", machine: "tarn-18", serial: "4711", variant: { shaft: "L" }, people: ["Ann"], begun: TIME, saved: "2026-09-14T21:40:00Z",
    procedures: {
      pinion: {
        revision: 4, fingerprint: "ABCD-EFGH-JKMN", begun: TIME, finished: null,
        ticks: [{ step: "tighten", act: "torque:pinion-nut", number: 1, value: "78 N·m", at: TIME, by: "Ann" }],
        readings: [{ step: "depth", act: "measure:depth", number: 1, value: "0.71 mm", at: TIME }],
        signatures: [{ step: "tighten", act: "hold:second-reader", by: "Bo", at: TIME }],
        stops: [{ step: "tighten", act: "torque:pinion-nut", number: 1, value: "STOP Before this: tighten Shim (line 2.1)", at: TIME, by: "Ann" }],
      },
    },
    deviations: [{ procedure: "pinion", step: "tighten", of: "pinion-nut", what: "old nut", because: "none in the kit", by: "Ann", at: TIME }],
    open: [{ item: "carrier", procedure: "pinion", left: "dry-fitted" }],
  };
}

const read = (value) => plain(record.read(typeof value === "string" ? value : JSON.stringify(value)));

test("a record comes back as it was written", () => {
  assert.deepEqual(read(sample()), { record: sample(), left: 0 });
});

test("what is no record is refused", () => {
  for (const [text, fault] of [
    ["", "bench-import-json"], ["{", "bench-import-json"], ["null", "bench-import-json"], ["[]", "bench-import-json"], ["7", "bench-import-json"], ["{}", "bench-import-json"],
    [JSON.stringify({ format: "benchleaf-build/2" }), "bench-import-newer"], ["[".repeat(200_000), "bench-import-json"], [" ".repeat(1_000_001), "bench-import-large"],
  ]) assert.equal(read(text).fault, fault, text.slice(0, 30));
});

test("a damaged record is refused with its place", () => {
  const spoilt = (change) => {
    const value = sample();
    change(value, value.procedures.pinion);
    return read(value);
  };
  for (const [place, change] of [
    ["serial", (r) => (r.serial = 4711)], ["serial", (r) => (r.serial = "")], ["machine", (r) => delete r.machine], ["variant", (r) => (r.variant = [])], ["variant.shaft", (r) => (r.variant.shaft = 5)],
    ["people[0]", (r) => (r.people = [{}])], ["people", (r) => (r.people = Array(300).fill("x"))], ["begun", (r) => (r.begun = "yesterday")], ["begun", (r) => (r.begun = "2026-13-45T99:00:00Z")],
    ["procedures.pinion.ticks[0].at", (r, p) => (p.ticks[0].at = 12)], ["procedures.pinion.ticks[0].step", (r, p) => (p.ticks[0].step = null)],
    ["procedures.pinion.ticks[0].number", (r, p) => (p.ticks[0].number = -1)], ["procedures.pinion.ticks[0].number", (r, p) => (p.ticks[0].number = 1.5)],
    ["procedures.pinion.ticks[0].value", (r, p) => (p.ticks[0].value = "x".repeat(2001))], ["procedures.pinion.readings", (r, p) => (p.readings = {})],
    ["procedures.pinion.signatures[0].by", (r, p) => (p.signatures[0].by = "")], ["procedures.pinion.stops[0].at", (r, p) => (p.stops[0].at = "then")], ["procedures.pinion.stops", (r, p) => (p.stops = {})], ["deviations[0].what", (r) => (r.deviations[0].what = ["a"])], ["open[0].left", (r) => delete r.open[0].left],
  ]) assert.deepEqual([spoilt(change).fault, spoilt(change).place], ["bench-import-form", place], place);
});

test("names that mean something to the language are only names, or refused", () => {
  const text = JSON.stringify(sample()).replace('"pinion":', '"__proto__":');
  assert.equal(read(text).fault, "bench-import-form");
  const value = sample();
  value.procedures = { constructor: value.procedures.pinion };
  const { record: found } = read(value);
  assert.deepEqual(Object.keys(found.procedures), ["constructor"]);
  const merged = plain(record.merge(sample(), found)).record;
  assert.deepEqual(Object.keys(merged.procedures).sort(), ["constructor", "pinion"]);
});

test("fields that are not known are counted and left out; lines that are not known are kept", () => {
  const value = { ...sample(), extra: { deep: [1] } };
  value.procedures.pinion.ticks.push({ step: "gone", act: "torque:gone", number: 3, value: "9 N·m", at: TIME, by: "Ann", note: "hm" });
  const { record: found, left } = read(value);
  assert.equal(left, 2);
  assert.equal(found.procedures.pinion.ticks[1].step, "gone");
  assert.ok(!("extra" in found) && !("note" in found.procedures.pinion.ticks[1]));
});

test("answers to STOP lines come together, and a record from before they were kept has none", () => {
  const other = sample();
  other.procedures.pinion.stops = [{ step: "fit", act: "fit:cover", number: 1, value: "STOP Before it is closed", at: TIME, by: "Bo" }];
  const { record: both, added } = plain(record.merge(sample(), other));
  assert.deepEqual([added, both.procedures.pinion.stops.map(({ by }) => by)], [1, ["Ann", "Bo"]]);
  const older = sample();
  delete older.procedures.pinion.stops;
  assert.deepEqual(read(older), { record: older, left: 0 });
  assert.deepEqual(plain(record.merge(older, sample())).record.procedures.pinion.stops.length, 1);
  assert.ok(!("stops" in plain(record.merge(older, older)).record.procedures.pinion));
  // Of a procedure that only the other has, each answer is counted and taken once.
  const empty = { ...sample(), procedures: {} };
  assert.equal(plain(record.merge(empty, sample())).record.procedures.pinion.stops.length, 1);
});

test("two records of one machine become one, the later entry of each line kept", () => {
  const other = sample();
  other.people = ["Bo"];
  other.procedures.pinion.ticks = [
    { step: "tighten", act: "torque:pinion-nut", number: 1, value: "80 N·m", at: "2026-09-14T19:00:00Z", by: "Bo" },
    { step: "tighten", act: "mark:pinion-nut", number: 1, at: TIME, by: "Bo" },
  ];
  other.procedures.carrier = { begun: TIME, finished: null, ticks: [], readings: [], signatures: [] };
  const { record: both, added } = plain(record.merge(sample(), other));
  assert.equal(added, 2);
  assert.deepEqual(both.people, ["Ann", "Bo"]);
  assert.deepEqual(both.procedures.pinion.ticks.map(({ value, by }) => [value, by]), [["80 N·m", "Bo"], [undefined, "Bo"]]);
  assert.equal(both.deviations.length, 1);
  assert.equal(both.open.length, 1);
  assert.ok(both.procedures.carrier);
  // The other way round the later one is kept too, and once more adds nothing.
  assert.equal(plain(record.merge(other, sample())).record.procedures.pinion.ticks[0].value, "80 N·m");
  assert.equal(record.merge(both, other).added, 0);
});
