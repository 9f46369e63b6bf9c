// The manual from a memory stick: opened as files, in a folder whose name holds a space and letters beyond ASCII, with no
// server and no network.

import assert from "node:assert/strict";
import { cpSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { openBrowser, openPage } from "./browser.mjs";
import { isSheet, pagesOf, site, temporaryFolder } from "./site.mjs";

let browser, context, address;
before(async () => {
  const folder = join(temporaryFolder(), "Håndbok für den Schlitten 2");
  cpSync(site, folder, { recursive: true });
  address = `${pathToFileURL(folder)}/`;
  browser = await openBrowser();
  context = await browser.newContext({ offline: true });
});
after(() => browser?.close());

for (const name of pagesOf(site)) {
  test(`${name} opens from a stick`, async () => {
    const { page, faults } = await openPage(context, address + name, address);
    assert.deepEqual(faults, []);
    assert.equal(await page.locator("h1").count(), 1);
    const styled = await page.evaluate(() => getComputedStyle(document.querySelector("a")).position);
    assert.equal(styled, "absolute", "the style sheet did not come with it");
    await page.close();
  });
}

test("a mechanic clicks from the first page to a sheet and back", async () => {
  const { page, faults } = await openPage(context, `${address}index.html`, address);
  const procedure = page.locator("main ol a").first();
  const title = (await procedure.innerText()).trim();
  await procedure.click();
  assert.equal((await page.locator("h1").innerText()).trim(), title);
  const sheet = await page.locator("a").evaluateAll((links) => links.findIndex((link) => /-sheet[^/]*\.html$/.test(link.href)));
  assert.notEqual(sheet, -1, "no way from the procedure to its sheet");
  await page.locator("a").nth(sheet).click();
  assert.ok(isSheet(new URL(page.url()).pathname), page.url());
  await page.locator("nav a").last().click();
  assert.equal((await page.locator("h1").innerText()).trim(), title);
  assert.deepEqual(faults, []);
  await page.close();
});
