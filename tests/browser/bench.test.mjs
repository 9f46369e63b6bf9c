// The bench sheet on a phone: ticks, readings, times, the record out and in, and what happens when things go wrong.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser } from "./browser.mjs";
import { serve } from "./server.mjs";
import { edition, site, temporaryFolder } from "./site.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const PINION = "tarn-18/pinion-height-and-backlash-sheet-late.html";
const PHONE = { viewport: { width: 360, height: 740 } };
const HELD = 700;

let browser, server;
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

/** A device of its own: nothing kept on it, and every complaint of its pages noted. */
async function device(options = {}) {
  const context = await browser.newContext({ ...PHONE, serviceWorkers: "block", locale: "en-GB", acceptDownloads: true, ...options });
  const faults = [];
  const open = async (name = PINION, prepare = () => {}) => {
    const page = await context.newPage();
    page.on("console", (message) => ["error", "warning"].includes(message.type()) && faults.push(message.text()));
    page.on("pageerror", (error) => faults.push(error.message));
    await prepare(page);
    await page.goto(server.address + name);
    return page;
  };
  const close = async () => {
    await context.close();
    assert.deepEqual(faults.filter((fault) => !/Service ?Worker/i.test(fault)), []);
  };
  return { open, close, context };
}

/** A device with a build begun on it. */
async function bench(serial = "4711", who = "Ann", options = {}) {
  const own = await device(options);
  const page = await own.open();
  await begin(page, serial, who);
  return { ...own, page };
}

async function begin(page, serial, who) {
  await page.click(".bench-status:not(.bench-soonest)");
  await page.getByLabel("Serial number of the machine").fill(serial);
  await page.getByLabel("Your name").fill(who);
  await page.getByRole("button", { name: "Keep", exact: true }).click();
}

const row = (page, act) => page.locator(`[data-act="${act}"]`);
const button = (page, act) => row(page, act).locator("> .hold");
const record = (page) => page.evaluate(() => globalThis.leaf.bench.record);
const ticks = async (page) => ((await record(page))?.procedures["pinion-height-and-backlash"]?.ticks ?? []).map(({ step, act, number }) => `${step}/${act}/${number}`);

async function hold(page, target, time = HELD) {
  await target.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  const { x, y, width, height } = await target.boundingBox();
  await page.mouse.move(x + width / 2, y + height / 2);
  await page.mouse.down();
  await page.waitForTimeout(time);
  await page.mouse.up();
}

const NUT = "tighten/torque:pinion-nut/1";

test("a box is held to be ticked; a smear does nothing", async () => {
  const { page, close } = await bench();
  await hold(page, button(page, NUT), 150);
  assert.equal(await row(page, NUT).locator(".tick-state").innerText(), "Nothing changed: hold it for half a second.");
  await button(page, NUT).click();
  assert.deepEqual(await ticks(page), []);
  await page.mouse.move(0, 0);
  await hold(page, button(page, NUT));
  assert.deepEqual(await ticks(page), [NUT]);
  const [tick] = (await record(page)).procedures["pinion-height-and-backlash"].ticks;
  assert.equal(tick.value, "78 ± 4 N·m");
  assert.equal(tick.by, "Ann");
  assert.ok(Math.abs(Date.parse(tick.at) - Date.now()) < 60_000);
  assert.match(await row(page, NUT).locator(".tick-state").innerText(), /^Done .* · Ann$/);
  // A finger that slides off is a smear too.
  const other = button(page, "tighten/mark:pinion-nut/1");
  await other.scrollIntoViewIfNeeded();
  const { x, y } = await other.boundingBox();
  await page.mouse.move(x + 20, y + 20);
  await page.mouse.down();
  await page.mouse.move(x + 20, y - 60);
  await page.waitForTimeout(HELD);
  await page.mouse.up();
  assert.deepEqual(await ticks(page), [NUT]);
  await page.reload();
  assert.deepEqual(await ticks(page), [NUT]);
  assert.ok(await row(page, NUT).evaluate((element) => element.classList.contains("ticked")));
  await hold(page, button(page, NUT));
  assert.deepEqual(await ticks(page), []);
  await close();
});

test("keys and assistive technology tick at once, and a plain tap where that is chosen", async () => {
  const { page, close } = await bench();
  await button(page, NUT).focus();
  await page.keyboard.press("Enter");
  assert.deepEqual(await ticks(page), [NUT]);
  await page.keyboard.press("Space");
  assert.deepEqual(await ticks(page), []);
  // A click that no pointer made is what a screen reader sends.
  await button(page, NUT).evaluate((element) => element.click());
  assert.deepEqual(await ticks(page), [NUT]);
  await page.evaluate(() => globalThis.leaf.bench.set({ tap: true }));
  await button(page, NUT).click();
  assert.deepEqual(await ticks(page), []);
  await close();
});

test("nothing is ticked before it is known whose machine it is", async () => {
  const own = await device();
  const page = await own.open();
  await hold(page, button(page, NUT));
  assert.match(await page.locator("dialog").innerText(), /Nothing was ticked\. Enter the serial number and your name first\./);
  assert.equal(await record(page), null);
  await own.close();
});

test("two pages of one machine write to one record", async () => {
  const { page, open, close } = await bench();
  const other = await open();
  await button(other, "tighten/mark:pinion-nut/1").press("Enter");
  await button(page, NUT).press("Enter");
  assert.deepEqual(await ticks(page), ["tighten/mark:pinion-nut/1", NUT]);
  await page.waitForFunction(() => document.querySelectorAll(".tick.ticked").length === 2);
  await other.waitForFunction(() => document.querySelectorAll(".tick.ticked").length === 2);
  await close();
});

test("a procedure is finished once every line is done or answered for", async () => {
  const { page, close } = await bench();
  await page.click(".bench-status:not(.bench-soonest)");
  await page.getByRole("button", { name: "Finish this procedure" }).click();
  assert.match(await page.locator("dialog").innerText(), /\d+ lines are not done yet/);
  await page.getByRole("button", { name: "Close" }).click();
  // Nobody waits a day here, and the record says so.
  await page.evaluate(() => globalThis.leaf.bench.change((own, record, now) => record.deviations.push({ procedure: "pinion-height-and-backlash", step: "cure", what: "no wait", because: "a trial", at: now })));
  await page.locator('[data-act$="/fit:pinion-shim/1"] .reading input').fill("0.95");
  for (const one of await page.locator(".tick[data-act] > .hold").all()) await one.press("Enter");
  for (const hold of await page.locator(".mark-hold").all()) {
    // Nobody was there to sign in one step: the record says why.
    if ((await hold.getAttribute("data-act")).startsWith("backlash/")) continue;
    await hold.locator("input").fill("Cy");
    await hold.locator(".hold").press("Enter");
  }
  const step = page.locator('[data-step="backlash"]');
  await step.getByRole("button", { name: "Note a deviation" }).click();
  await page.getByLabel("What was done otherwise").fill("read by one person");
  await page.getByLabel("Why").fill("nobody else was there");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.click(".bench-status:not(.bench-soonest)");
  await page.getByRole("button", { name: "Finish this procedure" }).click();
  const own = async () => (await record(page)).procedures["pinion-height-and-backlash"];
  assert.match((await own()).finished, /^\d{4}-\d\d-\d\dT/);
  await page.getByRole("button", { name: "Close" }).click();
  // A tick taken back opens it again.
  await button(page, NUT).press("Enter");
  assert.equal((await own()).finished, null);
  await close();
});

test("what stays open is in the record, and leaves it where it is finished", async () => {
  const own = await device();
  const carrier = await own.open("tarn-18/propeller-shaft-carrier-sheet.html");
  await begin(carrier, "4711", "Ann");
  await carrier.locator(".tick[data-act] > .hold").first().press("Enter");
  const open = (page) => page.evaluate(() => globalThis.leaf.bench.record.open);
  assert.deepEqual(await open(carrier), [{ item: "carrier", procedure: "propeller-shaft-carrier", left: "dry-fitted" }]);
  const close = await own.open("tarn-18/close-gearcase-sheet-L-salt.html");
  await close.evaluate(() => globalThis.leaf.bench.change((procedure, record, now) => (procedure.finished = now)));
  assert.deepEqual((await open(close)).filter(({ item }) => item === "carrier"), []);
  await own.close();
});

test("each machine has a record of its own", async () => {
  const { page, close } = await bench("4711");
  await button(page, NUT).press("Enter");
  await begin(page, "4999", "Bo");
  assert.deepEqual(await ticks(page), []);
  await begin(page, "4711", "Bo");
  assert.deepEqual(await ticks(page), [NUT]);
  await close();
});

test("targets are large enough for a glove at 360 pixels", async () => {
  const { page, close } = await bench();
  for (const one of [false, true]) {
    await page.evaluate((oneStep) => globalThis.leaf.bench.set({ oneStep }), one);
    const small = await page.evaluate(tooSmall, 48);
    assert.deepEqual(small, []);
    for (const move of await page.locator(".bench-move").all()) {
      const box = await move.boundingBox();
      assert.ok(box.height >= 64 && box.width >= 64 && box.y >= 370, JSON.stringify(box));
    }
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "the sheet is wider than the screen");
  }
  await page.click(".bench-status:not(.bench-soonest)");
  assert.deepEqual(await page.evaluate(tooSmall, 48), []);
  await close();
});

/** Runs in the page: what can be operated, but for links in running text, and is smaller than wanted. */
function tooSmall(least) {
  const shown = [...document.querySelectorAll("main button, main input, main select, main summary, .bench-bar button, dialog button, dialog input, dialog select, dialog label.bench-button")];
  return shown.filter((element) => element.checkVisibility() && !element.matches(".hidden")).flatMap((element) => {
    // A check box is operated by its whole label.
    const { width, height } = (element.type === "checkbox" ? element.closest("label") : element).getBoundingClientRect();
    return Math.min(width, height) >= least - 0.01 ? [] : [`${element.outerHTML.slice(0, 90)}: ${width} × ${height}`];
  });
}

test("one step a screen is remembered, and a number on paper leads to its step", async () => {
  const { page, close } = await bench();
  const shown = () => page.locator(".sheet-step:visible").evaluateAll((steps) => steps.map((step) => step.dataset.step));
  assert.ok((await shown()).length > 5);
  await page.click(".bench-where");
  assert.deepEqual(await shown(), []);
  await page.getByRole("button", { name: "Next" }).click();
  await page.getByRole("button", { name: "Next" }).click();
  assert.deepEqual(await shown(), ["gap"]);
  assert.ok(await page.locator(".standing-caution").isVisible());
  await page.reload();
  assert.deepEqual(await shown(), ["gap"]);
  await page.evaluate(() => (location.hash = "#page.step-7"));
  await page.locator('[data-step="tighten"]').waitFor();
  assert.deepEqual(await shown(), ["tighten"]);
  await page.getByRole("button", { name: "Back" }).click();
  assert.deepEqual(await shown(), ["fit"]);
  await close();
});

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
  // What is not kept yet is not wiped away by what happens elsewhere on the page.
  await button(page, NUT).press("Enter");
  assert.equal(await fields.nth(3).inputValue(), "abc");
  await page.reload();
  assert.equal(await fields.nth(2).inputValue(), "0.30 mm");
  await write(2, "");
  assert.equal((await record(page)).procedures["pinion-height-and-backlash"].readings.length, 2);
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
  // What lies on the device may be anything.
  await page.evaluate(() => {
    const { bench } = globalThis.leaf;
    const key = bench.key("marks", "first-start");
    const name = (part) => document.querySelector(".mark-close").querySelector(part).textContent.replace(/\s+/g, " ").trim();
    const items = [...document.querySelector(".mark-close").querySelectorAll(".close-item")].map((item) => item.textContent).join(", ");
    bench.write(key, { [`stop#${`${name("p")} ${items}`.slice(0, 200)}`]: "[1, {}]" });
    bench.tell();
  });
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

test("a time runs on while the page is closed, and a clock that jumps is told", async () => {
  const own = await device();
  const start = new Date("2026-09-14T18:00:00");
  const page = await own.open(PINION, (fresh) => fresh.clock.install({ time: start }));
  await begin(page, "4711", "Ann");
  const cure = row(page, "cure/begin:locker-cure/1");
  await cure.getByRole("button", { name: /^Start the time: Locker cures at the pinion nut, ≥ 24 h$/ }).click();
  assert.match(await cure.locator(".timer-state").innerText(), /1 d left, until .*18:00/);
  await page.clock.runFor(3_600_000 * 2);
  assert.match(await cure.locator(".timer-state").innerText(), /22 h left/);
  assert.equal(await page.locator(".bench-notice").count(), 0, "no clock has jumped yet");
  await page.reload();
  assert.match(await cure.locator(".timer-state").innerText(), /2[12] h/);
  assert.match(await page.locator(".bench-soonest").innerText(), /Locker cures at the pinion nut/);
  // Somebody sets the clock back by five hours: the end moves away, and that is not believed silently.
  await page.clock.setSystemTime(new Date("2026-09-14T15:00:00"));
  await page.clock.runFor(2000);
  assert.match(await page.locator(".bench-notice").innerText(), /clock went back by 5 h/);
  assert.match(await cure.locator(".timer-state").innerText(), /The clock changed while this time ran/);
  await page.getByRole("button", { name: "Seen" }).click();
  await page.clock.setSystemTime(new Date("2026-09-16T15:00:00"));
  await page.clock.runFor(2000);
  assert.match(await page.locator(".bench-notice").innerText(), /went forward by (2 d|1 d 23 h)/);
  assert.match(await cure.locator(".timer-state").innerText(), /over since/);
  await own.close();
});

test("a wait is not ticked before its time, unless a deviation says why", async () => {
  const own = await device();
  const page = await own.open(PINION, (fresh) => fresh.clock.install({ time: new Date("2026-09-14T18:00:00") }));
  await begin(page, "4711", "Ann");
  const over = row(page, "cure/wait:locker-cure/1");
  // The time is started when the work is done, and the line is ticked an hour later: the time runs from its start.
  const start = row(page, "cure/begin:locker-cure/1");
  await start.getByRole("button", { name: /^Start the time/ }).click();
  await page.clock.setSystemTime(new Date("2026-09-14T19:00:00"));
  await button(page, "cure/begin:locker-cure/1").press("Enter");
  assert.match(await start.locator(".tick-state").innerText(), /^Done .*18:00/);
  await page.clock.setSystemTime(new Date("2026-09-15T00:00:00"));
  await button(page, "cure/wait:locker-cure/1").press("Enter");
  // The demo's locker cures for at least 24 h; six of them have passed.
  assert.match(await over.locator(".tick-state").innerText(), /^Too early: 18 h left, until .*18:00/);
  assert.ok(!(await over.getAttribute("class")).includes("ticked"));
  await page.evaluate(() => globalThis.leaf.bench.change((kept, record, now) => record.deviations.push({ procedure: "pinion-height-and-backlash", step: "cure", what: "six hours", because: "warm bench", at: now })));
  await button(page, "cure/wait:locker-cure/1").press("Enter");
  assert.match(await over.locator(".tick-state").innerText(), /^Done/);
  await button(page, "cure/wait:locker-cure/1").press("Enter");
  await page.evaluate(() => globalThis.leaf.bench.change((kept, record) => (record.deviations = [])));
  await page.clock.setSystemTime(new Date("2026-09-15T18:01:00"));
  await button(page, "cure/wait:locker-cure/1").press("Enter");
  assert.match(await over.locator(".tick-state").innerText(), /^Done/);
  await own.close();
});

test("hold points are signed by name, and one name twice is told", async () => {
  const { page, close } = await bench();
  const editor = row(page, "tighten/hold:editor/1");
  await editor.locator(".hold").press("Enter");
  assert.match(await editor.locator(".tick-state").innerText(), /Write the name/);
  await editor.locator("input").fill("Cy <b>Bold</b>");
  await hold(page, editor.locator(".hold"));
  assert.match(await editor.locator(".tick-state").innerText(), /^Signed .* · Cy <b>Bold<\/b>$/);
  const { signatures } = (await record(page)).procedures["pinion-height-and-backlash"];
  assert.deepEqual(await ticks(page), []);
  assert.deepEqual(signatures.map(({ step, act, by }) => [step, act, by]), [["tighten", "hold:editor", "Cy <b>Bold</b>"]]);
  await close();
});

test("deviations are noted at their step and stay text", async () => {
  const { page, close } = await bench();
  const step = page.locator('[data-step="tighten"]');
  await step.getByRole("button", { name: "Note a deviation" }).click();
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  assert.match(await page.locator("dialog").innerText(), /Write what was done otherwise, and why/);
  await page.getByLabel("What it is about").selectOption("pinion-nut");
  await page.getByLabel("What was done otherwise").fill("<script>alert(1)</script>");
  await page.getByLabel("Why").fill("no new nut");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  assert.match(await step.locator(".deviation").innerText(), /Deviation, pinion-nut: <script>alert\(1\)<\/script> – no new nut \(Ann/);
  const [kept] = (await record(page)).deviations;
  assert.deepEqual([kept.procedure, kept.step, kept.of, kept.by], ["pinion-height-and-backlash", "tighten", "pinion-nut", "Ann"]);
  await close();
});

test("the record goes out as one file and comes in on another device", async () => {
  const { page, close } = await bench();
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
  assert.match(await take(there, file), /Taken in: 1 new entries for serial 4711/);
  assert.deepEqual(await ticks(there), [NUT]);
  assert.match(await take(there, file), /Taken in: 0 new entries/);
  await other.close();
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
  await button(page, NUT).press("Enter");
  assert.deepEqual(await ticks(page), [NUT]);
  const aside = await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("leaf.aside:")).map((key) => localStorage.getItem(key)));
  assert.deepEqual(aside.map((text) => JSON.parse(text)), [{ format: "benchleaf-build/1", broken: true }]);
  await close();
});

test("a line with a grid is ticked once all its boxes are", async () => {
  const own = await device();
  const name = "hb-2/cover-fill-load-test-sheet-E.html";
  const page = await own.open(name);
  await begin(page, "7", "Ann");
  const line = page.locator(".tick", { has: page.locator(".grid") }).first();
  const boxes = line.locator(".grid .hold");
  const count = await boxes.count();
  assert.ok(count >= 4);
  for (const stop of await page.locator(".mark-close .hold").all()) await stop.press("Enter");
  await line.locator("> .hold").press("Enter");
  assert.match(await line.locator(".tick-state").innerText(), new RegExp(`${count} boxes of this line are still empty`));
  for (let at = 0; at < count; at += 1) await boxes.nth(at).press("Enter");
  await line.locator("> .hold").press("Enter");
  assert.match(await line.locator(".tick-state").innerText(), /^Done/);
  await page.reload();
  assert.equal(await line.locator(".grid .hold[aria-pressed=true]").count(), count);
  await own.close();
});

test("paper shows all steps and empty boxes, ticks only where asked", async () => {
  const { page, close } = await bench();
  await button(page, NUT).press("Enter");
  await page.click(".bench-where");
  await page.emulateMedia({ media: "print" });
  const seen = () => page.evaluate(() => ({
    steps: [...document.querySelectorAll(".sheet-step")].filter((step) => step.checkVisibility()).length,
    extra: [...document.querySelectorAll(".hold, .bench-bar, .readings, .reckoner, .timer, .bench-step-foot")].filter((one) => one.checkVisibility()).length,
    boxes: [...document.querySelectorAll(".tick > .box")].every((box) => box.checkVisibility()),
    marks: [...document.querySelectorAll(".box")].filter((box) => getComputedStyle(box, "::after").content.includes("✓")).length,
  }));
  const steps = await page.locator(".sheet-step").count();
  assert.deepEqual(await seen(), { steps, extra: 0, boxes: true, marks: 0 });
  await page.evaluate(() => globalThis.leaf.bench.set({ printTicks: true }));
  assert.deepEqual(await seen(), { steps, extra: 0, boxes: true, marks: 1 });
  await close();
});

test("without script the sheet is as it is on paper", async () => {
  const own = await device({ javaScriptEnabled: false });
  const page = await own.open();
  assert.equal(await page.locator(".hold, .bench-bar").count(), 0);
  assert.ok(await page.locator(".tick > .box").first().isVisible());
  assert.ok(await page.locator(".stopped").isVisible());
  await own.close();
});

for (const colorScheme of ["light", "dark"]) {
  test(`the bench is accessible in ${colorScheme} colours`, async () => {
    const { page, close } = await bench("4711", "Ann", { colorScheme });
    await page.evaluate(AXE);
    await button(page, NUT).press("Enter");
    await row(page, "gap/measure:pinion-depth/1").locator("summary").click();
    for (const text of ["0.71", "abc"]) {
      const field = row(page, "gap/measure:pinion-depth/1").locator(".reading input").nth(text === "abc" ? 1 : 0);
      await field.fill(text);
      await field.blur();
    }
    await row(page, "cure/begin:locker-cure/1").getByRole("button").first().click();
    assert.deepEqual(await page.evaluate(check), [], "all steps");
    await page.evaluate(() => globalThis.leaf.bench.set({ oneStep: true }));
    assert.deepEqual(await page.evaluate(check), [], "one step");
    await page.click(".bench-status:not(.bench-soonest)");
    assert.deepEqual(await page.evaluate(check), [], "the dialog");
    await close();
  });
}

/** Runs in the page. */
async function check() {
  const runOnly = { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] };
  const { violations, passes } = await globalThis.axe.run(document, { runOnly, resultTypes: ["violations"] });
  if (passes.length === 0) return ["no rule looked at the page"];
  return violations.flatMap(({ id, help, nodes }) => nodes.map((node) => `${id}: ${help}: ${node.target.join(" ")}`));
}
