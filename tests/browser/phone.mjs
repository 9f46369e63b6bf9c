// A phone at the bench, for the tests of the sheet on a screen: a device of its own, a build begun on it, lines held and ticked.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import { openBrowser } from "./browser.mjs";
import { serve } from "./server.mjs";
import { site } from "./site.mjs";

export const PINION = "tarn-18/pinion-height-and-backlash-sheet-late.html";
export const NUT = "tighten/torque:pinion-nut/1";
/** The hold point before it. */
export const WATCHED = "backlash/hold:second-reader/1";
const PHONE = { viewport: { width: 360, height: 740 } };
/** Longer than the half second that a box is held. */
export const HELD = 700;

let browser;
/** Shows the published demo. */
export let server;
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

/** A device of its own: nothing kept on it, and every complaint of its pages noted. */
export async function device(options = {}) {
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
export async function bench(serial = "4711", who = "Ann", options = {}) {
  const own = await device(options);
  const page = await own.open();
  await begin(page, serial, who);
  return { ...own, page };
}

export async function begin(page, serial, who) {
  await page.click(".bench-status:not(.bench-soonest)");
  await page.getByLabel("Serial number of the machine").fill(serial);
  await page.getByLabel("Your name").fill(who);
  await page.getByRole("button", { name: "Keep", exact: true }).click();
}

export const row = (page, act) => page.locator(`[data-act="${act}"]`);
export const button = (page, act) => row(page, act).locator("> .hold");
export const record = (page) => page.evaluate(() => globalThis.leaf.bench.record);
export const ticks = async (page) => ((await record(page))?.procedures["pinion-height-and-backlash"]?.ticks ?? []).map(({ step, act, number }) => `${step}/${act}/${number}`);

/** Has hold points signed, those of the whole sheet where none are named, each signature by somebody else. */
export async function sign(page, ...acts) {
  const points = acts.length > 0 ? acts.map((act) => row(page, act)) : await page.locator('.mark-hold[data-act*="/hold:"]').all();
  for (const [at, point] of points.entries()) {
    for (const [nth, line] of (await point.locator(".sign-block").all()).entries()) {
      await line.locator("input").fill(`Reader ${at + 1}.${nth + 1}`);
      await line.locator(".hold").press("Enter");
    }
  }
}

/** Holds a button as long as told; without a time until the page has had enough, whose clock may lag behind this one. */
export async function hold(page, target, time) {
  await target.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  // Waits until the button stands still and nothing lies over it.
  await target.hover();
  await page.mouse.down();
  await page.waitForTimeout(time ?? HELD);
  if (time === undefined) await page.waitForFunction((element) => !element.classList.contains("holding"), await target.elementHandle());
  await page.mouse.up();
}
