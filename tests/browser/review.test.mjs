// The review of a machine: its filters are links and work without a script, its rows are those that the link counts; the
// sheet to look again by begins on paper of its own.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { openBrowser } from "./browser.mjs";
import { serve } from "./server.mjs";
import { pagesOf, site } from "./site.mjs";

const reviews = pagesOf(site).filter((name) => name.endsWith("machine.review.html"));

let browser, server;
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

test("there is a review of each machine", () => assert.ok(reviews.length >= 2));

for (const javaScriptEnabled of [true, false]) {
  for (const name of reviews) {
    test(`the filters of ${name} show what they count ${javaScriptEnabled ? "with" : "without"} script`, async () => {
      const context = await browser.newContext({ javaScriptEnabled });
      const page = await context.newPage();
      await page.goto(server.address + name);
      const rows = page.locator(".ledger tbody tr");
      const all = await rows.count();
      const visible = async () => (await rows.all().then((list) => Promise.all(list.map((row) => row.isVisible())))).filter(Boolean).length;
      assert.equal(await visible(), all);
      const filters = page.locator('.filters a[href^="#only"]');
      assert.ok((await filters.count()) >= 3);
      for (const filter of await filters.all()) {
        const wanted = Number((await filter.textContent()).match(/(\d+)$/)[1]);
        await filter.click();
        assert.equal(await visible(), wanted, await filter.textContent());
        // Said in words, too.
        assert.ok((await page.locator(".only:target").textContent()).includes(String(wanted)));
      }
      await page.locator(".only:target a").click();
      assert.equal(await visible(), all);
      await context.close();
    });
  }
}

test("the sheet to look again by begins on paper of its own", async () => {
  const page = await browser.newPage();
  await page.goto(server.address + "tarn-18/machine.bulletins.html");
  await page.emulateMedia({ media: "print" });
  const breaks = await page.locator(".recheck").evaluateAll((sheets) => sheets.map((sheet) => getComputedStyle(sheet).breakBefore));
  assert.ok(breaks.length > 0 && breaks.every((value) => value === "page"), breaks.join());
  await page.close();
});
