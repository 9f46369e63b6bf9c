// The pages on paper: whatever the screen shows of a page's words is there, nothing runs off the paper, and the tables'
// last columns are not lost.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { openBrowser } from "./browser.mjs";
import { print, squeezed, textOf } from "./paper.mjs";
import { serve } from "./server.mjs";
import { CAUTION, isSheet, pagesOf, site } from "./site.mjs";

/** Common printers leave about this much of the paper's edge white, in mm (common practice). */
const EDGE = 6;

let browser, server;
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

for (const name of pagesOf(site).filter((name) => !isSheet(name))) {
  test(`${name} keeps its words on A4 and on Letter`, async () => {
    const page = await browser.newPage();
    await page.goto(server.address + name);
    await page.emulateMedia({ media: "print" });
    // Words for those who hear the page are not printed.
    await page.locator(".hidden").evaluateAll((elements) => elements.forEach((element) => element.remove()));
    const cells = await page.locator(":is(h1, h2, h3, th, td, dd):visible").allInnerTexts();
    assert.ok(cells.length > 0);
    for (const paper of ["A4", "Letter"]) {
      const { pages } = await print(page, paper);
      const text = pages.map(({ words }) => textOf(words)).join("");
      assert.ok(text.includes(squeezed(CAUTION)), `${paper}: no standing caution word for word`);
      assert.deepEqual(cells.flatMap((cell) => cell.split(/\s+/)).filter((word) => !text.includes(squeezed(word))), []);
      assert.deepEqual(pages.flatMap((sheet) => sheet.words.filter(offPaper(sheet)).map(({ text }) => text)), []);
    }
    await page.close();
  });
}

function offPaper({ width, height }) {
  return ({ left, top, right, bottom }) => left < EDGE || top < EDGE || right > width - EDGE || bottom > height - EDGE;
}
