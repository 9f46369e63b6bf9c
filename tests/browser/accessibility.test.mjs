// Accessibility: the axe checker's rules for WCAG 2.2 A and AA, in daylight and in the dark, and the way in by keyboard.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { openBrowser } from "./browser.mjs";
import { serve } from "./server.mjs";
import { isSheet, pagesOf, site } from "./site.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const ALL = { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] };
/** In the dark only the colours differ. */
const COLOURS = { type: "rule", values: ["color-contrast", "link-in-text-block"] };

let browser, server;
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

for (const [colorScheme, rules] of [["light", ALL], ["dark", COLOURS]]) {
  for (const name of pagesOf(site)) {
    // A sheet is made for paper; on the screen it is read as often on the phone as at the desk.
    const width = isSheet(name) ? 360 : 1280;
    test(`${name} is accessible in ${colorScheme} colours`, async () => {
      const context = await browser.newContext({ colorScheme, viewport: { width, height: 900 } });
      try {
        const page = await context.newPage();
        await page.goto(server.address + name);
        await page.evaluate(AXE);
        assert.deepEqual(await page.evaluate(check, rules), []);
      } finally {
        await context.close();
      }
    });
  }
}

for (const name of ["index.html", pagesOf(site).find(isSheet)]) {
  test(`the first Tab stop of ${name} leads to its content`, async () => {
    const page = await browser.newPage();
    await page.goto(server.address + name);
    await page.keyboard.press("Tab");
    const seen = await page.evaluate(() => document.activeElement.getBoundingClientRect().height > 10);
    assert.ok(seen, "what has the keyboard can't be seen");
    await page.keyboard.press("Enter");
    const target = await page.evaluate(() => document.querySelector(":target")?.tagName);
    assert.equal(target, "MAIN");
    await page.close();
  });
}

/** Runs in the page. */
async function check(rules) {
  const { violations, passes } = await globalThis.axe.run(document, { runOnly: rules, resultTypes: ["violations"] });
  if (passes.length === 0) return ["no rule looked at the page"];
  return violations.flatMap(({ id, help, nodes }) => nodes.map((node) => `${id}: ${help}: ${node.target.join(" ")}`));
}
