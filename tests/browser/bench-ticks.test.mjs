// The bench sheet on a phone: boxes held and ticked, STOP lines and hold points, times that run, deviations, what is finished.

import assert from "node:assert/strict";
import { test } from "node:test";
import { HELD, NUT, PINION, WATCHED, begin, bench, button, device, hold, record, row, sign, ticks } from "./phone.mjs";

test("a box is held to be ticked; a smear does nothing", async () => {
  const { page, close } = await bench();
  await sign(page, WATCHED);
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
  await sign(page, WATCHED);
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
  await sign(page, WATCHED);
  const other = await open();
  // Each in a process of its own may hear of the other late, and writes over it then: they know both once they have heard.
  await Promise.all([button(other, MARK).press("Enter"), button(page, NUT).press("Enter")]);
  for (const one of [page, other]) {
    await shown(one, 2);
    assert.deepEqual((await ticks(one)).sort(), [MARK, NUT]);
    assert.deepEqual(await stored(one), BOTH);
  }
  await close();
});

/** A page that can be deafened: it sees the record as it lies there then, and what others write to it waits to be heard. */
const deafened = (own) => own.open(PINION, (fresh) => fresh.addInitScript(() => {
  const { getItem } = Storage.prototype;
  const waiting = [];
  let isDeaf = false;
  // Here before the sheet's own listener.
  globalThis.addEventListener("storage", (event) => {
    if (!isDeaf) return;
    event.stopImmediatePropagation();
    waiting.push(event);
  });
  globalThis.deafen = () => {
    const key = globalThis.leaf.bench.key("build");
    const old = localStorage.getItem(key);
    isDeaf = true;
    Storage.prototype.getItem = function (name) {
      return name === key ? old : getItem.call(this, name);
    };
  };
  globalThis.seeAgain = () => (Storage.prototype.getItem = getItem);
  globalThis.unheard = () => waiting.length;
  globalThis.hearAgain = () => {
    isDeaf = false;
    for (const { key, newValue } of waiting) globalThis.dispatchEvent(new StorageEvent("storage", { key, newValue }));
    return waiting.length;
  };
}));
/** Lets a page hear what waits, once so much has reached it: another process may be slow to tell. */
const hear = async (page, least) => {
  await page.waitForFunction((wanted) => globalThis.unheard() >= wanted, least);
  return page.evaluate(() => globalThis.hearAgain());
};
const MARK = "tighten/mark:pinion-nut/1";
const stored = (page) => page.evaluate(() => JSON.parse(localStorage.getItem(globalThis.leaf.bench.key("build"))).procedures["pinion-height-and-backlash"].ticks.map(({ act }) => act).sort());
const BOTH = ["mark:pinion-nut", "torque:pinion-nut"];
const shown = (page, count) => page.waitForFunction((wanted) => document.querySelectorAll(".tick.ticked").length === wanted, count);

test("a tick that another page has written over is put back by the page that made it, and stays off once it is taken off", async () => {
  const { page, close, ...own } = await bench();
  await sign(page, WATCHED);
  const other = await deafened(own);
  await other.evaluate(() => globalThis.deafen());
  await button(page, NUT).press("Enter");
  await button(other, MARK).press("Enter");
  await other.evaluate(() => globalThis.seeAgain());
  await shown(page, 2);
  assert.deepEqual(await stored(page), BOTH);
  await hear(other, 2);
  await shown(other, 2);
  // Who takes it off has seen it: neither page puts it back.
  await button(other, NUT).press("Enter");
  await shown(page, 1);
  await button(page, "tighten/start:pinion-nut/1").press("Enter");
  await shown(other, 2);
  assert.deepEqual(await stored(page), ["mark:pinion-nut", "start:pinion-nut"]);
  assert.deepEqual(await stored(other), ["mark:pinion-nut", "start:pinion-nut"]);
  await close();
});

test("a page that has written over a tick puts it back when it hears of it, though the other page is gone", async () => {
  const { close, ...own } = await device();
  const [page, other] = [await deafened(own), await deafened(own)];
  await begin(page, "4711", "Ann");
  await sign(page, WATCHED);
  await other.reload();
  const { length } = (await record(page)).procedures["pinion-height-and-backlash"].signatures;
  await other.waitForFunction((wanted) => globalThis.leaf.bench.record?.procedures["pinion-height-and-backlash"]?.signatures.length === wanted, length);
  for (const one of [page, other]) await one.evaluate(() => globalThis.deafen());
  await button(page, NUT).press("Enter");
  await page.evaluate(() => globalThis.seeAgain());
  assert.deepEqual(await stored(page), ["torque:pinion-nut"]);
  await button(other, MARK).press("Enter");
  await other.evaluate(() => globalThis.seeAgain());
  assert.deepEqual(await stored(other), ["mark:pinion-nut"], "written over");
  await page.close();
  assert.equal(await hear(other, 1), 1);
  await shown(other, 2);
  assert.deepEqual(await stored(other), BOTH);
  // A page opened afterwards works on from there, and what goes out says nothing of it.
  const third = await own.open();
  await shown(third, 2);
  assert.ok(!("writings" in (await record(third))));
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
  // Nobody was there to sign in one step: the record says why.
  const step = page.locator('[data-step="backlash"]');
  await step.getByRole("button", { name: "Note a deviation" }).click();
  await page.getByLabel("What was done otherwise").fill("read by one person");
  await page.getByLabel("Why").fill("nobody else was there");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.locator('[data-act$="/fit:pinion-shim/1"] .reading input').fill("0.95");
  for (const one of await page.locator(".tick[data-act] > .hold").all()) await one.press("Enter");
  for (const hold of await page.locator(".mark-hold").all()) {
    if ((await hold.getAttribute("data-act")).startsWith("backlash/")) continue;
    await hold.locator("input").fill("Cy");
    await hold.locator(".hold").press("Enter");
  }
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
  await sign(page, WATCHED);
  await button(page, NUT).press("Enter");
  await begin(page, "4999", "Bo");
  assert.deepEqual(await ticks(page), []);
  await begin(page, "4711", "Bo");
  assert.deepEqual(await ticks(page), [NUT]);
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
  await sign(page);
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

test("no line behind an unsigned hold point is ticked, unless a deviation says why", async () => {
  const { page, close } = await bench();
  const said = async (act = NUT) => (await row(page, act).locator(".tick-state").innerText()).replaceAll("\u00a0", " ");
  const refused = /^Not yet: the hold point in step 4 \(.+\) is not signed: Second reader\. Have it signed there, then tick; or write a deviation/;
  await button(page, NUT).press("Enter");
  assert.match(await said(), refused);
  assert.deepEqual(await ticks(page), []);
  // What stands before it goes on, and so does signing what stands behind it.
  await button(page, "trial/remove:carrier/1").press("Enter");
  await sign(page, "tighten/hold:editor/1");
  assert.deepEqual(await ticks(page), ["trial/remove:carrier/1"]);
  assert.match(await said("tighten/hold:editor/1"), /^Signed /);
  // The first way on: it is signed. A signature taken back lets nothing more be ticked, and what is ticked be taken back.
  await sign(page, WATCHED);
  await button(page, NUT).press("Enter");
  assert.match(await said(), /^Done/);
  await row(page, WATCHED).locator(".hold").press("Enter");
  await button(page, NUT).press("Enter");
  assert.deepEqual(await ticks(page), ["trial/remove:carrier/1"]);
  await button(page, NUT).press("Enter");
  assert.match(await said(), refused);
  // The second: a deviation in the hold point's own step, or in that of the line, which answers for this step alone.
  const deviates = (step) => page.evaluate((id) => globalThis.leaf.bench.change((own, record, now) => {
    record.deviations = id === null ? [] : [{ procedure: "pinion-height-and-backlash", step: id, what: "read by one person", because: "nobody else was there", at: now }];
  }), step);
  await deviates("backlash");
  await button(page, NUT).press("Enter");
  assert.match(await said(), /^Done/);
  await button(page, NUT).press("Enter");
  await deviates("tighten");
  await button(page, NUT).press("Enter");
  assert.match(await said(), /^Done/);
  await button(page, "fit/clean:pinion-nut/1").press("Enter");
  assert.match(await said("fit/clean:pinion-nut/1"), refused);
  await deviates(null);
  // Of several the first that waits is named.
  const cure = "cure/begin:locker-cure/1";
  await sign(page, WATCHED);
  await button(page, cure).press("Enter");
  assert.match(await said(cure), /^Not yet: the hold point in step 7 \(.+\) is not signed: Second reader\./);
  await sign(page, "tighten/hold:second-reader/1");
  await button(page, cure).press("Enter");
  assert.match(await said(cure), /^Done/);
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
  // Who ticks the boxes of a tightening is at work: they wait for the hold points before the line, too.
  await boxes.first().press("Enter");
  assert.match(await line.locator(".tick-state").innerText(), /^Not yet: the hold point in step /);
  assert.equal(await line.locator(".grid .hold[aria-pressed=true]").count(), 0);
  await sign(page);
  await line.locator("> .hold").press("Enter");
  assert.match(await line.locator(".tick-state").innerText(), new RegExp(`${count} boxes of this line are still empty`));
  for (let at = 0; at < count; at += 1) await boxes.nth(at).press("Enter");
  await line.locator("> .hold").press("Enter");
  assert.match(await line.locator(".tick-state").innerText(), /^Done/);
  await page.reload();
  assert.equal(await line.locator(".grid .hold[aria-pressed=true]").count(), count);
  await own.close();
});
