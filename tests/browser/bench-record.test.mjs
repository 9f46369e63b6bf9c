// The bench sheet on a phone: the record out and in, values that changed, and what happens when things go wrong.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { NUT, PINION, WATCHED, begin, bench, button, device, record, row, server, sign, ticks } from "./phone.mjs";
import { edition, site, temporaryFolder } from "./site.mjs";

test("the record goes out as one file and comes in on another device", async () => {
  const { page, close } = await bench();
  await sign(page, WATCHED);
  await button(page, NUT).press("Enter");
  await page.click(".bench-status:not(.bench-soonest)");
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Export the record" }).click()]);
  assert.equal(download.suggestedFilename(), "build-tarn-18-4711.json");
  const file = join(temporaryFolder(), "record.json");
  await download.saveAs(file);
  const written = JSON.parse(readFileSync(file, "utf8"));
  assert.deepEqual(Object.keys(written), ["format", "manual", "machine", "serial", "variant", "people", "begun", "saved", "procedures", "deviations", "open"]);
  assert.equal(written.format, "benchleaf-build/1");
  assert.deepEqual(written.variant, { serial: "late" });
  assert.equal(written.procedures["pinion-height-and-backlash"].revision, 4);
  await close();

  const other = await device();
  const there = await other.open();
  assert.match(await take(there, file), /Taken in: 2 new entries for serial 4711/);
  assert.deepEqual(await ticks(there), [NUT]);
  assert.match(await take(there, file), /Taken in: 0 new entries/);
  await other.close();
});

test("a STOP answered on another phone is answered on this one once its record is read in", async () => {
  const START = "tarn-18/first-start-sheet-E.html";
  const behind = "thermostat/fit:thermostat-gasket/1";
  const started = async () => {
    const own = await device();
    const page = await own.open(START);
    await begin(page, "4711", "Ann");
    return { ...own, page };
  };
  const one = await started();
  await one.page.locator(".mark-close .hold").first().press("Enter");
  const answered = await record(one.page);
  await button(one.page, behind).press("Enter");
  const worked = await record(one.page);
  await one.close();

  // Asked here before the record comes in, told as answered behind it: by whom, and the line can be ticked.
  const two = await started();
  await button(two.page, behind).press("Enter");
  assert.match(await row(two.page, behind).locator(".tick-state").innerText(), /^Not yet: nobody has answered the STOP/);
  assert.match(await take(two.page, fileWith(answered)), /Taken in: 1 new entries/);
  await two.page.getByRole("button", { name: "Close", exact: true }).click();
  assert.match(await two.page.locator(".mark-close .tick-state").first().innerText(), /^Signed .* · Ann$/);
  await button(two.page, behind).press("Enter");
  assert.match(await row(two.page, behind).locator(".tick-state").innerText(), /^Done/);
  await two.close();

  // A record from before answers were kept: work went on behind the STOP there, so it was answered there, and only then.
  const { stops, ...older } = worked.procedures["first-start"];
  assert.equal(stops.length, 1);
  const three = await started();
  assert.match(await take(three.page, fileWith({ ...worked, procedures: { "first-start": older } })), /Taken in: 1 new entries/);
  await three.page.getByRole("button", { name: "Close", exact: true }).click();
  await button(three.page, "thermostat/fit:thermostat-cover/1").press("Enter");
  assert.match(await row(three.page, "thermostat/fit:thermostat-cover/1").locator(".tick-state").innerText(), /^Done/);
  await three.close();
});

/** Imports a file, and gives what is said of it. */
async function take(page, file) {
  if ((await page.locator("dialog").count()) === 0) await page.click(".bench-status:not(.bench-soonest)");
  const state = page.locator(".import-state");
  await page.locator('dialog input[type="file"]').setInputFiles([]);
  await state.evaluate((element) => (element.textContent = ""));
  await page.locator('dialog input[type="file"]').setInputFiles(file);
  await page.waitForFunction(() => document.querySelector(".import-state").textContent !== "");
  return state.innerText();
}

function fileWith(value) {
  const file = join(temporaryFolder(), "record.json");
  writeFileSync(file, typeof value === "string" ? value : JSON.stringify(value));
  return file;
}

const AT = "2026-09-14T18:02:00Z";
function made(procedure = {}, more = {}) {
  return {
    format: "benchleaf-build/1", manual: "Sallow Reach workshop manual", machine: "tarn-18", serial: "4711", variant: { serial: "late" }, people: [], begun: AT, saved: AT,
    procedures: { "pinion-height-and-backlash": { revision: 4, begun: AT, finished: null, ticks: [], readings: [], signatures: [], ...procedure } }, deviations: [], open: [], ...more,
  };
}

test("hostile and damaged records are told and change nothing", async () => {
  const { page, close } = await bench();
  await sign(page, WATCHED);
  await button(page, NUT).press("Enter");
  const own = await record(page);
  for (const [value, said] of [
    ["not json", /not a build record/], [{ format: "benchleaf-build/9" }, /form that this page does not know \(benchleaf-build\/9\)/],
    [made({ ticks: [{ step: "<img src=x onerror=alert(1)>", act: 5, number: 1, at: AT }] }), /not in order at procedures\.pinion-height-and-backlash\.ticks\[0\]\.act/],
    [JSON.stringify(made()).replace('"pinion-height-and-backlash"', '"__proto__"'), /not in order at procedures/], ["x".repeat(1_000_001), /larger than any build record/],
  ]) assert.match(await take(page, fileWith(value)), said);
  assert.deepEqual(await record(page), own);
  // Well formed and hostile: every text of it stays text.
  const evil = "<img src=x onerror=globalThis.evil=1>";
  const taken = made(
    { ticks: [{ step: "tighten", act: "mark:pinion-nut", number: 1, at: AT, by: evil }, { step: evil, act: evil, number: 1, value: evil, at: AT, by: evil }], signatures: [{ step: "tighten", act: "hold:editor", by: evil, at: AT }] },
    { people: [evil], deviations: [{ procedure: "pinion-height-and-backlash", step: "tighten", of: evil, what: evil, because: evil, by: evil, at: AT }] },
  );
  assert.match(await take(page, fileWith(taken)), /Taken in: 4 new entries/);
  await page.getByRole("button", { name: "Close" }).click();
  assert.match(await page.locator(".bench-notice").innerText(), /1 entries of this procedure belong to lines that are not on this sheet\. They are kept\./);
  assert.equal(await page.evaluate(() => document.querySelectorAll("img[src=x]").length + (globalThis.evil ?? 0)), 0);
  assert.match(await row(page, "tighten/mark:pinion-nut/1").locator(".tick-state").innerText(), /<img src=x/);
  assert.ok((await ticks(page)).includes(NUT), "its own ticks are still there");
  await close();
});

test("a record of another machine is kept for it, one of another variant is not worked from", async () => {
  const { page, close } = await bench();
  assert.match(await take(page, fileWith(made({}, { machine: "hb-2", serial: "7", manual: "Another" }))), /for machine hb-2, serial 7.*made with the manual Another/);
  assert.equal(await page.evaluate(() => globalThis.leaf.bench.serial), "4711");
  assert.match(await take(page, fileWith(made({}, { serial: "4100", variant: { serial: "early" } }))), /Taken in/);
  await page.getByRole("button", { name: "Close" }).click();
  assert.match(await page.locator(".bench-notice").innerText(), /record of serial 4100 is for serial early, this sheet is for serial late/);
  await button(page, NUT).press("Enter");
  assert.deepEqual(await ticks(page), []);
  await page.getByRole("button", { name: "Open the sheet for serial early" }).click();
  await page.waitForURL(/sheet-early/);
  await sign(page, WATCHED);
  await button(page, NUT).press("Enter");
  assert.deepEqual(await ticks(page), [NUT]);
  const there = await page.context().newPage();
  await there.goto(server.address + "hb-2/wet-brake-pack-sheet-stock.html").catch(() => {});
  assert.deepEqual(await there.evaluate(() => globalThis.leaf.bench.serials()), ["7"]);
  await close();
});

test("a serial number of another variant is told before anything is kept", async () => {
  const { open, close } = await device();
  const page = await open();
  await begin(page, "3900", "Ann");
  const dialog = page.locator("dialog.bench-dialog");
  assert.match(await dialog.getByRole("status").first().textContent(), /Serial 3900 is serial early \(≤ 4199\), and this sheet is for serial late\. Do not work from it/);
  assert.equal(await record(page), null);
  // Who presses again has looked at the plate; the sheet goes on saying it.
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.getByText(/Serial 3900 is serial early/).waitFor();
  await begin(page, "4711", "Ann");
  assert.equal(await page.getByText(/is serial early/).count(), 0);
  // A number with letters in it says nothing.
  await begin(page, "B 3900", "Ann");
  assert.equal(await page.getByText(/is serial early/).count(), 0);
  await close();
});

test("a value that changed since it was ticked is asked for again", async () => {
  const { page, close, context } = await bench();
  await sign(page, WATCHED);
  await button(page, NUT).press("Enter");
  await button(page, "tighten/mark:pinion-nut/1").press("Enter");
  const changed = edition([
    { file: "tarn-18/pinion-height-and-backlash.md", from: "late: 78 ± 4 N·m}", to: "late: 82 ± 4 N·m}" },
    { file: "tarn-18/pinion-height-and-backlash.md", from: "\nrevision: 4\n", to: "\nrevision: 5\n" },
  ], "--proof-copy");
  server.show(changed.folder);
  try {
    await page.reload();
    assert.match(await row(page, NUT).locator(".tick-state").innerText(), /Value changed: was 78 ± 4 N·m, now 82 ± 4 N·m\. Tick again\./);
    assert.match(await page.locator(".bench-notice").innerText(), /begun on revision 4; this sheet is revision 5/);
    assert.ok(await row(page, "tighten/mark:pinion-nut/1").evaluate((element) => element.classList.contains("ticked")));
    await page.getByRole("button", { name: "Seen" }).click();
    await button(page, "tighten/start:pinion-nut/1").press("Enter");
    assert.equal(await page.locator(".bench-notice").count(), 0, "what was seen is not said again");
    assert.equal((await record(page)).procedures["pinion-height-and-backlash"].revision, 4, "not of this revision before the value is ticked again");
    await button(page, NUT).press("Enter");
    const own = (await record(page)).procedures["pinion-height-and-backlash"];
    assert.equal(own.ticks.find(({ act }) => act === "torque:pinion-nut").value, "82 ± 4 N·m");
    assert.equal(own.revision, 5);
  } finally {
    server.show(site);
  }
  assert.equal((await context.pages()).length, 1);
  await close();
});

for (const [what, spoil] of [
  ["denied", () => Object.defineProperty(globalThis, "localStorage", { get: () => { throw new DOMException("no", "SecurityError"); } })],
  ["full", () => (Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); })],
]) {
  test(`storage that is ${what} is told, and the work goes on`, async () => {
    const own = await device();
    const page = await own.open(PINION, (fresh) => fresh.addInitScript(spoil));
    await begin(page, "4711", "Ann");
    await sign(page, WATCHED);
    await button(page, NUT).press("Enter");
    assert.deepEqual(await ticks(page), [NUT]);
    assert.match(await page.locator(".bench-notice").first().innerText(), /This device keeps nothing/);
    await page.click(".bench-status:not(.bench-soonest)");
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Export the record" }).click()]);
    assert.ok(download);
    await own.close();
  });
}

test("what the device holds and cannot read is put aside, not deleted", async () => {
  const { page, close } = await bench();
  await page.evaluate(() => localStorage.setItem(globalThis.leaf.bench.key("build"), '{"format": "benchleaf-build/1", "broken": true}'));
  await page.reload();
  assert.match(await page.locator(".bench-notice").first().innerText(), /put aside, not deleted/);
  await sign(page, WATCHED);
  await button(page, NUT).press("Enter");
  assert.deepEqual(await ticks(page), [NUT]);
  const aside = await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("leaf.aside:")).map((key) => localStorage.getItem(key)));
  assert.deepEqual(aside.map((text) => JSON.parse(text)), [{ format: "benchleaf-build/1", broken: true }]);
  await close();
});
