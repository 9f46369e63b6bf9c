// Standards: contrast of values, what holds up the first view, chapters as a track, JSON-LD, the keyboard's way through a page.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { openBrowser, openPage } from "./browser.mjs";
import { serve } from "./server.mjs";
import { filesOf, isSheet, pagesOf, site } from "./site.mjs";

/** WCAG 2.2, success criterion 1.4.6 (AAA). */
const CONTRAST = 7;
const pages = pagesOf(site).filter((name) => !isSheet(name));
const procedures = filesOf(site).filter((name) => name.endsWith(".chapters.vtt")).map((name) => name.replace(".chapters.vtt", ".html"));

let browser, server;
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

/** Procedures, paper, books, and all the rest: each kind of page has its styles in one file. */
function styleOf(name) {
  if (procedures.includes(name)) return "page.css";
  if (/(^|\/)book\.html$/.test(name)) return "book.css";
  return /torque-card|-board-/.test(name) ? "sheet.css" : "lists.css";
}

for (const [colours, options] of [["light", { colorScheme: "light" }], ["dark", { colorScheme: "dark" }], ["high contrast", { colorScheme: "light", contrast: "more" }], ["dark high contrast", { colorScheme: "dark", contrast: "more" }]]) {
  test(`values stand out by at least ${CONTRAST} to 1 in ${colours}`, async () => {
    const context = await browser.newContext(options);
    let seen = 0;
    for (const name of pages) {
      const { page } = await openPage(context, server.address + name, server.address);
      const low = await page.evaluate(contrasts, CONTRAST);
      seen += low.seen;
      assert.deepEqual(low.low, [], name);
      await page.close();
    }
    assert.ok(seen > 200, `only ${seen} values were looked at`);
    await context.close();
  });
}

for (const name of pages) {
  test(`one style sheet alone holds up the first view of ${name}`, async () => {
    const context = await browser.newContext();
    const { page } = await openPage(context, server.address + name, server.address);
    const blocking = await page.evaluate(() => performance.getEntriesByType("resource").filter(({ renderBlockingStatus }) => renderBlockingStatus === "blocking").map(({ name }) => name));
    assert.deepEqual(blocking, [server.address + styleOf(name)]);
    assert.equal(await page.locator("html[lang]").count(), 1);
    await context.close();
  });
}

for (const name of procedures) {
  test(`a player reads the chapters of ${name}`, async () => {
    const context = await browser.newContext();
    const { page } = await openPage(context, server.address + name, server.address);
    const cues = await page.evaluate(async (src) => {
      const track = document.createElement("track");
      Object.assign(track, { kind: "chapters", src, default: true });
      const video = document.createElement("video");
      video.append(track);
      document.body.append(video);
      await new Promise((done, failed) => {
        track.onload = done;
        track.onerror = () => failed(new Error("the track was refused"));
        track.track.mode = "hidden";
      });
      return [...track.track.cues].map(({ startTime, endTime, text, id }) => ({ startTime, endTime, text, id }));
    }, server.address + name.replace(".html", ".chapters.vtt"));
    const steps = await page.locator(".step").evaluateAll((all) => all.filter((step) => step.querySelector(".step-facts a")).map((step) => step.id));
    assert.deepEqual(cues.map(({ id }) => id), steps, "a chapter for every step with a moment, in their order");
    for (const [at, { startTime, endTime, text }] of cues.entries()) {
      assert.ok(endTime > startTime && text.trim(), JSON.stringify(cues[at]));
      if (at > 0) assert.equal(cues[at - 1].endTime, startTime);
    }
    await page.goto(server.address + name.replace(".html", ".behind.html"));
    const list = (await page.locator("#page\\.chapters + p + pre").innerText()).trim().split("\n");
    assert.equal(list.length, cues.length);
    list.forEach((line, at) => assert.ok(line.endsWith(cues[at].text), line));
    await context.close();
  });

  test(`${name} is a HowTo for who reads JSON-LD`, async () => {
    const context = await browser.newContext();
    const { page } = await openPage(context, server.address + name, server.address);
    const [text, title, ids] = await page.evaluate(() => [document.querySelector('script[type="application/ld+json"]').textContent, document.querySelector("h1").innerText, [...document.querySelectorAll(".step")].map(({ id }) => `#${id}`)]);
    const data = JSON.parse(text);
    assert.equal(data["@type"], "HowTo");
    assert.equal(data.name, title.replace(/\s+/g, " "));
    assert.deepEqual(data.step.map(({ url }) => url), ids);
    const counts = Object.fromEntries(await page.locator(".before dl > div").evaluateAll((rows) => rows.map((row) => [row.querySelector("dt").textContent.trim(), row.querySelectorAll("dd > ul > li").length])));
    const listed = (...titles) => titles.reduce((sum, title) => sum + (counts[title] ?? 0), 0);
    assert.ok(data.tool.length > 0);
    assert.equal(data.tool.length, listed("Wrenches", "Tools", "Protection"));
    assert.equal(data.supply?.length ?? 0, listed("New, in hand", "Materials"), "what is used up");
    await context.close();
  });
}

for (const name of ["index.html", procedures[0], "tables/terms.html"]) {
  test(`the keyboard goes through ${name} from the skip link to the foot and is never held`, async () => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    const { page } = await openPage(context, server.address + name, server.address);
    const all = await page.evaluate(() => {
      const can = [...document.querySelectorAll("a[href], button, input, summary, [tabindex='0']")].filter((one) => one.checkVisibility());
      can.forEach((one, at) => (one.dataset.stop = at));
      return can.length;
    });
    const stops = [];
    for (let press = 0; press < all; press += 1) {
      await page.keyboard.press("Tab");
      stops.push(await page.evaluate(() => Number(document.activeElement.dataset.stop ?? -1)));
    }
    assert.deepEqual(stops, [...Array(all).keys()], "the stops are not those of the page, in its order");
    await context.close();
  });
}

test("every notice has a signal word of ANSI Z535.6 with its mark, and every page the standing caution", async () => {
  const context = await browser.newContext();
  let seen = 0;
  for (const name of pages) {
    const { page } = await openPage(context, server.address + name, server.address);
    const panels = await page.locator(".panel").evaluateAll((all) => all.map((panel) => [panel.querySelector(".panel-word").textContent.trim(), !!panel.querySelector("svg"), panel.getAttribute("role")]));
    for (const [word, mark, role] of panels) {
      seen += 1;
      assert.ok(["DANGER", "WARNING", "CAUTION", "NOTICE"].includes(word) && mark && role === "note", `${name}: ${word}`);
    }
    // A book says it on its cover as well.
    assert.equal(await page.locator(".standing-caution").count(), /(^|\/)book/.test(name) ? 2 : 1, name);
    await page.close();
  }
  assert.ok(seen > 5);
  await context.close();
});

/** Runs in the page: values whose contrast with what is behind them is too low. WCAG 2.2, relative luminance and contrast ratio. */
function contrasts(least) {
  const channel = (value) => (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4);
  const luminance = ([red, green, blue]) => 0.2126 * channel(red) + 0.7152 * channel(green) + 0.0722 * channel(blue);
  const colour = (text) => text.match(/[\d.]+/g).map(Number);
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const seen = colour(getComputedStyle(at).backgroundColor);
      if (seen.length === 3 || seen[3] === 1) return seen;
    }
    return [255, 255, 255];
  };
  const values = [...document.querySelectorAll(".figure, .value, .items b, .other")];
  const low = [];
  for (const value of values) {
    const [light, dark] = [luminance(colour(getComputedStyle(value).color)), luminance(behind(value))].sort((a, b) => b - a);
    const ratio = (light + 0.05) / (dark + 0.05);
    if (ratio < least) low.push(`${value.textContent}: ${ratio.toFixed(2)}`);
  }
  return { seen: values.length, low };
}
