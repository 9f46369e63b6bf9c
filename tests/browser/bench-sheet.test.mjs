// The bench sheet on a phone as a page: targets for a glove, one step a screen, paper, no script, accessibility.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { test } from "node:test";
import { NUT, WATCHED, begin, bench, button, device, row, sign } from "./phone.mjs";
import { sheetsOf, site } from "./site.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

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

test("on every sheet the way forward leads through each step to its end", async () => {
  for (const name of sheetsOf(site)) {
    const own = await device();
    const page = await own.open(name);
    const steps = await page.locator(".sheet-step").evaluateAll((all) => all.map((step) => step.dataset.step));
    const next = page.getByRole("button", { name: "Next", exact: true });
    await page.click(".bench-where");
    const passed = [];
    while (await next.isEnabled()) {
      await next.click();
      passed.push(...(await page.locator(".sheet-step:visible").evaluateAll((all) => all.map((step) => step.dataset.step))));
    }
    assert.deepEqual(passed, steps, name);
    // In the list, too, where scrolling tells which step is at hand.
    await page.click(".bench-where");
    // What is scrolled down and up again within one frame was not scrolled.
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    await page.evaluate(() => scrollTo(0, 0));
    // Waits until it may be pressed, and does not press.
    await next.click({ trial: true });
    await own.close();
  }
});

test("paper shows all steps and empty boxes, ticks only where asked", async () => {
  const { page, close } = await bench();
  await sign(page, WATCHED);
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
    await sign(page, WATCHED);
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

test("the bar names a step by the number and name of its heading, and counts lines as lines", async () => {
  // A sheet of one variant leaves steps of another out: its headings' numbers have a gap.
  const own = await device();
  const page = await own.open("tarn-18/close-gearcase-sheet-S-salt.html");
  await begin(page, "4711", "Ann");
  const headings = await page.locator(".sheet-step h2").evaluateAll((all) => all.map((one) => [one.querySelector(".step-count").textContent, one.querySelector(".step-title").textContent]));
  assert.notEqual(headings.at(-1)[0], String(headings.length), "no gap to be seen");
  for (const [number, title] of headings) {
    await page.evaluate((to) => (location.hash = `#page.step-${to}`), number);
    await page.waitForFunction((said) => document.querySelector(".bench-place").textContent === said, `Step ${number}: ${title}`);
  }
  assert.match(await page.locator(".bench-status:not(.bench-soonest)").innerText(), /^Serial 4711 · Ann · 0 of \d+ lines ticked$/);
  await own.close();
});
