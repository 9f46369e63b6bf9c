// The search as a reader uses it: loaded when it is first opened, worked by keyboard, told to who hears it, from a server
// and from a memory stick.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { openBrowser, openPage } from "./browser.mjs";
import { serve } from "./server.mjs";
import { site } from "./site.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const PAGE = "tarn-18/close-gearcase.html";

let browser, server;
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

async function opened(address, name, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const { page, faults } = await openPage(context, address + name, address);
  return { page, faults, close: () => context.close() };
}

for (const [where, address] of [["a server", () => server.address], ["a stick", () => `${pathToFileURL(site)}/`]]) {
  test(`from ${where} a mistyped value is found and opened by keyboard`, async () => {
    const { page, faults, close } = await opened(address(), PAGE);
    await page.keyboard.press("/");
    const field = page.getByRole("combobox");
    await field.waitFor();
    await page.keyboard.type("pinoin nut");
    const options = page.getByRole("option");
    const text = await options.first().innerText();
    assert.match(text, /^Pinion nut\s+early 70 ± 4 N·m .*late 78 ± 4 N·m/);
    assert.match(text, /Fastener · Tarn 18 · Pinion height and backlash/);
    assert.equal(await field.getAttribute("aria-expanded"), "true");
    assert.match(await page.getByRole("status").innerText(), /^Found: \d+\.$/);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowUp");
    const active = await field.getAttribute("aria-activedescendant");
    assert.equal(active, await options.first().getAttribute("id"));
    assert.equal(await page.locator('[aria-selected="true"]').count(), 1);
    await page.keyboard.press("Enter");
    await page.waitForURL(/tables\/torque\.html#tarn-18\.pinion-height-and-backlash\.fasteners\.pinion-nut$/);
    assert.equal(await page.locator(":target").count(), 1);
    assert.deepEqual(faults, []);
    await close();
  });
}

test("nothing of the search is loaded before it is used", async () => {
  const { page, close } = await opened(server.address, PAGE);
  const asked = () => page.evaluate(() => performance.getEntriesByType("resource").map(({ name }) => name.split("/").pop()).filter((name) => name.startsWith("search")));
  assert.deepEqual(await asked(), []);
  await page.getByRole("button", { name: "Search" }).click();
  await page.getByRole("combobox").waitFor();
  assert.deepEqual((await asked()).sort(), ["search-index.js", "search.css", "search.js"]);
  await close();
});

test("Esc closes the window and gives the keyboard back", async () => {
  const { page, close } = await opened(server.address, "index.html");
  await page.getByRole("button", { name: "Search" }).focus();
  await page.keyboard.press("Enter");
  await page.getByRole("combobox").waitFor();
  await page.keyboard.type("oil / water");
  assert.equal(await page.getByRole("combobox").inputValue(), "oil / water", "a slash in the field is a slash");
  await page.keyboard.press("Escape");
  assert.equal(await page.getByRole("dialog").count(), 0);
  assert.equal(await page.evaluate(() => document.activeElement.className), "find");
  await close();
});

test("a result on the same page closes the window and goes there", async () => {
  const { page, close } = await opened(server.address, PAGE);
  await page.keyboard.press("/");
  await page.getByRole("combobox").waitFor();
  await page.keyboard.type("try the gears");
  await page.keyboard.press("Enter");
  await page.waitForURL(/#shift$/);
  assert.equal(await page.getByRole("dialog").count(), 0);
  await close();
});

test("what is typed is never read as markup", async () => {
  const { page, faults, close } = await opened(server.address, PAGE);
  await page.keyboard.press("/");
  await page.getByRole("combobox").fill("<img src=x onerror=alert(1)>");
  assert.equal(await page.locator(".search img").count(), 0);
  assert.deepEqual(faults, []);
  await close();
});

for (const [width, colorScheme] of [[360, "light"], [360, "dark"], [1280, "light"]]) {
  test(`the open window is accessible and fits ${width} px in ${colorScheme} colours`, async () => {
    const { page, faults, close } = await opened(server.address, PAGE, { viewport: { width, height: 740 }, colorScheme });
    await page.keyboard.press("/");
    await page.getByRole("combobox").waitFor();
    await page.keyboard.type("bearing cap");
    await page.keyboard.press("ArrowDown");
    assert.match(await page.getByRole("status").innerText(), /‘bearing cap’ is called Carrier here\. Found: \d+\./);
    await page.evaluate(AXE);
    const violations = await page.evaluate(async () => {
      const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
      const { violations } = await globalThis.axe.run(".search", { runOnly: { type: "tag", values: tags } });
      return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).join(", ")}`);
    });
    assert.deepEqual(violations, []);
    const { scroll, room, small } = await page.evaluate(() => ({
      scroll: document.scrollingElement.scrollWidth,
      room: document.scrollingElement.clientWidth,
      small: [...document.querySelectorAll(".search :is(a, button, input)")].filter((one) => one.getBoundingClientRect().height < 44).length,
    }));
    assert.ok(scroll <= room, `${scroll} px wide in ${room}`);
    assert.equal(small, 0, "a target is less than 44 px high");
    assert.deepEqual(faults, []);
    await close();
  });
}

test("without script the same place leads to the tables", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const { page } = await openPage(context, server.address + PAGE, server.address);
  await page.getByRole("link", { name: "Search" }).click();
  assert.match(page.url(), /index\.html#page\.tables$/);
  await context.close();
});
