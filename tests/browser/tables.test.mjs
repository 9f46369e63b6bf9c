// The tables in English and in German: no column is pushed out of sight on a screen of a desk, on paper no head stands without its
// first row and no cell is squeezed to a word, and on a phone a sentence keeps its full stop.

import assert from "node:assert/strict";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser } from "./browser.mjs";
import { print } from "./paper.mjs";
import { serve } from "./server.mjs";
import { bind, isSheet, pagesOf, project, temporaryFolder } from "./site.mjs";

let browser;
const servers = {};

/** The demo, published in a language. */
async function published(language) {
  const root = temporaryFolder();
  const manual = join(root, "manual");
  cpSync(join(project, "procedures"), manual, { recursive: true });
  const head = readFileSync(join(manual, "manual.yaml"), "utf8");
  writeFileSync(join(manual, "manual.yaml"), head.replace(/^language:.*$/m, `language: ${language}`));
  const site = join(root, "site");
  assert.equal(bind(manual, site), 0, "the manual is published");
  return { ...(await serve(site)), pages: pagesOf(site).filter((name) => !isSheet(name) && !name.endsWith("book.html")) };
}

before(async () => {
  browser = await openBrowser();
  for (const language of ["en-GB", "de"]) servers[language] = await published(language);
});
after(async () => {
  await browser?.close();
  for (const server of Object.values(servers)) await server.close();
});

for (const language of ["en-GB", "de"]) {
  test(`no table is wider than its frame at 1280, language ${language}`, async () => {
    const { address, pages } = servers[language];
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 }, serviceWorkers: "block" });
    const wide = [];
    let tables = 0;
    for (const name of pages) {
      await page.goto(address + name);
      const found = await page.locator(".scroll").evaluateAll((frames) => frames.map((frame) => [frame.getAttribute("aria-label"), frame.scrollWidth - frame.clientWidth]));
      tables += found.length;
      wide.push(...found.filter(([, over]) => over > 0).map(([label, over]) => `${name}: ${label}, by ${over}`));
    }
    await page.close();
    assert.ok(tables > 20, "tables were looked at");
    assert.deepEqual(wide, []);
  });
}

for (const name of ["tables/tools.html", "tables/torque.html", "tarn-18/builds/no-7.html", "hb-2/builds/no-1.html"]) {
  test(`${name} prints no head without its first row, and its steps are no column of single words`, async () => {
    const page = await browser.newPage();
    await page.goto(servers["en-GB"].address + name);
    const tables = await page.locator(".data").evaluateAll((all) => all.map((table) => ({
      head: table.querySelector("thead th").innerText.split(/\s+/)[0],
      first: table.querySelector("tbody th").innerText.split(/\s+/)[0],
    })));
    assert.ok(tables.length > 0);
    for (const paper of ["A4", "Letter"]) {
      const { pages } = await print(page, paper);
      for (const [number, { words }] of pages.entries()) {
        for (const { head, first } of tables) {
          // The head of this table, and its first row or a later one, on the same leaf below it.
          const heads = words.filter(({ text }) => text === head).filter(({ top }) => words.some((other) => other.left > 100 && Math.abs(other.top - top) < 3));
          for (const { top } of heads) {
            const below = words.filter((other) => other.top > top + 3 && other.bottom < 279);
            assert.ok(below.length > 3, `${paper}, leaf ${number + 1}: the head ${head} stands alone above ${first}`);
          }
        }
      }
      // `Used in` names procedures: of those cells that hold several words some line has two of them.
      const column = pages.flatMap(({ words }) => words.filter(({ text }) => text === "step" || text === "steps").map((step) => words.some((other) => other !== step && Math.abs(other.top - step.top) < 0.5 && other.right < step.left && step.left - other.right < 3)));
      if (name.startsWith("tables/")) assert.ok(column.filter(Boolean).length > column.length * 0.4, `${paper}: ${column.filter(Boolean).length} of ${column.length}`);
    }
    await page.close();
  });
}

test("on a phone a sentence of a machine's page keeps its links, commas and full stop in their lines", async () => {
  const page = await browser.newPage({ viewport: { width: 360, height: 740 }, serviceWorkers: "block" });
  let links = 0;
  for (const name of ["tarn-18/index.html", "hb-2/index.html"]) {
    await page.goto(servers["en-GB"].address + name);
    const shown = await page.locator(":is(.told, .uses) a").evaluateAll((all) => all.map((link) => getComputedStyle(link).display));
    links += shown.length;
    assert.deepEqual(shown.filter((display) => display !== "inline"), [], name);
    // A mark that ends a sentence or parts a list has a letter or a figure before it on its own line.
    const lone = await page.locator(":is(.told li, .uses)").evaluateAll((all) => all.flatMap((one) => one.innerText.split("\n").filter((line) => /^\s*[.,]/.test(line))));
    assert.deepEqual(lone, [], name);
  }
  assert.ok(links > 20, `${links} links were looked at`);
  await page.close();
});

test("no id of an entry stands where its name belongs", async () => {
  const page = await browser.newPage();
  for (const name of ["tables/parts.html", "hb-2/machine.review.html", "tarn-18/machine.review.html", "hb-2/machine.variants.html"]) {
    await page.goto(servers["en-GB"].address + name);
    const text = await page.locator("main").innerText();
    for (const id of ["spring-length", "click-wrench", "foot-wrench", "depth-gauge", "low-locker"]) assert.ok(!new RegExp(`(?<![\\w-])${id}(?![\\w-])`).test(text), `${name}: ${id}`);
  }
  await page.close();
});
