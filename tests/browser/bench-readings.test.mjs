// The bench sheet on a phone: readings judged, shims and wrenches reckoned, units.

import assert from "node:assert/strict";
import { test } from "node:test";
import { NUT, PINION, WATCHED, begin, bench, button, device, hold, record, row, server, sign } from "./phone.mjs";
import { serve } from "./server.mjs";
import { edition } from "./site.mjs";

test("readings are judged in either unit, with point or comma", async () => {
  const { page, close } = await bench();
  const backlash = row(page, "backlash/measure:backlash/1");
  const fields = backlash.locator(".reading input");
  assert.equal(await fields.count(), 4);
  const write = async (at, text) => {
    await fields.nth(at).fill(text);
    await fields.nth(at).blur();
    return (await backlash.locator(".judgement").nth(at).innerText()).replaceAll("\u00a0", " ");
  };
  assert.match(await write(0, "0,20"), /read as 0\.20 mm; at the teeth 0\.156 mm: inside spec: 0\.12–0\.22 mm/);
  assert.match(await write(1, "0.010 in"), /inside spec/);
  assert.match(await write(2, "0.30"), /at the teeth 0\.233 mm: outside spec: .*Otherwise: change the shim and read/);
  assert.match(await write(3, "0.3.0"), /one number or two/);
  assert.match(await write(3, "5 N"), /N does not fit here/);
  assert.match(await write(3, "abc"), /This is no number/);
  assert.equal(await fields.nth(3).getAttribute("aria-invalid"), "true");
  const kept = (await record(page)).procedures["pinion-height-and-backlash"].readings;
  assert.deepEqual(kept.map(({ number, value }) => [number, value]), [[1, "0.20 mm"], [2, "0.010 in"], [3, "0.30 mm"]]);
  await sign(page, WATCHED);
  // What is not kept yet is not wiped away by what happens elsewhere on the page.
  await button(page, NUT).press("Enter");
  assert.equal(await fields.nth(3).inputValue(), "abc");
  await page.reload();
  assert.equal(await fields.nth(2).inputValue(), "0.30 mm");
  await write(2, "");
  assert.equal((await record(page)).procedures["pinion-height-and-backlash"].readings.length, 2);
  await close();
});

test("a line is not ticked over a reading that lies outside, and its tick says what is missing", async () => {
  const { page, close } = await bench();
  const line = row(page, "rebuild/measure:pinion-height/1");
  const state = async () => (await line.locator(".tick-state").innerText()).replaceAll("\u00a0", " ");
  const isMarked = () => line.evaluate((element) => element.classList.contains("doubtful"));
  const write = async (at, text) => {
    await line.locator(".reading input").nth(at).fill(text);
    await line.locator(".reading input").nth(at).blur();
  };
  const press = () => line.locator("> .hold").press("Enter");
  await write(0, "0.50");
  await press();
  assert.match(await state(), /^Not yet, this lies outside: Reading 1\. Put it right and read again, or write a deviation/);
  assert.deepEqual((await record(page)).procedures["pinion-height-and-backlash"].ticks, []);
  // With none written it is ticked, and says so: some write on paper.
  await write(0, "");
  await press();
  assert.match(await state(), /^Done .* · Ann · no reading written$/);
  assert.equal(await isMarked(), true);
  await write(0, "0.64");
  assert.match(await state(), /· not written: Reading 2, Reading 3$/);
  await write(1, "0.62");
  await write(2, "0.66");
  assert.match(await state(), /^Done .* · Ann$/);
  assert.equal(await isMarked(), false);
  // A reading put in behind the tick: the tick stays, its line is open again until a deviation answers for it.
  const open = () => page.evaluate(() => globalThis.leaf.bench.progress().open.map((one) => one.dataset.act).includes("rebuild/measure:pinion-height/1"));
  assert.equal(await open(), false);
  await write(2, "0.67");
  assert.match(await state(), /· outside: Reading 3$/);
  assert.deepEqual([await isMarked(), await open()], [true, true]);
  await page.reload();
  assert.equal(await isMarked(), true);
  await page.evaluate(() => globalThis.leaf.bench.change((own, kept, now) => kept.deviations.push({ procedure: "pinion-height-and-backlash", step: "rebuild", what: "0.67 mm", because: "no thinner shim", at: now })));
  assert.equal(await isMarked(), false);
  await press();
  await press();
  assert.match(await state(), /^Done .* · outside: Reading 3$/);
  await close();
});

test("what only chooses a shim is neither in nor out, and readings bear the names of their places", async () => {
  const { page, close } = await bench();
  await page.goto(`${server.address}tarn-18/head-valves-camshaft-sheet.html`);
  const gap = row(page, "gaps/measure:upper-inlet-gap/1");
  // The worked example of the page: with the trial shim in, this is what is read, and no fault.
  await gap.locator(".reading input").fill("0.26");
  await gap.locator(".reading input").blur();
  assert.match(await gap.locator(".judgement").first().innerText(), /kept for choosing the shim/);
  assert.match((await gap.innerText()).replaceAll("\u00a0", " "), /with the new shim\s+0\.18–0\.24 mm/);
  const again = row(page, "gaps-again/measure:inlet-gap/1");
  assert.deepEqual(await again.locator(".reading-name").allInnerTexts(), ["upper", "lower"]);
  await again.locator(".reading input").nth(1).fill("0.26");
  await again.locator(".reading input").nth(1).blur();
  assert.match(await again.locator(".judgement").nth(1).innerText(), /outside spec/);
  await close();
});

test("what a test shows has a field of its own, and a STOP line is answered by name", async () => {
  const { page, close } = await bench();
  await page.goto(`${server.address}tarn-18/first-start-sheet-E.html`);
  const lamp = row(page, "lamp/test:lamp-check/1");
  const fields = lamp.locator(".reading input");
  // The speed is what the test is run at; what it shows is the advance.
  assert.equal(await fields.count(), 1);
  assert.equal(await lamp.locator(".reading-name").innerText(), "advance");
  const write = async (text) => {
    await fields.fill(text);
    await fields.blur();
    return (await lamp.locator(".judgement").innerText()).replaceAll("\u00a0", " ");
  };
  assert.match(await write("5,5"), /inside spec/);
  assert.match(await write("7°"), /outside spec: .*Otherwise: stop the engine/);
  const { readings } = (await record(page)).procedures["first-start"];
  assert.deepEqual(readings.map(({ step, act, number, value }) => [step, act, number, value]), [["lamp", "test:lamp-check", 1, "7°"]]);
  // STOP lines name lines by their numbers, so that these are in sight on a phone, too.
  assert.equal(await lamp.locator(".tick-number").innerText(), "9.3");
  assert.ok((await lamp.locator(".tick-number").boundingBox()).height > 8);
  const stop = page.locator(".mark-close").first();
  // What stands behind it waits until it is answered, or until its step says why not.
  const behind = page.locator(".mark-close ~ .tick, .keep:has(.mark-close) ~ .keep .tick").first();
  await behind.locator("> .hold").press("Enter");
  assert.match(await behind.locator(".tick-state").innerText(), /^Not yet: nobody has answered the STOP before this line \(.+\)\. Look, then tick there/);
  assert.ok(!(await behind.getAttribute("class")).includes("ticked"));
  await stop.locator(".hold").click();
  assert.equal(await stop.locator(".tick-state").innerText(), "Nothing changed: hold it for half a second.");
  await hold(page, stop.locator(".hold"));
  await behind.locator("> .hold").press("Enter");
  assert.match(await behind.locator(".tick-state").innerText(), /^Done/);
  await behind.locator("> .hold").press("Enter");
  assert.match(await stop.locator(".tick-state").innerText(), /Ann/);
  await page.reload();
  assert.match(await stop.locator(".tick-state").innerText(), /Ann/);
  await hold(page, stop.locator(".hold"));
  assert.equal(await stop.locator(".tick-state").innerText(), "");
  // Answered is what was asked: where something else is to be looked for, it is asked again.
  await hold(page, stop.locator(".hold"));
  const { stops } = (await record(page)).procedures["first-start"];
  assert.deepEqual(stops.map(({ step, act, number, by }) => [step, act, number, by]), [["thermostat", "fit:thermostat-gasket", 1, "Ann"]]);
  assert.match(stops[0].value, /^STOP Before it is closed: Thermostat cover Thermostat \(line 1\.3\)$/);
  await page.evaluate(() => globalThis.leaf.bench.change((own) => (own.stops[0].value = "STOP Before it is closed: Thermostat cover Gasket (line 1.3)")));
  assert.equal(await stop.locator(".tick-state").innerText(), "");
  await close();
});

test("a reading written before the serial number is kept once that is known", async () => {
  const own = await device();
  const page = await own.open();
  const field = row(page, "gap/measure:pinion-depth/1").locator(".reading input").first();
  await field.fill("0.71");
  await field.blur();
  await page.getByLabel("Serial number of the machine").fill("4711");
  await page.getByLabel("Your name").fill("Ann");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.waitForFunction(() => globalThis.leaf.bench.record?.procedures["pinion-height-and-backlash"]?.readings.length === 1);
  await own.close();
});

test("the shim is reckoned from the readings, the formula in sight", async () => {
  const { page, close } = await bench();
  const gap = row(page, "gap/measure:pinion-depth/1");
  for (const [at, text] of ["0.70", "0.71", "0.74"].entries()) {
    await gap.locator(".reading input").nth(at).fill(text);
    await gap.locator(".reading input").nth(at).blur();
  }
  await gap.locator("summary").click();
  await gap.locator(".reckoned p").first().waitFor();
  const said = (await gap.locator(".reckoned").innerText()).replaceAll("\u00a0", " ");
  // The worked example of the procedure itself: a reading of 0.71 mm gives 0.95 mm.
  assert.match(said, /0\.90 mm \+ Reading 0\.71 mm − Target 0\.64 mm = 0\.97 mm/);
  assert.match(said, /0\.95 mm gives 0\.66 mm\n/);
  assert.match(said, /1\.00 mm gives 0\.61 mm: not accepted/);
  assert.match(said, /Take 0\.95 mm\./);
  await close();
});

test("the shim that goes in is measured, kept and held against the readings", async () => {
  const { page, close } = await bench();
  await sign(page, WATCHED);
  const fit = page.locator('[data-act$="/fit:pinion-shim/1"]');
  const said = async () => (await fit.locator(".judgement").innerText()).replaceAll("\u00a0", " ");
  const write = async (field, text) => {
    await field.fill(text);
    await field.blur();
  };
  await fit.locator("> .hold").press("Enter");
  assert.match(await fit.locator(".tick-state").innerText(), /^Measure the shim that goes in and write its thickness, then tick/);
  await write(fit.locator(".reading input"), "1,05");
  assert.match(await said(), /^Not held against the readings: Reading is missing/);
  for (const [at, text] of ["0.70", "0.71", "0.74"].entries()) await write(row(page, "gap/measure:pinion-depth/1").locator(".reading input").nth(at), text);
  // The worked example of the procedure: a reading of 0.71 mm asks for 0.97 mm, and 0.95 mm leaves 0.66 mm.
  assert.match(await said(), /^Not the shim that the readings ask for: 0\.97 mm is reckoned\. Take 0\.95 mm/);
  await fit.locator("> .hold").press("Enter");
  const kept = async () => (await record(page)).procedures["pinion-height-and-backlash"].ticks.map(({ act, value }) => [act, value]);
  assert.deepEqual(await kept(), [["fit:pinion-shim", "1.05 mm"]]);
  await page.reload();
  assert.match(await fit.locator(".tick-state").innerText(), /^Done/);
  assert.equal(await fit.locator(".reading input").inputValue(), "1.05 mm");
  await write(fit.locator(".reading input"), "0.95");
  assert.match(await said(), /^0\.95 mm gives 0\.66 mm: accepted; 0\.97 mm is reckoned/);
  assert.deepEqual(await kept(), [["fit:pinion-shim", "0.95 mm"]]);
  // Another trial shim lay in place at the reading: the sum is taken from that one.
  const trial = row(page, "trial/dry-fit:pinion-shim/1");
  await write(trial.locator(".reading input"), "0.95");
  await trial.locator("> .hold").press("Enter");
  assert.match(await said(), /^Not the shim that the readings ask for: 1\.02 mm is reckoned\. Take 1\.00 mm/);
  await close();
});

test("a shim that is not in the box is refused, and a trial shim that is only written down is reckoned with", async () => {
  const { page, close } = await bench();
  await sign(page, WATCHED);
  const fit = page.locator('[data-act$="/fit:pinion-shim/1"]');
  const trial = row(page, "trial/dry-fit:pinion-shim/1");
  const said = async (line) => (await line.locator(".judgement").innerText()).replaceAll("\u00a0", " ");
  const write = async (field, text) => {
    await field.fill(text);
    await field.blur();
  };
  for (const [at, text] of ["0.64", "0.66", "0.62"].entries()) await write(row(page, "gap/measure:pinion-depth/1").locator(".reading input").nth(at), text);
  // Old + reading − target with the shim that is written, ticked or not: 1.00 + 0.64 − 0.64.
  await write(fit.locator(".reading input"), "0.95");
  assert.match(await said(fit), /0\.90 mm is reckoned/);
  await write(trial.locator(".reading input"), "1.00");
  assert.match(await said(fit), /1\.00 mm is reckoned\. Take 1\.00 mm/);
  // The series runs from 0.90 to 1.10 mm by 0.05 mm: half a step beside it is a shim measured, more is none.
  for (const [text, isIn] of [["0.88", true], ["0.87", false], ["1.12", true], ["1.13", false]]) {
    await write(fit.locator(".reading input"), text);
    assert.equal(/is not in the box/.test(await said(fit)), !isIn, text);
  }
  await write(trial.locator(".reading input"), "9.0");
  assert.match(await said(trial), /^9\.00 mm is not in the box \(0\.90–1\.10 mm\)\. Measure again, or write a deviation/);
  await trial.locator("> .hold").press("Enter");
  assert.match((await trial.locator(".tick-state").innerText()).replaceAll("\u00a0", " "), /^9\.00 mm is not in the box/);
  // From what is no shim nothing is reckoned, and 9.00 mm are not accepted because they come out even.
  await write(fit.locator(".reading input"), "9.0");
  assert.match(await said(fit), /^9\.00 mm is not in the box/);
  await write(fit.locator(".reading input"), "0.95");
  assert.match(await said(fit), /^Not held against the readings: Shim in place at the reading is missing/);
  await fit.locator("> .hold").press("Enter");
  await write(fit.locator(".reading input"), "1.30");
  assert.match(await said(fit), /^1\.30 mm is not in the box/);
  assert.deepEqual((await record(page)).procedures["pinion-height-and-backlash"].ticks.map(({ act }) => act), ["fit:pinion-shim"]);
  // A deviation says why it is so: then it is ticked, and reckoned with.
  await page.evaluate(() => globalThis.leaf.bench.change((own, kept, now) => kept.deviations.push({ procedure: "pinion-height-and-backlash", step: "trial", what: "a shim of another box", because: "none was left", at: now })));
  await trial.locator("> .hold").press("Enter");
  assert.match(await trial.locator(".tick-state").innerText(), /^Done/);
  await write(fit.locator(".reading input"), "0.95");
  assert.match(await said(fit), /9\.00 mm is reckoned/);
  await close();
});

test("of two trial shims the last before the reading is the one that lay in place", async () => {
  const read = "[Read the gap between bar and pinion](measure:pinion-depth)";
  const two = edition([{ file: "tarn-18/pinion-height-and-backlash.md", from: read, to: `[Lay another trial shim in](dry-fit:pinion-shim). ${read}` }], "--proof-copy");
  const other = await serve(two.folder);
  const own = await device();
  const page = await own.open(PINION, (fresh) => fresh.route(`${server.address}**`, async (route) => route.fulfill({ response: await route.fetch({ url: route.request().url().replace(server.address, other.address) }) })));
  await begin(page, "4711", "Ann");
  const write = async (field, text) => {
    await field.fill(text);
    await field.blur();
  };
  const fit = page.locator('[data-act$="/fit:pinion-shim/1"]');
  const said = async () => (await fit.locator(".judgement").innerText()).replaceAll("\u00a0", " ");
  for (const [at, text] of ["0.70", "0.71", "0.74"].entries()) await write(row(page, "gap/measure:pinion-depth/1").locator(".reading input").nth(at), text);
  await write(fit.locator(".reading input"), "0.95");
  // Old + reading − target: 0.90 + 0.71 − 0.64 = 0.97 with the shim of the list, 1.00 + 0.71 − 0.64 = 1.07 with the first trial
  // alone, 0.95 + 0.71 − 0.64 = 1.02 once the second is ticked, too.
  assert.match(await said(), /0\.97 mm is reckoned/);
  for (const [act, size, sum] of [["trial/dry-fit:pinion-shim/1", "1.00", "1.07"], ["gap/dry-fit:pinion-shim/1", "0.95", "1.02"]]) {
    await write(row(page, act).locator(".reading input"), size);
    await row(page, act).locator("> .hold").press("Enter");
    assert.match(await said(), new RegExp(`${sum.replace(".", "\\.")} mm is reckoned`), act);
  }
  // In whichever order they were ticked: what lay in place at the reading is a matter of the lines.
  await row(page, "trial/dry-fit:pinion-shim/1").locator("> .hold").press("Enter");
  await row(page, "trial/dry-fit:pinion-shim/1").locator("> .hold").press("Enter");
  assert.match(await said(), /1\.02 mm is reckoned/);
  await own.close();
  await other.close();
});

test("the thickness of a shim that is ticked as fitted is put right, never taken away", async () => {
  const { page, close } = await bench();
  await sign(page, WATCHED);
  const fit = page.locator('[data-act$="/fit:pinion-shim/1"]');
  const field = fit.locator(".reading input");
  const kept = async () => (await record(page)).procedures["pinion-height-and-backlash"].ticks.map(({ act, value }) => [act, value]);
  await field.fill("0.95");
  await field.blur();
  await fit.locator("> .hold").press("Enter");
  assert.deepEqual(await kept(), [["fit:pinion-shim", "0.95 mm"]]);
  await field.fill("");
  await field.blur();
  assert.deepEqual(await kept(), [["fit:pinion-shim", "0.95 mm"]]);
  assert.equal((await page.reload(), await field.inputValue()), "0.95 mm");
  // A trial shim may go without: its thickness is taken back, its tick stays.
  const trial = row(page, "trial/dry-fit:pinion-shim/1");
  await trial.locator(".reading input").fill("1.00");
  await trial.locator(".reading input").blur();
  await trial.locator("> .hold").press("Enter");
  assert.deepEqual((await kept()).at(-1), ["dry-fit:pinion-shim", "1.00 mm"]);
  await trial.locator(".reading input").fill("");
  await trial.locator(".reading input").blur();
  assert.deepEqual((await kept()).at(-1), ["dry-fit:pinion-shim", undefined]);
  await close();
});

test("my wrenches tell what to set, and warn where none fits", async () => {
  const { page, close } = await bench();
  const advice = row(page, NUT).locator(".wrench-advice");
  assert.equal(await advice.innerText(), "");
  const add = async (name, low, high, unit, length = "") => {
    await page.click(".bench-status:not(.bench-soonest)");
    await page.getByLabel("Name", { exact: true }).fill(name);
    await page.getByLabel("Scale from").fill(low);
    await page.getByLabel("Scale to").fill(high);
    await page.getByLabel("Unit of the scale").selectOption(unit);
    await page.getByLabel("Length in mm, middle of the grip to the square (for adapters)").fill(length);
    await page.getByRole("button", { name: "Add this wrench" }).click();
    await page.getByRole("button", { name: "Close" }).click();
  };
  await add("Small", "5", "25", "N·m");
  assert.match(await advice.innerText(), /None of your wrenches can be trusted at 78 ± 4 N·m/);
  await add("Half inch", "20,5", "110", "lbf·ft", "460");
  assert.equal((await advice.innerText()).replaceAll("\u00a0", " "), "Yours: Half inch, set 57.5 lbf·ft");
  await page.reload();
  await row(page, NUT).locator("summary").click();
  const fields = row(page, NUT).locator(".reckon-field input");
  assert.equal(await fields.nth(1).inputValue(), "460 mm");
  await fields.nth(2).fill("45");
  // 78·460/(460 + 45) = 71.05; FAA AC 43.13-1B, ch. 7: T·L/(L + E).
  assert.match((await row(page, NUT).locator(".reckoned").innerText()).replaceAll("\u00a0", " "), /Set 71\.0 N·m: T × L ÷ \(L \+ E × cos θ\) = 78\.0 N·m × 460 mm ÷ \(460 mm \+ 45 mm × cos 0°\)|Set 71\.1 N·m/);
  await close();
});

test("the unit shown first is chosen and remembered, and paper keeps what was published", async () => {
  const { page, close } = await bench();
  const value = row(page, NUT).locator(".tick-values .figure");
  const text = async () => (await value.innerText()).replaceAll("\u00a0", " ");
  assert.equal(await text(), "57.5 lbf·ft (54.6–60.4)");
  await page.evaluate(() => globalThis.leaf.bench.set({ units: "metric" }));
  assert.equal(await text(), "78 ± 4 N·m");
  await page.reload();
  assert.equal(await text(), "78 ± 4 N·m");
  await page.evaluate(() => globalThis.dispatchEvent(new Event("beforeprint")));
  assert.equal(await text(), "57.5 lbf·ft (54.6–60.4)");
  await close();
});
