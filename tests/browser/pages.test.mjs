// Every page on a phone, a tablet and a desk: nothing fails to load, nothing is asked for elsewhere, nothing hangs over
// the edge, nothing jumps, pictures keep their room and have words.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser, openPage } from "./browser.mjs";
import { serve } from "./server.mjs";
import { CAUTION, isSheet, pagesOf, site } from "./site.mjs";

const WIDTHS = [360, 768, 1280];

let browser, server, withoutScript;
const windows = new Map();
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
  withoutScript = await browser.newContext({ javaScriptEnabled: false });
  for (const width of WIDTHS) windows.set(width, await browser.newContext({ viewport: { width, height: 900 } }));
});
after(async () => {
  await browser?.close();
  await server?.close();
});

for (const name of pagesOf(site)) {
  for (const width of WIDTHS) {
    test(`${name} at ${width} px`, async () => {
      const { page, faults } = await openPage(windows.get(width), server.address + name, server.address);
      await readToTheEnd(page);
      const { scroll, room, shift, moved, pictures } = await page.evaluate(measure);
      await page.close();
      assert.deepEqual(faults, []);
      assert.ok(scroll <= room, `the page is ${scroll} px wide in a window of ${room}`);
      assert.equal(shift, 0, `what one reads jumps: layout shift ${shift} of ${moved.join(" ")}`);
      for (const picture of pictures) checkPicture(picture);
    });
  }

  test(`${name} says the same without script`, async () => {
    const [withScript, without] = await Promise.all([windows.get(1280), withoutScript].map((context) => textOf(context, name)));
    assert.ok(without.includes(CAUTION), "the standing caution is not there word for word");
    assert.equal(without, withScript);
  });
}

// Tables and title blocks find their widths by all that is in them: what is painted before all is there jumps when the rest comes.
for (const name of ["index.html", "tarn-18/index.html", "tarn-18/torque-card.html", "hb-2/torque-card.html", "tables/torque.html", "hb-2/wet-brake-pack.html"]) {
  test(`${name} does not jump while it comes over a slow line`, async () => {
    const slow = await serve(site, { piece: 700 });
    for (const width of WIDTHS) {
      const { page, faults } = await openPage(windows.get(width), slow.address + name, slow.address);
      const { shift, moved } = await page.evaluate(measure);
      await page.close();
      assert.deepEqual(faults, []);
      assert.equal(shift, 0, `at ${width} px: ${shift} of ${moved.join(" ")}`);
    }
    await slow.close();
  });
}

test("a page of which half is lost on its way is shown all the same, if later", async () => {
  // A copy on the device would be whole.
  const own = await browser.newContext({ serviceWorkers: "block" });
  const page = await own.newPage();
  const whole = readFileSync(join(site, "tarn-18/index.html"), "utf8");
  await page.route("**/tarn-18/index.html", (route) => route.fulfill({ contentType: "text/html", body: whole.slice(0, whole.length / 2) }));
  await page.goto(`${server.address}tarn-18/index.html`);
  // The waiting is set by hand, so that a slow machine does not decide what is seen.
  const seenAfter = (milliseconds) =>
    page.evaluate((milliseconds) => {
      for (const animation of document.getAnimations()) {
        animation.pause();
        animation.currentTime = milliseconds;
      }
      return getComputedStyle(document.querySelector("h1")).visibility;
    }, milliseconds);
  assert.equal(await seenAfter(2900), "hidden");
  assert.equal(await seenAfter(3000), "visible");
  await own.close();
});

test("no page asked for a file that is not there", () => {
  assert.deepEqual(server.missed, []);
});

/** Scrolls through the page so that pictures which load late have loaded. */
async function readToTheEnd(page) {
  await page.evaluate(async () => {
    for (const image of [...document.images].filter((image) => image.checkVisibility())) {
      image.scrollIntoView({ behavior: "instant" });
      if (!image.complete) await new Promise((done) => (image.onload = image.onerror = done));
    }
    scrollTo({ top: document.body.scrollHeight, behavior: "instant" });
    await new Promise((painted) => requestAnimationFrame(() => requestAnimationFrame(painted)));
  });
}

/** Runs in the page. */
async function measure() {
  const [shift, moved] = await new Promise((done) => {
    let sum = 0;
    const moved = [];
    const add = (entries) => entries.forEach((entry) => {
      sum += entry.value;
      moved.push(...entry.sources.map(({ node }) => node?.outerHTML?.slice(0, 80) ?? node?.data));
    });
    const observer = new PerformanceObserver((list) => add(list.getEntries()));
    observer.observe({ type: "layout-shift", buffered: true });
    setTimeout(() => {
      add(observer.takeRecords());
      done([sum, moved]);
    }, 50);
  });
  const root = document.scrollingElement;
  // What lies ready for paper is not on the screen and never loads there.
  const pictures = [...document.images].filter((image) => image.checkVisibility()).map((image) => ({
    src: image.getAttribute("src"),
    alternative: image.getAttribute("alt"),
    width: Number(image.getAttribute("width")),
    height: Number(image.getAttribute("height")),
    loaded: image.complete && image.naturalWidth > 0,
    shape: image.naturalWidth / image.naturalHeight,
  }));
  return { scroll: root.scrollWidth, room: root.clientWidth, shift, moved, pictures };
}

function checkPicture({ src, alternative, width, height, loaded, shape }) {
  assert.ok(alternative?.trim(), `${src} has no words for who can't see it`);
  assert.ok(loaded, `${src} did not load`);
  assert.ok(width > 0 && height > 0, `${src} has no width and height, so the page jumps when it comes`);
  assert.ok(Math.abs(width / height / shape - 1) < 0.02, `${src} is squeezed: ${width} × ${height}`);
}

async function textOf(context, name) {
  const { page } = await openPage(context, server.address + name, server.address);
  // On a screen a sheet becomes the bench, with fields in place of blanks; on paper scripts change nothing.
  if (isSheet(name)) await page.emulateMedia({ media: "print" });
  const text = (await page.locator("body").innerText()).replace(/\s+/g, " ");
  await page.close();
  return text;
}
