// The page of a build record: published with the demo, free of faults of markup and accessibility, and without overflow on a
// telephone, whatever stands in the record.

import assert from "node:assert/strict";
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { openBrowser, openPage } from "./browser.mjs";
import { bind, project, temporaryFolder } from "./site.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const PAGE = "tarn-18/builds/no-4711.html";
const MARKUP = "<img src=x onerror=alert(1)>";

const RECORD = {
  format: "benchleaf-build/1",
  manual: JSON.stringify(MARKUP),
  machine: "tarn-18",
  serial: MARKUP,
  variant: { serial: "late" },
  people: ["A. Fell", MARKUP],
  begun: "2026-08-02T09:00:00Z",
  saved: "2026-08-02T12:00:00Z",
  procedures: {
    "pinion-height-and-backlash": {
      revision: 3,
      fingerprint: "0000-0000-0000",
      begun: "2026-08-02T09:00:00Z",
      finished: null,
      ticks: [{ step: "tighten", act: "torque:pinion-nut", number: 1, value: MARKUP, at: "2026-08-02T09:20:00Z", by: MARKUP }],
      readings: [{ step: "gap", act: "measure:pinion-depth", number: 1, value: "0.71 mm", at: "2026-08-02T09:30:00Z" }],
      signatures: [{ step: "tighten", act: "hold:second-reader", by: "x".repeat(190), at: "2026-08-02T10:05:00Z" }],
    },
  },
  deviations: [{ procedure: "pinion-height-and-backlash", step: "tighten", of: "pinion-nut", what: MARKUP.repeat(20), because: MARKUP, by: "B. Moss" }],
  open: [{ item: "carrier", procedure: "propeller-shaft-carrier", left: "dry-fitted" }],
};

const root = temporaryFolder();
const folder = join(root, "site");
let browser, code;
before(async () => {
  cpSync(join(project, "procedures"), join(root, "manual"), { recursive: true });
  mkdirSync(join(root, "manual/tarn-18/builds"), { recursive: true });
  writeFileSync(join(root, "manual/tarn-18/builds/no-4711.json"), JSON.stringify(RECORD));
  code = bind(join(root, "manual"), folder);
  browser = await openBrowser();
});
after(() => browser?.close());

test("the manual is published with what is found in its record", () => assert.equal(code, 0));

for (const [width, scheme] of [[360, "light"], [768, "dark"], [1280, "light"]]) {
  test(`${width} px wide, ${scheme}: no fault of accessibility, nothing runs off, nothing is markup`, async () => {
    const context = await browser.newContext({ viewport: { width, height: 800 }, colorScheme: scheme });
    const url = pathToFileURL(join(folder, PAGE)).href;
    const { page, faults } = await openPage(context, url, pathToFileURL(folder).href);
    assert.deepEqual(faults, []);
    assert.equal(await page.locator("img").count(), 0);
    assert.ok((await page.locator("h1").innerText()).includes(MARKUP));
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
    await page.evaluate(AXE);
    const { violations } = await page.evaluate(() => globalThis.axe.run({ runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] } }));
    assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`), []);
    await context.close();
  });
}

test("the machine's page leads to the build", async () => {
  const page = await browser.newPage();
  await page.goto(pathToFileURL(join(folder, "tarn-18/index.html")).href);
  await page.locator("a[href='builds/no-4711.html']").click();
  await page.waitForURL(/builds\/no-4711\.html$/);
  await page.close();
});
