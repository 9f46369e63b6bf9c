// Bench sheets on paper: the demo's sheets and those of its Letter edition, each printed on A4 and on Letter.

import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { openBrowser } from "./browser.mjs";
import { inkOf, print, squeezed, textOf, wordsBetween } from "./paper.mjs";
import { CAUTION, edition, sheetsOf, site } from "./site.mjs";

/** What a sheet may cover on either paper: A4 is 210 mm wide, Letter 279.4 mm high; the rest is for holes and a clip. */
const ROOM = { width: 180, height: 245, left: 18, top: 20 };
/** How far ink may go over a line, in mm: half a dot's width and the printer's own rounding. */
const SLACK = 0.5;
/** Millimetres and points a gloved hand and an eye at arm's length need. */
const LEAST = { box: 8, value: 16, words: 12 };
/** So many pages of paper a sheet of the demo takes, on either paper: what is added to it must not make it longer unseen. */
const MOST_PAGES = {
  "cover-fill-load-test": 7,
  "housing-and-cups": 4,
  "output-shaft-and-hub-nut": 4,
  "wet-brake-pack": 4,
  "worm-shaft-preload": 4,
  "belt-and-flywheel": 5,
  "close-crankcase": 4,
  "close-gearcase": 4,
  "crank-rods-pistons": 5,
  "first-start": 6,
  "head-valves-camshaft": 6,
  "pinion-height-and-backlash": 4,
  "propeller-shaft-carrier": 3,
  "strip-and-tag": 4,
};
/** The running head stands in the first lines of a page; a Letter sheet lies lower on A4. */
const HEAD = 40;
const PAPERS = { A4: [210, 297], Letter: [215.9, 279.4] };

/** The theme's names for what a sheet is made of. */
const ACT = ".tick, .sheet-mark:not(.mark-tool), .tag, .stopped";
const VALUE = ".figure, .other";

let browser;
before(async () => {
  browser = await openBrowser();
});
after(() => browser?.close());

const letter = edition([{ file: "manual.yaml", from: "paper: A4", to: "paper: Letter" }]);
const editions = { A4: site, Letter: letter.folder };

test("the demo is published for Letter too", () => assert.equal(letter.code, 0));

for (const [made, folder] of Object.entries(editions)) {
  for (const name of sheetsOf(folder)) {
    test(`${name} made for ${made}`, async (sheet) => {
      const page = await browser.newPage();
      await page.goto(pathToFileURL(join(folder, name)).href);
      await page.emulateMedia({ media: "print" });
      const says = await page.evaluate(whatItSays, { ACT, VALUE });
      if (made === "A4") await sheet.test("is large enough to work from", () => checkSizes(says));
      for (const paper of Object.keys(PAPERS)) {
        const sheets = await print(page, paper);
        await sheet.test(`on ${paper}`, () => checkPaper(sheets, says, paper, made, name));
      }
      await page.close();
    });
  }
}

function checkSizes({ acts, boxes, values, words }) {
  assert.ok(acts.length > 0 && boxes.length > 0 && values.length > 0);
  for (const [width, height] of boxes) {
    assert.ok(Math.min(width, height) >= LEAST.box - 0.05, `a box to tick of ${width.toFixed(1)} × ${height.toFixed(1)} mm`);
  }
  for (const [text, size] of values) assert.ok(size >= LEAST.value, `${text} is set in ${size} points`);
  for (const [text, size] of words) assert.ok(size >= LEAST.words, `${text} is set in ${size} points`);
}

function checkPaper(sheets, says, paper, made, name) {
  const [width, height] = PAPERS[paper];
  const { pages } = sheets;
  const problems = [];
  const most = MOST_PAGES[/\/(.*)-sheet/.exec(name)[1]];
  if (!(pages.length <= most)) problems.push(`${pages.length} pages, and ${most} is the most`);
  for (const [at, page] of pages.entries()) {
    const number = `page ${at + 1}`;
    if (Math.abs(page.width - width) > 1 || Math.abs(page.height - height) > 1) problems.push(`${number} is not on that paper`);
    problems.push(...headFaults(page, says.head).map((fault) => `${number}: ${fault}`));
    if (!textOf(page.words).includes(`${at + 1}/${pages.length}`)) problems.push(`${number} does not say which of how many it is`);
  }
  problems.push(...inkFaults(sheets, paper === made));
  if (paper === made) problems.push(...cutFaults(pages));
  problems.push(...lastLeafFaults(pages.at(-1)));
  problems.push(...splitFaults(pages, says));
  problems.push(...unitFaults(pages));
  if (!pages.map(({ words }) => textOf(words)).join("").includes(squeezed(CAUTION))) problems.push("no standing caution word for word");
  assert.deepEqual(problems, []);
}

function headFaults({ words }, head) {
  const top = textOf(words.filter(({ bottom }) => bottom < HEAD));
  return head.filter((part) => !top.includes(squeezed(part))).map((part) => `no ${part} in the running head`);
}

/** On the other paper a sheet is drawn smaller and in the middle: it keeps its size, and its margins nearly. */
function inkFaults(sheets, ownPaper) {
  const slack = ownPaper ? SLACK : SLACK + 1;
  return inkOf(sheets, pageNumber).flatMap(({ left, top, right, bottom }, at) => {
    const [wide, high] = [right - left, bottom - top];
    const faults = [];
    if (wide > ROOM.width + SLACK || high > ROOM.height + SLACK) faults.push(`covers ${wide.toFixed(1)} × ${high.toFixed(1)} mm`);
    if (left < ROOM.left - slack) faults.push(`begins ${left.toFixed(1)} mm from the left, where the holes are`);
    if (top < ROOM.top - slack) faults.push(`begins ${top.toFixed(1)} mm from the top, where the clip is`);
    return faults.map((fault) => `page ${at + 1} ${fault}`);
  });
}

/** What runs over the edge of the room is not printed, and so no ink tells of it: the words do. */
function cutFaults(pages) {
  const ends = ROOM.left + ROOM.width + SLACK;
  return pages.flatMap(({ words }, at) => words.filter(({ right }) => right > ends).map(({ text, right }) => `page ${at + 1}: ${text} ends ${(right - ends).toFixed(1)} mm behind the edge`));
}

/** The last leaf holds work, or tags to cut out: one with the place to write where one stopped alone is paper for nothing. */
function lastLeafFaults({ words, height }) {
  const text = textOf(words.filter(({ top, bottom }) => top > 25 && bottom < height - 35));
  if (text === "") return ["the last leaf is empty"];
  const alone = text.startsWith(squeezed("I stopped here")) && !text.includes(squeezed("Stays open"));
  return alone ? ["the last leaf holds nothing but where one stopped"] : [];
}

/** The words `3 / 8` at the foot. */
function pageNumber({ words, height }) {
  return words.filter(({ text, top }) => top > height - 35 && /^[\d/]+$/.test(text));
}

/** Each act stands on one page, each of its values on one line, and a heading on the page of what follows it. */
function splitFaults(pages, { acts, headings }) {
  const texts = pages.map(({ words }) => textOf(words));
  const faults = [];
  let [page, from] = [0, 0];
  for (const { text, values } of acts) {
    const found = find(texts, squeezed(text), page, from);
    if (!found) {
      faults.push(`split between pages: ${text.slice(0, 60)}`);
      continue;
    }
    ({ page, from } = found);
    const words = wordsBetween(pages[page].words, found.start, found.end);
    faults.push(...values.filter((value) => !onOneLine(words, squeezed(value))).map((value) => `broken over two lines: ${value}`));
  }
  for (const { text, next } of headings) {
    if (!texts.some((on) => follows(on, squeezed(text), squeezed(next)))) faults.push(`a heading without its work: ${text}`);
  }
  return faults;
}

/** Whether a heading is followed by its text; the number of a list may stand between. */
function follows(text, heading, next) {
  return text.split(heading).slice(1).some((rest) => rest.slice(0, next.length + 4).includes(next));
}

function find(texts, text, firstPage, firstPlace) {
  for (let page = firstPage; page < texts.length; page += 1) {
    const start = texts[page].indexOf(text, page === firstPage ? firstPlace : 0);
    if (start >= 0) return { page, start, end: start + text.length, from: start + text.length };
  }
  return null;
}

function onOneLine(words, value) {
  const start = textOf(words).indexOf(value);
  const of = wordsBetween(words, start, start + value.length);
  return start >= 0 && Math.max(...of.map(({ top }) => top)) - Math.min(...of.map(({ top }) => top)) < 1;
}

const NUMBER = /^[(±≥≤–-]*\d[\d.,–±]*$/;
const UNIT = /^(N·m|lbf·ft|lbf·in|mm|µm|in|°C|°F|mL|L|bar|psi|kPa|kg|min|h|r\/min)[).,;:]*$/;

/** Nowhere, not in running text either, does a line end with a number whose unit begins the next. */
function unitFaults(pages) {
  return pages.flatMap(({ words }, at) =>
    words.slice(1).flatMap((unit, before) => {
      const number = words[before];
      const parted = NUMBER.test(number.text) && UNIT.test(unit.text) && unit.top - number.top > 2 && unit.left < number.left;
      return parted ? [`page ${at + 1}: ${number.text} parted from ${unit.text}`] : [];
    }),
  );
}

/** Runs in the page. */
function whatItSays({ ACT, VALUE }) {
  const texts = (elements) => [...elements].map((element) => element.innerText.trim()).filter(Boolean);
  const field = (name) => [...document.querySelectorAll("dt")].find((term) => term.innerText === name)?.nextElementSibling.innerText;
  const millimetres = (pixels) => (pixels / 96) * 25.4;
  const points = (element) => [element.innerText, (parseFloat(getComputedStyle(element).fontSize) * 72) / 96];
  for (const hidden of document.querySelectorAll(".hidden")) hidden.remove();
  const acts = [...document.querySelectorAll(ACT)];
  const headings = [...document.querySelectorAll("section > h2")].map((heading) => ({
    text: heading.innerText,
    next: heading.nextElementSibling?.innerText.trim().split(/\s/)[0] ?? "",
  }));
  return {
    head: [field("Machine"), document.querySelector("h1").innerText],
    acts: acts.map((act) => ({ text: act.innerText, values: texts(act.querySelectorAll(VALUE)) })),
    headings,
    boxes: [...document.querySelectorAll(".tick > .box, .small-box")].map((box) => {
      const { width, height } = box.getBoundingClientRect();
      return [millimetres(width), millimetres(height)];
    }),
    values: [...document.querySelectorAll(".tick .figure")].map(points),
    words: [...document.querySelectorAll(".tick-words")].map(points),
  };
}
