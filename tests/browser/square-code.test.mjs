// The square code of each bench sheet, read by an independent reader (ZBar) from the rendered page and from the paper, and what
// a sheet says when it is opened by the code of a paper.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { openBrowser } from "./browser.mjs";
import { print } from "./paper.mjs";
import { edition, sheetsOf, site, temporaryFolder } from "./site.mjs";

const ADDRESS = "https://club.example/our%20manual/";
/** What a printer on office paper does well (common practice). */
const LEAST_MODULE = 0.33;
const LEAST_SYMBOL = 20;
const folder = temporaryFolder();
let shots = 0;

const online = edition([{ file: "manual.yaml", from: "paper: A4", to: `paper: A4\naddress: ${ADDRESS}` }]);
const editions = { "without an address": site, "with its address": online.folder };

let browser;
before(async () => {
  browser = await openBrowser();
});
after(() => browser?.close());

test("the edition with an address is published", () => assert.equal(online.code, 0));

for (const [kind, where] of Object.entries(editions)) {
  for (const name of sheetsOf(where)) {
    test(`${name} ${kind}: screen and paper carry the code of the sheet`, async () => {
      const page = await open(where, name);
      const says = await page.evaluate(whatItSays);
      const mark = `${says.revision}.${says.fingerprint}`;
      assert.match(says.fingerprint, /^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}$/);
      assert.ok(says.words.includes(says.fingerprint) && says.words.includes(`revision ${says.revision}`), says.words);
      const file = join(folder, `${(shots += 1)}.png`);
      await page.screenshot({ path: file });
      const wanted =
        where === site
          ? new RegExp(`^benchleaf-paper/1 ${says.machine}/${says.procedure} (-|[^ ]+=[^ ]+) revision ${says.revision} fingerprint ${says.fingerprint}$`)
          : new RegExp(`^${ADDRESS}${name.replaceAll(".", "\\.")}#paper=${mark.replaceAll(".", "\\.")}$`);
      assert.match(read(file), wanted);
      const { file: pdf } = await print(page, "A4");
      assert.equal(readPdf(pdf), read(file));
      assert.ok(says.symbol >= LEAST_SYMBOL && says.module >= LEAST_MODULE, `${says.symbol} mm, a module of ${says.module} mm`);
      await page.close();
    });
  }
}

const SHEET = "tarn-18/pinion-height-and-backlash-sheet-late.html";

test("a paper is told to be current, out of date, later, or unreadable", async () => {
  const page = await open(site, SHEET);
  const { revision, fingerprint } = await page.evaluate(whatItSays);
  assert.equal(await page.locator(".paper-news").count(), 0);
  const news = async (fragment) => {
    await page.evaluate((to) => (location.hash = to), fragment);
    await page.waitForFunction(() => document.querySelector("main > .paper-news"));
    await page.waitForTimeout(50);
    assert.equal(await page.locator(".paper-news .paper-verdict").count(), 1);
    assert.equal(await page.locator(".paper-news").getAttribute("role"), "alert");
    return page.locator(".paper-news").innerText();
  };
  const other = fingerprint.startsWith("0") ? fingerprint.replace("0", "1") : `0${fingerprint.slice(1)}`;
  assert.match(await news(`paper=${revision}.${fingerprint}`), /The paper in your hand is current\./);
  assert.match(await news(`paper=${revision}.${fingerprint.toLowerCase()}`), /The paper in your hand is current\./);
  assert.match(await news(`paper=${revision - 1}.${fingerprint}`), /current: it is of revision 3, now 4, and no value/);
  assert.match(await news(`paper=${revision - 1}.${other}`), /out of date: revision 3, now 4\. Do not use it/);
  assert.match(await news(`paper=${revision}.${other}`), /out of date: a value on it has changed/);
  assert.match(await news(`paper=${revision + 1}.${other}`), /this page is the older one/);
  assert.match(await news("paper=-.7K3M"), /can't be read/);
  const hostile = await news("paper=4.%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E");
  assert.match(hostile, /can't be read/);
  assert.equal(await page.locator(".paper-news img").count(), 0);
  await page.evaluate(() => (location.hash = "page.content"));
  await page.waitForFunction(() => !document.querySelector("main > .paper-news"));
  await page.close();
});

test("a paper that is out of date names the values that changed since", async () => {
  const page = await open(site, SHEET);
  const lines = page.locator(".paper-news [data-changes=own] li");
  const { revision } = await page.evaluate(whatItSays);
  await page.evaluate((to) => (location.hash = to), `paper=${revision - 3}.0000-0000-0000`);
  await page.waitForFunction(() => document.querySelector("main > .paper-news"));
  const told = await lines.allInnerTexts();
  assert.ok(told.some((line) => /Pinion nut.*was 70/.test(line)), told.join("\n"));
  await page.evaluate((to) => (location.hash = to), `paper=${revision}.0000-0000-0000`);
  await page.waitForTimeout(100);
  assert.equal(await lines.count(), 0, "a change that the paper has already is not told");
  await page.close();
});

test("without script the sheet shows its fingerprint, and its paper shows no verdict", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(`${pathToFileURL(join(site, SHEET)).href}#paper=1.0000-0000-0000`);
  assert.match(await page.locator(".block-code .fingerprint").innerText(), /^[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{4}$/);
  assert.equal(await page.locator(".paper-news").count(), 0);
  await context.close();
});

test("the verdict on a paper is not printed", async () => {
  const page = await open(site, SHEET);
  await page.evaluate(() => (location.hash = "paper=1.0000-0000-0000"));
  await page.waitForFunction(() => document.querySelector("main > .paper-news"));
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator(".paper-news").isVisible(), false);
  await page.close();
});

async function open(where, name) {
  // As sharp as a telephone's screen.
  const page = await browser.newPage({ deviceScaleFactor: 2, viewport: { width: 900, height: 900 } });
  await page.goto(pathToFileURL(join(where, name)).href);
  return page;
}

/** The text of the one code of a picture. */
function read(image) {
  const codes = reader(image);
  assert.equal(codes.length, 1, `${codes.length} codes are read from ${image}`);
  return codes[0];
}

/** The text of the one code of a printed sheet. */
function readPdf(pdf) {
  const start = pdf.replace(/\.pdf$/, "-code");
  // What an office printer does, and half of that: an old one.
  const texts = [300, 150].map((dots) => {
    const { status, stderr } = spawnSync("pdftoppm", ["-gray", "-r", String(dots), pdf, `${start}-${dots}`], { encoding: "utf8" });
    assert.equal(status, 0, stderr);
    const stem = `${start}-${dots}`.split("/").pop();
    const images = readdirSync(join(pdf, "..")).filter((name) => name.startsWith(stem));
    const codes = images.flatMap((name) => reader(join(pdf, "..", name)));
    assert.equal(codes.length, 1, `${codes.length} codes are read at ${dots} dots an inch`);
    return codes[0];
  });
  assert.equal(texts[0], texts[1]);
  return texts[0];
}

function reader(image) {
  const { error, status, stdout, stderr } = spawnSync("zbarimg", ["--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", image], { encoding: "utf8" });
  if (error) throw new Error(`no zbarimg: install Debian's package zbar-tools (${error.message})`);
  // 4: it has read the picture and found no code in it.
  if (status !== 0 && status !== 4) throw new Error(`zbarimg: ${stderr}`);
  return stdout.split("\n").filter(Boolean);
}

/** Runs in the page. */
function whatItSays() {
  const block = document.querySelector("[data-fingerprint]");
  const code = block.querySelector("svg");
  const millimetres = (code.getBoundingClientRect().width / 96) * 25.4;
  const module = millimetres / code.viewBox.baseVal.width;
  const { machine, procedure, revision, fingerprint } = block.dataset;
  const words = block.innerText.replace(/\s+/g, " ");
  return { machine, procedure, revision: Number(revision), fingerprint, words, module, symbol: millimetres - 8 * module };
}
