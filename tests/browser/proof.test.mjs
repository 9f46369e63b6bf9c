// A proof copy: a manual with a fault in it can be looked at, but nobody can take a page of it for the real thing.

import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { openBrowser } from "./browser.mjs";
import { print, squeezed, textOf } from "./paper.mjs";
import { edition, pagesOf } from "./site.mjs";

const MARK = "PROOF, NOT FOR USE";
const fault = { file: "tarn-18/pinion-height-and-backlash.md", from: "(torque:pinion-nut)", to: "(torque:pinoin-nut)" };
const proof = edition([fault], "--proof-copy");

let browser;
before(async () => {
  browser = await openBrowser();
});
after(() => browser?.close());

test("the program says that the manual has a fault", () => assert.equal(proof.code, 1));

for (const name of pagesOf(proof.folder)) {
  test(`${name} of a proof copy is marked on the screen and on every printed page`, async () => {
    const page = await browser.newPage();
    await page.goto(pathToFileURL(join(proof.folder, name)).href);
    assert.ok((await page.locator("body").innerText()).includes(MARK), "no mark on the screen");
    const { pages } = await print(page, "A4");
    const unmarked = pages.flatMap(({ words }, at) => (textOf(words).includes(squeezed(MARK)) ? [] : [at + 1]));
    assert.deepEqual(unmarked, [], "printed pages without the mark");
    await page.close();
  });
}
