// The numbers on a picture: each on the picture and on nothing else, each leads to its row and back, and each can be heard.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { openBrowser, openPage } from "./browser.mjs";
import { serve } from "./server.mjs";
import { isSheet, pagesOf, site } from "./site.mjs";

const WIDTHS = [360, 768, 1280];

let browser, server;
before(async () => {
  browser = await openBrowser();
  server = await serve(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

let seen = 0;
for (const name of pagesOf(site).filter((name) => !isSheet(name) && !name.endsWith("book.html"))) {
  test(`${name} keeps its pictures' numbers apart`, async () => {
    for (const width of WIDTHS) {
      const context = await browser.newContext({ viewport: { width, height: 900 } });
      const { page } = await openPage(context, server.address + name, server.address);
      for (const picture of await page.evaluate(measure)) {
        seen += 1;
        check(picture, width);
      }
      await context.close();
    }
  });
}

test("the demo has pictures with numbers", () => {
  assert.ok(seen >= 6 * WIDTHS.length, `only ${seen} pictures with numbers were seen`);
});

function check(picture, width) {
  const { image, numbers } = picture;
  assert.ok(numbers.length > 0);
  for (const [index, one] of numbers.entries()) {
    const where = `number ${one.item} at ${width} px`;
    assert.ok(one.box.left >= image.left - 1 && one.box.right <= image.right + 1, `${where} leaves the picture sideways`);
    assert.ok(one.box.top >= image.top - 1 && one.box.bottom <= image.bottom + 1, `${where} leaves the picture`);
    assert.ok(one.label.startsWith(`Item ${one.item}: `) && one.label.length > `Item ${one.item}: `.length, `${where} says ${one.label}`);
    assert.equal(one.row?.item, one.item, `${where} leads to another row`);
    assert.equal(one.row?.back, one.id, `the row of ${where} leads elsewhere`);
    const radius = (one.box.right - one.box.left) / 2;
    assert.ok(radius >= 10, `${where} has a radius of ${radius} px`);
    for (const other of numbers.slice(index + 1)) {
      const apart = Math.hypot(middle(one.box).x - middle(other.box).x, middle(one.box).y - middle(other.box).y);
      assert.ok(apart >= 2 * radius, `${where} lies on number ${other.item}`);
    }
  }
}

function middle(box) {
  return { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
}

/** In the page: each picture's drawn area and its numbers. */
function measure() {
  const edges = (element) => {
    const { left, right, top, bottom } = element.getBoundingClientRect();
    return { left, right, top, bottom };
  };
  return [...document.querySelectorAll(".numbers")].map((numbers) => ({
    image: edges(numbers.parentElement.querySelector("img")),
    numbers: [...numbers.querySelectorAll("a")].map((link) => {
      const row = document.getElementById(link.getAttribute("href").slice(1));
      const back = row?.querySelector("a.balloon");
      return {
        id: link.id,
        item: link.textContent.trim(),
        label: link.getAttribute("aria-label"),
        box: edges(link.querySelector(".ball")),
        row: back && { item: back.textContent.trim(), back: back.getAttribute("href").slice(1) },
      };
    }),
  }));
}
