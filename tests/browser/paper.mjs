// Paper: a page printed to PDF, its words with their places in millimetres, and where its ink ends. Poppler's programs read
// the PDF, so what is judged is what a printer would get.

import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { temporaryFolder } from "./site.mjs";

const POINT = 25.4 / 72;
/** Fine enough for the thinnest rule of a sheet, 0.35 mm. */
const DOTS_PER_INCH = 100;
const DOT = 25.4 / DOTS_PER_INCH;

const folder = temporaryFolder();
let printed = 0;

/** Prints what a browser's page shows, as a person would who changes nothing but the paper. */
export async function print(page, paper) {
  const file = join(folder, `${(printed += 1)}.pdf`);
  await page.pdf({ path: file, format: paper, preferCSSPageSize: false, printBackground: false });
  return { file, pages: wordsOf(file) };
}

/** The pages' sizes and words, in millimetres from the upper left corner, in the order they are drawn. */
function wordsOf(file) {
  const xml = poppler("pdftotext", ["-bbox", "-raw", file, "-"]);
  const pages = [];
  for (const [tag, kind, numbers, text] of xml.matchAll(/<(page|word) ([^>]*)>([^<]*)/g)) {
    const of = (name) => Number(new RegExp(`\\b${name}="([\\d.]+)"`).exec(numbers)?.[1]) * POINT;
    if (kind === "page") pages.push({ width: of("width"), height: of("height"), words: [] });
    else pages.at(-1).words.push({ text: unescape(text), left: of("xMin"), top: of("yMin"), right: of("xMax"), bottom: of("yMax") });
    if (!tag) throw new Error("unreadable");
  }
  return pages;
}

/** The box round all ink of each page, in millimetres, with the given boxes left out. */
export function inkOf({ file, pages }, leaveOut) {
  const images = join(folder, `${file.split("/").pop()}-ink`);
  mkdirSync(images);
  poppler("pdftoppm", ["-gray", "-r", String(DOTS_PER_INCH), file, join(images, "page")]);
  const files = readdirSync(images).sort();
  return files.map((name, at) => boxOfInk(readFileSync(join(images, name)), leaveOut(pages[at])));
}

function boxOfInk(file, boxes) {
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(file.toString("latin1", 0, 40));
  const [width, height] = [Number(head[1]), Number(head[2])];
  const dots = file.subarray(head[0].length);
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      if (dots[y * width + x] > 200 || boxes.some((out) => within(x * DOT, y * DOT, out))) continue;
      box.left = Math.min(box.left, x * DOT);
      box.right = Math.max(box.right, (x + 1) * DOT);
      box.top = Math.min(box.top, y * DOT);
      box.bottom = Math.max(box.bottom, (y + 1) * DOT);
    }
  }
  return box;
}

function within(x, y, { left, top, right, bottom }) {
  return x > left - 1 && x < right + 1 && y > top - 1 && y < bottom + 1;
}

/** A page's words in one string without spaces, so that it can be searched whatever the line breaks. */
export function textOf(words) {
  return words.map(({ text }) => squeezed(text)).join("");
}

/** Text without spaces, and with each character in its plain form (ligatures undone). */
export function squeezed(text) {
  return text.normalize("NFKC").replace(/\s+/g, "");
}

/** The words that hold the characters of `textOf` from `start` to before `end`. */
export function wordsBetween(words, start, end) {
  let at = 0;
  return words.filter(({ text }) => {
    const from = at;
    at += squeezed(text).length;
    return from < end && at > start;
  });
}

function poppler(program, args) {
  const { error, status, stdout, stderr } = spawnSync(program, args, { encoding: "utf8", maxBuffer: 1 << 28 });
  if (error) throw new Error(`no ${program}: install Debian's package poppler-utils (${error.message})`);
  if (status !== 0) throw new Error(`${program}: ${stderr}`);
  return stdout;
}

function unescape(text) {
  const named = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };
  return text.replace(/&(?:#(\d+)|#x([0-9a-f]+)|(\w+));/gi, (all, ten, sixteen, name) =>
    ten ? String.fromCodePoint(Number(ten)) : sixteen ? String.fromCodePoint(parseInt(sixteen, 16)) : (named[name] ?? all),
  );
}
