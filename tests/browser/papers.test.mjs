// What is made for paper beside the bench sheets: the torque card, the bolt board at true size, the book, tags to cut off.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { openBrowser } from "./browser.mjs";
import { print, squeezed, textOf } from "./paper.mjs";
import { CAUTION, pagesOf, project, sheetsOf, site } from "./site.mjs";

const PAPERS = ["A4", "Letter"];
const MILLIMETRE = 25.4 / 72;
/** A printer's own error is larger; a page drawn to fit another paper is out by far more. */
const TRUE_WITHIN = 0.002;

let browser;
before(async () => {
  browser = await openBrowser();
});
after(() => browser?.close());

async function open(name) {
  const page = await browser.newPage();
  await page.goto(pathToFileURL(join(site, name)).href);
  await page.emulateMedia({ media: "print" });
  return page;
}

const cards = pagesOf(site).filter((name) => name.endsWith("/torque-card.html"));
test("each machine has a torque card", () => assert.deepEqual(cards, ["hb-2/torque-card.html", "tarn-18/torque-card.html"]));

for (const name of cards) {
  test(`${name} is a page for a dozen torques on A4 and on Letter, each large`, async () => {
    const page = await open(name);
    const figures = await page.locator(".card-value .figure").evaluateAll((all) =>
      all.map((figure) => [figure.innerText, (parseFloat(getComputedStyle(figure).fontSize) * 72) / 96]),
    );
    assert.ok(figures.length >= 9, `${figures.length}`);
    for (const [text, size] of figures) assert.ok(size >= 15.99, `${text} is set in ${size} points`);
    const overflowing = await page.locator(".card-table td, .card-table th").evaluateAll((cells) =>
      cells.filter((cell) => cell.scrollWidth > cell.clientWidth + 1).map((cell) => cell.innerText),
    );
    assert.deepEqual(overflowing, []);
    for (const paper of PAPERS) {
      const { pages } = await print(page, paper);
      // A dozen torques fill a page; a motor with fifty takes as many pages as it takes, each with its head.
      assert.ok(pages.length <= Math.ceil(figures.length / 13), `${paper}: ${pages.length} pages for ${figures.length} torques`);
      const said = pages.map(({ words }) => textOf(words)).join("");
      assert.ok(said.includes(squeezed(CAUTION)), `${paper}: no standing caution`);
      for (const [text] of figures) assert.ok(said.includes(squeezed(text)), `${paper}: no ${text}`);
    }
    await page.close();
  });
}

const boards = pagesOf(site).filter((name) => /-board-[^/]+\.html$/.test(name));
test("the demo has a bolt board, and only for what has places in millimetres", () => {
  assert.deepEqual(boards, ["tarn-18/close-gearcase-board-mid-bolt.html", "tarn-18/head-valves-camshaft-board-head-bolt.html"]);
});

for (const name of boards) {
  test(`${name} hides no words on a screen, and tells that it is wider than a phone`, async () => {
    for (const width of [1280, 390]) {
      const page = await browser.newPage();
      await page.setViewportSize({ width, height: 800 });
      await page.goto(pathToFileURL(join(site, name)).href);
      const found = await page.evaluate(() => {
        const box = document.querySelector(".board-scroll");
        const isWide = box.scrollWidth > box.clientWidth;
        box.scrollLeft = box.scrollWidth;
        const ends = [...document.querySelectorAll(".board-words")].map((one) => one.getBoundingClientRect().right);
        const [line] = [...document.querySelectorAll(".board-text strong")].map((one) => one.textContent);
        return { isWide, hidden: Math.max(...ends) - box.getBoundingClientRect().right, told: document.querySelector(".board-push").checkVisibility(), line };
      });
      assert.ok(found.hidden <= 0, `at ${width} px ${found.hidden} px of the words are hidden`);
      // Half a range, or a number without its unit, is a wrong value.
      assert.match(found.line, /100\u00a0%.* 50\u00a0mm;/);
      if (width === 390) assert.deepEqual([found.isWide, found.told], [true, true]);
      else if (found.isWide) assert.ok(found.told);
      await page.close();
    }
  });
}

test("the bolt board is printed at true size on its own paper", async () => {
  // The places as the author wrote them: what is measured on paper is held against the manual, not against the page.
  const source = readFileSync(join(project, "procedures/tarn-18/machine.yaml"), "utf8");
  const places = JSON.parse(/mid-bolt:[\s\S]*?layout: \{at: (\[\[.*?\]\])[,}]/.exec(source)[1]);
  const page = await open(boards[0]);
  const { file, pages } = await print(page, "A4");
  await page.close();
  assert.equal(pages.length, 1);
  const { circles, bars } = drawnOn(file);
  assert.equal(circles.length, places.length);
  for (const { diameter } of circles) assert.ok(Math.abs(diameter - 8) < 8 * TRUE_WITHIN + 0.02, `a hole of ${diameter} mm for M8`);
  for (const [one, [x1, y1]] of places.entries()) {
    for (const [other, [x2, y2]] of places.entries()) {
      const is = Math.hypot(circles[one].x - circles[other].x, circles[one].y - circles[other].y);
      const wanted = Math.hypot(x1 - x2, y1 - y2);
      assert.ok(Math.abs(is - wanted) <= wanted * TRUE_WITHIN + 0.02, `${one + 1} to ${other + 1}: ${is} mm, not ${wanted} mm`);
    }
  }
  // Not mirrored: from the first hole to the second it goes to the right and down, as in the manual (y upwards).
  const turn = (a, b, c) => Math.sign((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  const written = places.map(([x, y]) => ({ x, y: -y }));
  assert.equal(turn(circles[0], circles[1], circles[2]), turn(written[0], written[1], written[2]));
  for (const way of ["across", "down"]) {
    const found = bars[way].filter((length) => Math.abs(length - 50) <= 50 * TRUE_WITHIN);
    assert.equal(found.length, 1, `a bar of 50 mm ${way}: ${bars[way]}`);
  }
});

for (const [name, edge] of [["tarn-18/close-gearcase-board-mid-bolt.html", "front of the motor"], ["tarn-18/head-valves-camshaft-board-head-bolt.html", "flywheel end"]]) {
  test(`${name} is one leaf with its caution, and says what lies above its uppermost hole`, async () => {
    const page = await open(name);
    for (const paper of ["A4", "Letter"]) {
      const { pages } = await print(page, paper);
      assert.equal(pages.length, 1, paper);
      assert.ok(textOf(pages[0].words).includes(squeezed(CAUTION)), paper);
    }
    const found = await page.evaluate(() => ({ words: document.querySelector(".board-edge").textContent, low: document.querySelector(".board-edge").getBoundingClientRect().bottom, top: Math.min(...[...document.querySelectorAll(".board-hole, .board-cross, .board-turn, .board-words")].filter((one) => !one.textContent.includes("50")).map((one) => one.getBoundingClientRect().top)), heard: document.querySelector(".board-svg").getAttribute("aria-label") }));
    // The list above the holes tells their order in the numbers that they bear.
    const turns = await page.evaluate(() => ({ told: document.querySelector(".board-facts").textContent.trim(), drawn: [...document.querySelectorAll(".board-turn")].map((one) => Number(one.textContent)) }));
    await page.close();
    assert.deepEqual(turns.drawn.sort((one, other) => one - other), turns.drawn.map((_, at) => at + 1));
    assert.ok(turns.told.endsWith(`tightened in turn, 1 to ${turns.drawn.length}`) && !turns.told.includes("positions"), turns.told);
    assert.equal(found.words, edge);
    assert.ok(found.low <= found.top, `${found.low} over ${found.top}`);
    assert.ok(found.heard.includes(`At the top: ${edge}.`), found.heard);
  });
}

/** Circles and straight strokes of a PDF's only page, in millimetres, read by Poppler. */
function drawnOn(file) {
  const { status, stdout, stderr } = spawnSync("pdftocairo", ["-svg", file, "-"], { encoding: "utf8", maxBuffer: 1 << 28 });
  assert.equal(status, 0, stderr);
  const drawn = { circles: [], bars: { across: [], down: [] } };
  for (const [path] of stdout.matchAll(/<path [^>]*>/g)) {
    const d = / d="([^"]*)"/.exec(path)[1];
    const [a, b, c, e, x, y] = (/matrix\(([^)]*)\)/.exec(path)?.[1] ?? "1,0,0,1,0,0").split(",").map(Number);
    assert.ok(b === 0 && c === 0, "nothing is turned");
    const at = (px, py) => [(a * px + x) * MILLIMETRE, (e * py + y) * MILLIMETRE];
    const pairs = (text) => [...text.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, px, py]) => at(Number(px), Number(py)));
    if (/stroke-width:0\.35/.test(path) && d.includes("C")) {
      const points = pairs(d);
      const ends = (axis) => [Math.min(...points.map((p) => p[axis])), Math.max(...points.map((p) => p[axis]))];
      const [[left, right], [top, bottom]] = [ends(0), ends(1)];
      drawn.circles.push({ x: (left + right) / 2, y: (top + bottom) / 2, diameter: right - left });
      assert.ok(Math.abs(right - left - (bottom - top)) < 0.02, "a hole is round");
    } else if (/stroke-width:0\.35/.test(path)) {
      for (const stroke of d.split("M").slice(1)) {
        const [[x1, y1], [x2, y2]] = pairs(stroke);
        if (Math.abs(y1 - y2) < 0.01) drawn.bars.across.push(Math.abs(x2 - x1));
        else drawn.bars.down.push(Math.abs(y2 - y1));
      }
    }
  }
  return drawn;
}

for (const name of pagesOf(site).filter((name) => /(^|\/)book\.html$/.test(name))) {
  test(`${name} is one document: ids unique, links within it whole, its chapter at the head of every page`, async () => {
    const page = await open(name);
    const { doubled, lost, chapters } = await page.evaluate(() => {
      const ids = [...document.querySelectorAll("[id]")].map(({ id }) => id);
      const known = new Set(ids);
      return {
        doubled: ids.filter((id, at) => ids.indexOf(id) !== at),
        lost: [...document.querySelectorAll('a[href^="#"]')].map((a) => a.getAttribute("href").slice(1)).filter((id) => !known.has(id)),
        chapters: [...document.querySelectorAll(".book-chapter")].map((chapter) => chapter.querySelector(".running-text").innerText),
      };
    });
    assert.deepEqual(doubled, []);
    assert.deepEqual(lost, []);
    assert.ok(chapters.length >= 4);
    for (const paper of PAPERS) {
      const { pages } = await print(page, paper);
      // Behind the title page and the contents each page begins with the chapter it belongs to, and chapters come in turn.
      let at = -1;
      for (const [index, { words }] of pages.entries()) {
        const head = textOf(words.filter(({ bottom }) => bottom < 40));
        assert.ok(textOf(words).includes(`${index + 1}/${pages.length}`), `${paper}: page ${index + 1} does not say which of how many it is`);
        const found = chapters.findIndex((chapter) => head.startsWith(squeezed(chapter)));
        if (at < 0 && found < 0) continue;
        if (found < 0 && index === pages.length - 1) continue;
        assert.ok(found === at || found === at + 1, `${paper}: page ${index + 1} begins with ${head.slice(0, 60)}`);
        at = found;
      }
      assert.equal(at, chapters.length - 1, `${paper}: every chapter is there`);
    }
    await page.close();
  });
}

test("what a procedure leaves open has a tag, with its bar and its place to finish, and no other sheet has one", async () => {
  const open_ = {
    "hb-2/housing-and-cups": 1,
    "hb-2/output-shaft-and-hub-nut": 1,
    "hb-2/wet-brake-pack": 1,
    "hb-2/worm-shaft-preload": 1,
    "tarn-18/belt-and-flywheel": 1,
    "tarn-18/crank-rods-pistons": 1,
    "tarn-18/head-valves-camshaft": 1,
    "tarn-18/propeller-shaft-carrier": 1,
    "tarn-18/strip-and-tag": 3,
  };
  for (const name of sheetsOf(site)) {
    const page = await open(name);
    const tags = await page.locator(".tag").allInnerTexts();
    assert.equal(tags.length, open_[name.replace(/-sheet.*/, "")] ?? 0, name);
    // A part that is away bars nothing: it can't be fitted before it is back.
    for (const tag of tags) assert.match(tag, /left (away at a vendor,|[\s\S]*Until then no) [\s\S]*Finish it in [\s\S]*step \d+[\s\S]*Serial no\./);
    const dashed = await page.locator(".tag").evaluateAll((all) => all.map((tag) => getComputedStyle(tag).borderTopStyle));
    assert.ok(dashed.every((style) => style === "dashed"), name);
    await page.close();
  }
});
