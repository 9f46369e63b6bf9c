// What the scripts reckon, against published examples and against what the program itself says.

import assert from "node:assert/strict";
import { test } from "node:test";
import { dataOf, parts, plain } from "./scripts.mjs";

const leaf = parts("core", "quantities", "reckon", "wrenches", "clock");
const units = new leaf.quantity.Units(dataOf().units);
const near = (found, expected, off) => assert.ok(Math.abs(found - expected) <= off, `${found}, expected ${expected} ± ${off}`);

test("the setting with an adapter meets the handbooks", () => {
  const inch = 25.4;
  const set = (torque, length, offset, angle = 0) => leaf.wrench.setting(torque, length * inch, { length: offset * inch, angle });
  near(set(300, 10, 4), 214.29, 0.005); // TM 1-1500-204-23-9, p. 143: 214 lbf·in
  near(set(100, 12, 6), 66.67, 0.005); // NAVEDTRA 14315: 66.7 lbf·in
  near(set(19, 22, 3), 16.72, 0.005); // TM 5-3805-274-13&P: 17 lbf·ft, rounded
  near(set(25.8, 22, 3), 22.704, 0.0005); // the same, its metric line
  near(set(300, 10, 4, 180), 500, 1e-9); // TM 55-1945-205: turned back, L − A
  assert.equal(set(300, 10, 4, 90), 300); // TM 9-2350-277-20-2: square, no correction
  near(set(100, 12, 6, 60), 80, 1e-9); // TM 9-254, p. 92: lA·cos a
  near(set(135, 10, 1.5), 117.39, 0.005); // FAA AC 43.13-1B, ch. 7 (from memory)
  for (const bad of [[0, 10, 4], [300, 0, 4], [300, 10, -1], [300, 10, 10, 180], [300, 10, 4, NaN]]) assert.equal(set(...bad), null, String(bad));
});

test("which wrench to take is what the program takes", () => {
  // The same shop and torques as the program's own test (src/trade/wrench.rs).
  const shop = [[0.5, 6], [5, 25], [20.3, 108.5], [70, 350]].map(([low, high]) => ({ low, high, step: null }));
  for (const [torque, at] of [[5.5, 0], [11, 1], [24, 1], [48, 2], [105, 3], [320, 3], [0.4, -1]]) assert.equal(leaf.wrench.best(shop, torque), at, String(torque));
  const [coarse, fine] = [{ low: 10, high: 50, step: 5 }, { low: 10, high: 100, step: 0.5 }];
  assert.equal(leaf.wrench.best([coarse, fine], 24), 1);
  assert.equal(leaf.wrench.best([coarse, fine], 25), 0);
  // Usable from 20 % of full scale: ISO 6789 calibrates from there.
  assert.equal(leaf.wrench.fits({ low: 0, high: 100 }, 19.9), false);
  assert.equal(leaf.wrench.fits({ low: 0, high: 100 }, 20), true);
  assert.equal(leaf.wrench.best([{ low: 25, high: 5 }, { low: 0, high: Infinity }], 10), -1);
});

test("the shim of the worked example", () => {
  const series = { from: 0.9, to: 1.1, step: 0.05 };
  const values = { old: 0.9, reading: 0.71, target: 0.64 };
  const choice = plain(leaf.reckon.shim("old + reading - target", values, series, { low: 0.62, high: 0.66 }));
  near(choice.exact, 0.97, 1e-12);
  assert.equal(choice.best.size, 0.95);
  near(choice.below.gives, 0.66, 1e-12);
  near(choice.above.gives, 0.61, 1e-12);
  assert.deepEqual([choice.below.accepted, choice.above.accepted], [true, false]);
  // Without a target: half a step off the formula is accepted.
  const preload = plain(leaf.reckon.shim("reading - preload", { reading: 0.62, preload: 0.04 }, { from: 0.4, to: 0.8, step: 0.05 }, null));
  assert.equal(preload.best.size, 0.6);
  assert.equal(preload.best.gives, null);
  // The same shims, fitted: 0.90 + 0.71 - 0.64 = 0.97 mm, and 1.00 mm leaves 0.61 mm, outside what is accepted.
  const fitted = (size, accept) => leaf.reckon.fitted("old + reading - target", values, series, accept, size).fitted.accepted;
  assert.deepEqual([0.95, 1, 1.05].map((size) => fitted(size, { low: 0.62, high: 0.66 })), [true, false, false]);
  // Where nothing is stated, half a step off is still the nearest.
  assert.deepEqual([0.9, 0.95, 1, 1.05].map((size) => fitted(size, null)), [false, true, false, false]);
  // The ends of the box; a shim that meets the formula needs none beside it.
  assert.equal(plain(leaf.reckon.shim("reading", { reading: 0.8 }, series, null)).best, null);
  assert.equal(plain(leaf.reckon.shim("reading", { reading: 1.3 }, series, null)).best, null);
  assert.equal(plain(leaf.reckon.shim("reading", { reading: 1 }, series, null)).above, null);
  assert.equal(leaf.reckon.shim("reading", { reading: 1 }, { from: 1, to: 0.9, step: 0.05 }, null), null);
});

test("formulas are read as the program reads them", () => {
  const value = (text, values = {}) => leaf.reckon.evaluate(leaf.reckon.parse(text), values);
  assert.equal(value("2 + 3 × 4"), 14);
  assert.equal(value("(2 + 3) * 4 ÷ 2"), 10);
  assert.equal(value("bore - piston-skirt", { bore: 58, "piston-skirt": 57.5 }), 0.5);
  assert.equal(value("1 / 0"), null);
  assert.equal(value("a - b", { a: 1 }), null);
  assert.equal(value("constructor", {}), null);
  for (const bad of ["", "1 +", "(1", "1 )", "1 2", "a b", "1 ^ 2", "alert(1)", "(".repeat(40) + "1" + ")".repeat(40), "1 + ".repeat(200) + "1"]) {
    assert.equal(leaf.reckon.parse(bad), null, bad);
  }
});

test("clearance, arc and backlash", () => {
  // Arithmetic of limits (ISO 286-1, definitions): least hole less greatest part, greatest hole less least part.
  const found = plain(leaf.reckon.clearance({ low: 58, high: 58.015 }, { low: 57.955, high: 57.97 }));
  near(found.low, 0.03, 1e-9);
  near(found.high, 0.06, 1e-9);
  assert.equal(leaf.reckon.clearance({ low: 0, high: 1 }, { low: 0.5, high: 0.6 }), null);
  // Geometry: 360°·s/(π·D).
  near(leaf.reckon.degrees(2, 98), 2.34, 0.005);
  near(leaf.reckon.arc(360, 98), 98 * Math.PI, 1e-9);
  assert.equal(leaf.reckon.degrees(2, 0), null);
  // Lever: reading · r_gear/r_dial.
  near(leaf.reckon.atTeeth(0.24, 70, 90), 0.187, 0.0005);
  assert.equal(leaf.reckon.atTeeth(0.24, 70, 0), null);
});

test("numbers with point and comma", () => {
  for (const [text, value, digits] of [["0.71", 0.71, "0.71"], ["0,71", 0.71, "0.71"], [".5", 0.5, "0.5"], [",5", 0.5, "0.5"], ["12.", 12, "12"], ["−0,02", -0.02, "-0.02"], ["0.70", 0.7, "0.70"]]) {
    const read = leaf.quantity.number(text);
    assert.deepEqual([read.value, read.digits], [value, digits], text);
  }
  assert.equal(leaf.quantity.number("1,234.5").fault, "bench-thousands");
  assert.equal(leaf.quantity.number("1.2.3").fault, "bench-thousands");
  for (const bad of ["", "x", "1e5", "Infinity", "0x10", "--1", "1 2", "٣", "9".repeat(50)]) assert.equal(leaf.quantity.number(bad).fault, "bench-not-number", bad);
});

test("units are understood and kept apart", () => {
  const read = (text, own) => units.read(text, own);
  const base = (text, own) => {
    const { value, unit } = read(text, own);
    return units.toBase(value, unit);
  };
  assert.equal(base("0.71", "mm"), 0.71);
  near(base("0,028 in", "mm"), 0.7112, 1e-12); // 1 in = 25.4 mm exactly (agreement of 1959)
  near(base("28 thou", "mm"), 0.7112, 1e-12);
  near(base("57.5 ft-lb", "N·m"), 57.5 * 1.3558179483314, 1e-9); // NIST SP 811, B.8
  near(base("212 °F", "°C"), 100, 1e-9);
  assert.equal(read("5 N", "mm").fault, "bench-unit-other");
  assert.equal(read("5 furlong", "mm").fault, "bench-unit-unknown");
  assert.equal(read("abc", "mm").fault, "bench-not-number");
  assert.equal(units.system("57.5 lbf·ft (54.6–60.4)"), "customary");
  assert.equal(units.system("78 ± 4 N·m"), "metric");
  assert.equal(units.system("by hand"), null);
});

test("readings are judged, ends inside", () => {
  const spec = { low: 0.2, high: 0.32 };
  const limit = { low: null, high: 0.6 };
  const { judge } = leaf.quantity;
  assert.deepEqual([0.19, 0.2, 0.32, 0.33, 0.6, 0.61].map((value) => judge(value, spec, limit)), ["outside-spec", "inside", "inside", "outside-spec", "outside-spec", "outside-limit"]);
  assert.equal(judge(0.33, spec, null), "outside-spec-only");
  assert.equal(judge(0.5, null, limit), "inside-limit");
  assert.equal(judge(0.1 + 0.2, { low: 0.3, high: 0.3 }, null), "inside");
  assert.equal(judge(32.8, { low: 33, high: 33 }, { low: 32.2, high: null }), "inside-limit");
  assert.equal(judge(32.1, { low: 33, high: 33 }, { low: 32.2, high: null }), "outside-limit");
  assert.equal(judge(32.8, { low: 33, high: 33 }, null), "no-band");
  assert.equal(judge(5, null, null), "no-limit");
  assert.deepEqual([[0.72, 0.71, 0.75], [1, 2], []].map((all) => leaf.quantity.median(all)), [0.72, 1.5, null]);
});

test("a clock that jumps is noticed, one that is set right is not", () => {
  let [now, steady] = [1e12, 0];
  const watch = new leaf.clock.Watch(() => now, () => steady, NaN);
  const pass = (wall, real) => {
    now += wall;
    steady += real;
    return watch.look();
  };
  assert.equal(watch.wentBack, 0);
  assert.equal(pass(1000, 1000), 0);
  assert.equal(pass(30_000, 1000), 0);
  assert.equal(pass(-3_600_000, 1000), -3_601_000);
  assert.equal(pass(1000, 1000), 0);
  assert.equal(pass(7_201_000, 1000), 7_200_000);
  assert.equal(new leaf.clock.Watch(() => 1e12, () => 0, 1e12 + 7_200_000).wentBack, 7_200_000);
  assert.equal(new leaf.clock.Watch(() => 1e12, () => 0, 1e12 - 7_200_000).wentBack, 0);
  assert.deepEqual(plain(leaf.clock.parts(90_061_000)), [[1, "days"], [1, "hours"]]);
  assert.deepEqual(plain(leaf.clock.parts(0)), [[0, "seconds"]]);
});
