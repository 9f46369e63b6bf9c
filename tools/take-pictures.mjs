// The pictures of the README: a step as a page shows it, and a leaf of a bench sheet as it comes out of a printer. Both show
// pages of `site/`, in sixteen colours, so that a picture stays small.

import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { openBrowser } from "../tests/browser/browser.mjs";
import { print } from "../tests/browser/paper.mjs";

const project = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const site = path.join(project, "site");
const pictures = path.join(project, "docs/pictures");

const STEP = { page: "tarn-18/pinion-height-and-backlash.html", step: "gap", width: 1000, picture: "step.png" };
const LEAF = { page: "hb-2/wet-brake-pack-sheet-kit.html", leaf: 3, picture: "sheet.png" };

/** Writes a picture with sixteen colours. */
function write(png, name) {
  const scratch = mkdtempSync(path.join(tmpdir(), "picture-"));
  const from = path.join(scratch, "from.png");
  writeFileSync(from, png);
  execFileSync("vips", ["pngsave", from, path.join(pictures, name), "--palette", "--bitdepth", "4", "--strip", "--compression", "9"]);
  rmSync(scratch, { recursive: true });
}

async function open(browser, file, viewport) {
  const page = await browser.newPage({ viewport });
  await page.goto(pathToFileURL(path.join(site, file)).href, { waitUntil: "load" });
  return page;
}

async function takeStep(browser) {
  const page = await open(browser, STEP.page, { width: STEP.width, height: 1400 });
  write(await page.locator(`#${STEP.step}`).screenshot(), STEP.picture);
  await page.close();
}

/** The leaf without the paper's margins: from the left and the top, then width and height, in dots. */
const DOTS_PER_INCH = 96;
const FRAME = { x: 50, y: 60, W: 720, H: 980 };

async function takeLeaf(browser) {
  const page = await open(browser, LEAF.page, { width: 1000, height: 1400 });
  const { file } = await print(page, "A4");
  const frame = Object.entries(FRAME).flatMap(([side, dots]) => [`-${side}`, `${dots}`]);
  const leaf = ["-f", `${LEAF.leaf}`, "-singlefile"];
  write(execFileSync("pdftoppm", ["-png", "-r", `${DOTS_PER_INCH}`, ...frame, ...leaf, file], { maxBuffer: 1 << 26 }), LEAF.picture);
  await page.close();
}

mkdirSync(pictures, { recursive: true });
const browser = await openBrowser();
try {
  await takeStep(browser);
  await takeLeaf(browser);
} finally {
  await browser.close();
}
