// Manuals in other languages than English: numbers and days against Unicode CLDR, German on a phone and on paper, right to left.

import assert from "node:assert/strict";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser, openPage } from "./browser.mjs";
import { serve } from "./server.mjs";
import { bind, pagesOf, project, temporaryFolder } from "./site.mjs";

const PHONE = { viewport: { width: 360, height: 740 }, serviceWorkers: "block" };
const SHEET = "speisepumpe/deckel-sheet-neu.html";

let browser, german, demo, arabic;

/** A manual's copy, published in a language. */
function published(from, language) {
  const root = temporaryFolder();
  const manual = join(root, "manual");
  cpSync(join(project, from), manual, { recursive: true });
  const head = readFileSync(join(manual, "manual.yaml"), "utf8");
  writeFileSync(join(manual, "manual.yaml"), head.replace(/^language:.*$/m, `language: ${language}`));
  const site = join(root, "site");
  assert.equal(bind(manual, site), 0, "the manual is published");
  return site;
}

before(async () => {
  browser = await openBrowser();
  [german, demo, arabic] = [published("tests/german", "de"), published("procedures", "de"), published("procedures", "ar")];
});
after(() => browser?.close());

test("decimal mark and day are those of Unicode CLDR, as Intl of Node and of the browser have them", async () => {
  const said = (file, key) => new RegExp(`^${key} = (.*)$`, "m").exec(readFileSync(join(project, "themes/workshop/messages", file), "utf8"))?.[1];
  const marks = { "en-GB": said("en.ftl", "decimal-mark"), de: said("de.ftl", "decimal-mark"), "de-AT": said("de.ftl", "decimal-mark"), "de-CH": said("de-CH.ftl", "decimal-mark"), "de-LI": said("de-CH.ftl", "decimal-mark") };
  const day = { de: said("de.ftl", "date-day"), "de-AT": said("de.ftl", "date-day"), "de-CH": said("de.ftl", "date-day") };
  const parts = (tags) => Object.fromEntries(tags.map((tag) => [tag, new Intl.NumberFormat(tag).formatToParts(0.5).find(({ type }) => type === "decimal").value]));
  assert.deepEqual(parts(Object.keys(marks)), marks);
  const page = await browser.newPage();
  assert.deepEqual(await page.evaluate(`(${parts})(${JSON.stringify(Object.keys(marks))})`), marks);
  await page.close();
  for (const [tag, words] of Object.entries(day)) {
    const written = words.replace("{ $day }", "04").replace("{ $month }", "09").replace("{ $year }", "2026");
    assert.equal(new Intl.DateTimeFormat(tag, { dateStyle: "medium", timeZone: "UTC" }).format(new Date("2026-09-04T00:00:00Z")), written, tag);
  }
  assert.equal(new Intl.NumberFormat("de").format(1234.5), "1.234,5");
});

for (const width of [360, 768]) {
  test(`nothing of a German page is wider than a screen of ${width}`, async () => {
    const context = await browser.newContext({ ...PHONE, viewport: { width, height: 740 } });
    const wide = [];
    for (const folder of [german, demo]) {
      const server = await serve(folder);
      const page = await context.newPage();
      for (const name of pagesOf(folder).filter((name) => !name.endsWith("book.html") && !name.includes("-board-"))) {
        await page.goto(server.address + name);
        const found = await page.evaluate(() => {
          const root = document.documentElement;
          // What scrolls in its own frame may be wide.
          const framed = (element) => element.closest(".scroll, pre, dialog, svg, .strip") !== null;
          const over = [...document.querySelectorAll("h1, h2, h3, dt, dd, p, li, th, td, button, label")].filter((one) => !framed(one) && one.getClientRects().length > 0 && one.getBoundingClientRect().right > root.clientWidth + 1);
          return { scroll: root.scrollWidth > root.clientWidth, over: over.map((one) => one.textContent.slice(0, 60)) };
        });
        if (found.scroll || found.over.length > 0) wide.push({ name, ...found });
      }
      await page.close();
      await server.close();
    }
    await context.close();
    assert.deepEqual(wide, []);
  });
}

test("a reading is typed with comma or point, shown with the comma, kept with the point", async () => {
  const server = await serve(german);
  const context = await browser.newContext({ ...PHONE, locale: "de-DE" });
  const { page, faults } = await openPage(context, server.address + SHEET, server.address);
  await page.click(".bench-status:not(.bench-soonest)");
  await page.getByLabel("Seriennummer der Maschine").fill("41");
  await page.getByLabel("Ihr Name").fill("Anna");
  await page.getByRole("button", { name: "Speichern", exact: true }).click();
  const field = page.getByLabel("Messwert 1: Axialspiel");
  const judged = page.locator(".judgement").first();
  for (const typed of ["0,15", "0.15"]) {
    await field.fill(typed);
    await field.blur();
    await page.waitForFunction(() => document.querySelector(".judgement").textContent !== "");
    assert.equal(await field.inputValue(), "0,15 mm", typed);
    assert.match(await judged.innerText(), /innerhalb des Sollwerts: 0,10–0,25 mm/);
    const kept = await page.evaluate(() => globalThis.leaf.bench.record.procedures.deckel.readings[0].value);
    assert.equal(kept, "0.15 mm");
  }
  await field.fill("0,3 mm");
  await field.blur();
  assert.match(await judged.innerText(), /außerhalb des Sollwerts, innerhalb des Grenzwerts: (max |≤ ?)?0,40 mm/);
  await field.fill("1.234,5");
  await field.blur();
  assert.match(await judged.innerText(), /Punkt und Komma zugleich/);
  // A tick keeps the value as machines read it, so that it is the same in every language.
  const value = await page.evaluate(() => [...globalThis.leaf.bench.acts.values()].find((act) => act.torque).value);
  assert.match(value, /9\.5 N·m/);
  assert.equal(await page.evaluate(() => globalThis.leaf.bench.say("bench-changed", { was: "8.5 N·m", now: "9.5 N·m" })), "Wert geändert: war 8,5 N·m, jetzt 9,5 N·m. Erneut abhaken.");
  assert.deepEqual(faults.filter((fault) => !/Service ?Worker/i.test(fault)), []);
  await context.close();
  await server.close();
});

test("the search is asked with the comma and answers with it", async () => {
  const server = await serve(german);
  const context = await browser.newContext(PHONE);
  const { page } = await openPage(context, `${server.address}speisepumpe/deckel.html`, server.address);
  await page.keyboard.press("/");
  const field = page.getByRole("combobox", { name: "Im Handbuch suchen" });
  for (const [query, answer] of [["9,5", /Deckelschraube.*9,5 N·m/s], ["0,25", /Axialspiel.*0,10–0,25 mm/s], ["Flügelrad", /Laufrad/]]) {
    await field.fill(query);
    const text = (await page.locator(".search-list").innerText()).replaceAll("\u00a0", " ");
    assert.match(text, answer, query);
    assert.doesNotMatch(text, /\d\.\d+ (N·m|mm|L)/);
  }
  await context.close();
  await server.close();
});

test("from right to left pages keep their values in order and stay inside the screen", async () => {
  const server = await serve(arabic);
  const context = await browser.newContext(PHONE);
  for (const name of ["index.html", "tarn-18/index.html", "tarn-18/pinion-height-and-backlash.html", "tarn-18/pinion-height-and-backlash-sheet-late.html", "tables/torque.html"]) {
    const { page, faults } = await openPage(context, server.address + name, server.address);
    const found = await page.evaluate(() => ({
      direction: getComputedStyle(document.body).direction,
      scroll: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      // A value reads from left to right wherever it stands: the number before its unit.
      values: document.querySelectorAll(".figure").length > 0 || !/pinion|torque/.test(location.pathname),
      turned: [...document.querySelectorAll(".figure, .other")].filter((one) => getComputedStyle(one).direction !== "ltr").length,
      drawings: [...document.querySelectorAll("svg text")].filter((one) => getComputedStyle(one).direction !== "ltr").length,
    }));
    assert.deepEqual({ ...found, faults: faults.filter((fault) => !/Service ?Worker/i.test(fault)) }, { direction: "rtl", scroll: 0, values: true, turned: 0, drawings: 0, faults: [] }, name);
    await page.close();
  }
  await context.close();
  await server.close();
});

test("from right to left a page is the mirror of what it is from left to right", async () => {
  const server = await serve(arabic);
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, serviceWorkers: "block" });
  const { page } = await openPage(context, `${server.address}tarn-18/pinion-height-and-backlash.html`, server.address);
  const steps = await page.evaluate(() => {
    const box = (element) => element.getBoundingClientRect();
    const crossed = [];
    for (const step of document.querySelectorAll(".step")) {
      const [number, rule] = ["::before", "::after"].map((part) => getComputedStyle(step, part));
      // The number stands at the right edge, the values' column behind its rule at the left.
      const [left, right] = [box(step).left + parseFloat(rule.left), box(step).right - parseFloat(number.width)];
      if (number.right !== "0px") crossed.push(`${step.id}: the number stands ${number.right} from the right`);
      for (const part of step.children) {
        const { left: from, right: to } = box(part);
        const fits = part.matches(".act-notes") ? to <= left && [...part.children].every((line) => box(line).left >= box(step).left + 8) : from > left && to < right;
        if (!fits) crossed.push(`${step.id}: ${part.className || part.localName} from ${from} to ${to}, between ${left} and ${right}`);
      }
      for (const mark of step.querySelectorAll(".act-notes li > sup")) {
        if (box(mark).left < box(mark.parentElement).right - 30) crossed.push(`${step.id}: the mark ${mark.textContent}`);
      }
    }
    return { count: document.querySelectorAll(".step > .act-notes").length, crossed };
  });
  assert.ok(steps.count > 3);
  assert.deepEqual(steps.crossed, []);
  await page.goto(`${server.address}tarn-18/pinion-height-and-backlash-sheet-late.html`);
  for (const media of ["screen", "print"]) {
    await page.emulateMedia({ media });
    const wrong = await page.evaluate((kind) => {
      const mark = kind === "print" ? ":scope > .box" : ":scope > .hold";
      const off = [...document.querySelectorAll(".tick")].filter((line) => line.querySelector(mark).getBoundingClientRect().left < line.querySelector(".tick-words").getBoundingClientRect().right);
      return { lines: document.querySelectorAll(".tick").length > 10, off: off.map((line) => line.dataset.act) };
    }, media);
    assert.deepEqual(wrong, { lines: true, off: [] }, media);
  }
  await context.close();
  await server.close();
});
