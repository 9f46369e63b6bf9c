// The matcher of the search, without a page: what was meant is found whatever was typed, and every address it gives is there.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { before, test } from "node:test";
import vm from "node:vm";
import { pagesOf, project, site } from "./site.mjs";

let leaf, index;
before(() => {
  const context = vm.createContext({});
  vm.runInContext("globalThis.leaf = {};", context);
  for (const file of [join(project, "themes/workshop/scripts/search-match.js"), join(site, "search-index.js")]) {
    vm.runInContext(readFileSync(file, "utf8"), context);
  }
  leaf = context.leaf;
  index = leaf.readIndex(leaf.index);
});

const first = (query, here = "") => leaf.find(index, query, here).found[0];

for (const [query, name, value] of [
  ["pinion nut", "Pinion nut", "78"],
  ["pinoin nut", "Pinion nut", "78"],
  ["pinon", "Pinion", ""],
  ["PINION NUT", "Pinion nut", "78"],
  ["hub nut 320", "Hub nut of the worm wheel", "320"],
  ["hubnt", null, ""],
  ["18 nm carrier", "Carrier bolt", "18 N·m"],
  ["13.3 ft-lb carrier", "Carrier bolt", "18 N·m"],
  ["13,3 lbf ft carrier bolt", "Carrier bolt", "18 N·m"],
  ["m8x1.25 cap", "Cap bolt", "24 N·m"],
  ["30x42x7 inner", "Inner seal", "10 mm"],
  ["eye sheild", "Eye shield", ""],
  ["spline sleve", "Set of thin sleeves for splines", ""],
  ["medium locker", "Medium-strength thread locker", ""],
]) {
  test(`‘${query}’ finds ${name ?? "nothing of that name"}`, () => {
    const found = first(query);
    if (name === null) return assert.notEqual(found?.name, "Hub nut of the worm wheel");
    assert.ok(found, "nothing was found");
    assert.ok(found.name.startsWith(name), `${found.name} came first`);
    assert.ok(found.value.includes(value), found.value);
  });
}

test("a word that is not used for a thing leads to the right name", () => {
  const { found, meant } = leaf.find(index, "bearing cap", "");
  assert.deepEqual(JSON.parse(JSON.stringify(meant)), [["bearing cap", "Carrier"]]);
  assert.ok(found.slice(0, 4).some(({ name }) => name === "Propeller-shaft carrier"), found.slice(0, 4).map(({ name }) => name).join(", "));
});

test("a number is never taken for another one", () => {
  for (const { fields, value } of leaf.find(index, "321", "").found) assert.ok(value.includes("321"), `${value} ${fields.more}`);
  assert.equal(leaf.find(index, "hub nut 999", "").found.filter(({ value }) => value.includes("999")).length, 0);
});

test("what belongs to the machine at hand comes before its namesake", () => {
  assert.equal(first("eye shield", "tarn-18").machine, "tarn-18");
  assert.equal(first("eye shield", "hb-2").machine, "hb-2");
});

test("nothing is found for nothing, for signs, and for what is nowhere", () => {
  for (const query of ["", "   ", "·—?", "xyzzy", "\u0000", "(".repeat(5000)]) assert.equal(leaf.find(index, query, "").found.length, 0, query.slice(0, 9));
});

test("a page of words is answered at once", () => {
  const start = performance.now();
  leaf.find(index, "gear oil carrier nut bolt ".repeat(400), "");
  assert.ok(performance.now() - start < 2000);
});

test("slips are counted: wrong, missing, too many, swapped, and a beginning is a match", () => {
  for (const [typed, word, slips] of [
    ["pinion", "pinion", 0],
    ["pinoin", "pinion", 1],
    ["pinon", "pinion", 1],
    ["pinnion", "pinion", 1],
    ["pinien", "pinion", 1],
    ["flywh", "flywheel", 0],
    ["flyhwe", "flywheel", 1],
    ["nut", "bolt", 3],
  ]) {
    assert.equal(leaf.slips(typed, word), slips, `${typed} for ${word}`);
  }
});

test("every entry leads to a place that is there", () => {
  const ids = new Map(pagesOf(site).map((name) => [name, new Set([...readFileSync(join(site, name), "utf8").matchAll(/ id="([^"]+)"/g)].map(([, id]) => id))]));
  assert.ok(index.entries.length > 200, `only ${index.entries.length} entries`);
  for (const { href, name } of index.entries) {
    const [page, anchor] = href.split("#");
    assert.ok(ids.has(page), `${name}: no page ${page}`);
    assert.ok(!anchor || ids.get(page).has(anchor), `${name}: no ${anchor} on ${page}`);
  }
});
