// Photographs in a small manual: what ExifTool still finds in them, whether libvips makes the same of them, which size a screen
// fetches, what is printed, and that nothing on the page jumps.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser, openPage } from "./browser.mjs";
import { errors } from "./checker.mjs";
import { compared, manualWith, meansOf, pixelsOf, scene, scratch, tag, tagsOf, vips, write } from "./photographs.mjs";
import { serve } from "./server.mjs";
import { bind, pagesOf } from "./site.mjs";

const PAGE = "tarn/hub.html";
/** The kinds of source, each made by libvips with these options and then changed by hand. */
const SOURCES = {
  "plain.jpg": { options: "[Q=92]" },
  "progressive.jpg": { options: "[Q=92,interlace]" },
  "portrait.jpg": { options: "[Q=92]", turned: 6 },
  "upside.png": { options: "[compression=1]", turned: 3 },
  "interlaced.png": { options: "[compression=1,interlace]" },
  "lossy.webp": { options: "[Q=90]", whole: true },
  "wide.jpg": { options: "[Q=95]", space: "p3" },
  "inks.jpg": { options: "[Q=95]", space: "cmyk" },
  "small.jpg": { options: "[Q=92]", width: 320, height: 240 },
};
/** Tags by which a file's pixels are read; whatever else is found is one too many. */
const STRUCTURE = new RegExp(
  "^(File:(FileType|FileTypeExtension|MIMEType|ImageWidth|ImageHeight|EncodingProcess|BitsPerSample|ColorComponents|YCbCrSubSampling)" +
    "|JFIF:(JFIFVersion|ResolutionUnit|XResolution|YResolution)" +
    "|PNG:(ImageWidth|ImageHeight|BitDepth|ColorType|Compression|Filter|Interlace))$",
);
/**
 * How much further than libvips' own JPEG of our quality a rendition may lie from what libvips makes without loss. Both lose the
 * same to the JPEG, so a true rendition is hardly further; the rest is for what the programs round and weigh differently.
 */
const FURTHER = 1.1;
/** How much sharper or softer than that JPEG it may be. */
const SHARPER = 0.05;
/** How far the mean of a channel may lie from that of the source in sRGB, in codes: a wrong curve or space moves it by several. */
const BRIGHTER = 0.5;

let browser, server, folder, sources;
before(async () => {
  const { manual, pictures } = manualWith(Object.keys(SOURCES));
  sources = pictures;
  let seed = 1;
  for (const [name, { options, turned, space, width, height }] of Object.entries(SOURCES)) {
    const file = join(pictures, name);
    const picture = scene(width ?? 2000, height ?? 1500, (seed += 1));
    if (space) {
      const plain = scratch("png");
      write(picture, plain);
      vips("icc_transform", plain, file + options, space, "--input-profile", "srgb");
    } else {
      write(picture, file + options);
    }
    const place = ["-GPSLatitude=51.5", "-GPSLatitudeRef=N", "-GPSLongitude=4", "-GPSLongitudeRef=E"];
    tag(file, ...place, "-Make=Orrinshaw", "-SerialNumber=4711", "-Artist=Somebody", "-XMP-dc:Creator=Somebody", "-Comment=told to nobody");
    if (name === "plain.jpg") {
      const thumbnail = scratch("jpg");
      write(scene(160, 120), thumbnail);
      tag(file, `-ThumbnailImage<=${thumbnail}`, "-IPTC:City=Nowhere");
    }
    if (turned) tag(file, "-n", `-Orientation=${turned}`);
  }
  folder = scratch("site");
  assert.equal(bind(manual, folder), 0);
  browser = await openBrowser();
  server = await serve(folder);
});
after(async () => {
  await browser?.close();
  await server?.close();
});

const renditionsOf = (name) => {
  const stem = `${name.split(".")[0]}-`;
  const names = readdirSync(join(folder, "tarn/pictures")).filter((file) => file.startsWith(stem));
  const width = (file) => Number(/-(\d+)\./.exec(file)[1]);
  return names.sort((a, b) => width(a) - width(b)).map((file) => ({ file: join(folder, "tarn/pictures", file), width: width(file) }));
};

for (const [name, { turned, width }] of Object.entries(SOURCES)) {
  test(`${name} has nothing left beside its pixels`, () => {
    const before = tagsOf(join(sources, name)).filter((tag) => !STRUCTURE.test(tag));
    assert.ok(before.length > 8, `the source holds too little to prove anything: ${before}`);
    for (const { file } of renditionsOf(name)) assert.deepEqual(tagsOf(file).filter((tag) => !STRUCTURE.test(tag)), [], file);
  });

  test(`${name} is what libvips makes of it`, () => {
    const made = renditionsOf(name);
    const wanted = width ? [width] : [480, 960, turned === 6 ? 1500 : 1600];
    assert.deepEqual(made.map(({ width }) => width), wanted);
    const source = meansOf(pixelsOf(inSrgb(name)));
    for (const { file, width } of made) {
      const pixels = pixelsOf(file);
      const exact = thumbnail(name, width, "png");
      const ours = compared(pixels, exact);
      const theirs = compared(thumbnail(name, width, "jpg", "[Q=80]"), exact);
      const sharp = ours.sharpness / theirs.sharpness;
      const told = `${file}: ${ours.difference.toFixed(2)} apart, libvips ${theirs.difference.toFixed(2)}; ${sharp.toFixed(3)} as sharp`;
      assert.ok(ours.difference < theirs.difference * FURTHER, told);
      assert.ok(Math.abs(sharp - 1) < SHARPER, told);
      const brighter = meansOf(pixels).map((mean, channel) => mean - source[channel]);
      assert.ok(brighter.every((codes) => Math.abs(codes) < BRIGHTER), `${file}: brighter by ${brighter}`);
    }
  });
}

/** What libvips makes of a source: turned, shrunk and in sRGB. */
function thumbnail(name, width, ending, options = "") {
  const file = scratch(ending);
  vips("thumbnail", inSrgb(name), file + options, String(width), "--height", "9999", "--size", "down");
  return pixelsOf(file);
}

const converted = new Map();
/**
 * A source in sRGB and as large as it is. libvips' own way of shrinking a file with a profile is no measure: it goes through a
 * space of its own and leaves inks up to five codes from what Little CMS makes of them directly. So the whole source is converted
 * first, by Little CMS and the profile in the file, and shrunk then. WebP is unpacked first as well: libvips would let the decoder
 * shrink it, which blurs.
 */
function inSrgb(name) {
  const source = join(sources, name);
  const { space, whole } = SOURCES[name];
  // Without a profile its colours are sRGB already.
  if (!space && !whole) return source;
  if (!converted.has(name)) {
    const file = scratch("png");
    if (whole) vips("copy", source, `${file}[compression=1]`);
    else vips("icc_transform", source, `${file}[compression=1]`, "srgb", "--embedded", "--intent", "relative");
    converted.set(name, file);
  }
  return converted.get(name);
}

test("a wrong colour or a blur would be seen", () => {
  const [{ file }] = renditionsOf("plain.jpg");
  const exact = thumbnail("plain.jpg", 480, "png");
  const bound = compared(thumbnail("plain.jpg", 480, "jpg", "[Q=80]"), exact).difference * FURTHER;
  const blurred = scratch("png");
  vips("gaussblur", file, blurred, "1");
  assert.ok(compared(pixelsOf(blurred), exact).sharpness < 1 - SHARPER);
  // The codes of a wide space taken for those of sRGB.
  const p3 = scratch("png");
  vips("icc_transform", file, `${p3}[strip]`, "p3", "--input-profile", "srgb");
  assert.ok(compared(pixelsOf(p3), exact).difference > bound);
});

test("the checker finds no error in the pages that show photographs", () => {
  const page = readFileSync(join(folder, PAGE), "utf8");
  assert.match(page, /<img[^>]* srcset="[^"]+"[^>]* sizes="[^"]+"/);
  assert.deepEqual(errors(pagesOf(folder).map((name) => join(folder, name))), []);
  // It does read lengths in `sizes`, though not what stands in `min()`: that the browser proves below, by what it fetches.
  const faulty = scratch("html");
  writeFileSync(faulty, page.replace(/ sizes="[^"]+"/, ' sizes="(min-width: 40em) 90"'));
  assert.match(errors([faulty]).join("\n"), /sizes/);
});

for (const [width, ratio, expected] of [
  [390, 1, { plain: 480, portrait: 480, small: 320 }],
  [390, 2, { plain: 960, portrait: 960, small: 320 }],
  [1280, 1, { plain: 960, portrait: 480, small: 320 }],
  [1280, 2, { plain: 1600, portrait: 960, small: 320 }],
]) {
  test(`a window of ${width} px with ${ratio} dots a pixel fetches what it shows, when it shows it, and nothing jumps`, async () => {
    // What the page itself asks for; the copy on the device has a test of its own.
    const context = await browser.newContext({ viewport: { width, height: 900 }, deviceScaleFactor: ratio, serviceWorkers: "block" });
    const asked = [];
    context.on("request", (request) => asked.push(request.url().split("/").pop()));
    const { page, faults } = await openPage(context, server.address + PAGE, server.address);
    const pictures = () => asked.filter((name) => /\.(jpg|png)$/.test(name));
    assert.ok(pictures().some((name) => name.startsWith("plain-")), "the first picture waits");
    assert.ok(!pictures().some((name) => /^(small|inks)-/.test(name)), `the last pictures do not wait: ${pictures()}`);
    const { shift, shown } = await page.evaluate(readToTheEnd);
    await context.close();
    assert.deepEqual(faults.filter((fault) => !/Service Worker/.test(fault)), []);
    assert.equal(shift, 0);
    for (const [name, size] of Object.entries(expected)) {
      const found = shown.find(({ file }) => file.startsWith(`${name}-`));
      assert.match(found?.file ?? "none", new RegExp(`^${name}-${size}\\.`));
      assert.ok(found.width <= found.natural, `${name} is shown larger than it is`);
    }
    // One size of each photograph, and none for paper.
    assert.equal(pictures().length, Object.keys(SOURCES).length, pictures().join(" "));
  });
}

/** Runs in the page. */
async function readToTheEnd() {
  let shift = 0;
  const observer = new PerformanceObserver((list) => list.getEntries().forEach((entry) => (shift += entry.value)));
  observer.observe({ type: "layout-shift", buffered: true });
  const shown = [...document.images].filter((image) => image.checkVisibility());
  for (const image of shown) {
    image.scrollIntoView({ behavior: "instant" });
    if (!image.complete) await new Promise((done) => (image.onload = image.onerror = done));
    await new Promise((painted) => requestAnimationFrame(() => requestAnimationFrame(painted)));
  }
  await new Promise((done) => setTimeout(done, 100));
  observer.takeRecords().forEach((entry) => (shift += entry.value));
  const told = (image) => ({ file: image.currentSrc.split("/").pop(), width: image.width, natural: Number(image.getAttribute("width")) });
  return { shift, shown: shown.map(told) };
}

test("paper gets the largest size from the narrowest window, pictures that were never scrolled to included", async () => {
  const context = await browser.newContext({ viewport: { width: 390, height: 700 } });
  const { page } = await openPage(context, server.address + PAGE, server.address);
  const file = scratch("pdf");
  await page.pdf({ path: file, format: "A4" });
  await context.close();
  const lines = execFileSync("pdfimages", ["-list", file], { encoding: "utf8" }).split("\n").slice(2).filter(Boolean);
  const widths = lines.map((line) => line.trim().split(/\s+/)).filter(([, , kind]) => kind === "image").map((cells) => Number(cells[3]));
  // The size of the screen lies beneath the largest of the same photograph, so the largest is the later of the two.
  const large = Object.values(SOURCES).filter(({ width }) => !width);
  assert.equal(widths.filter((width) => width >= 1500).length, large.length, widths.join(" "));
  assert.ok(widths.every((width, at) => width !== 480 || widths[at + 1] >= 1500), widths.join(" "));
  assert.ok(widths.includes(320));
});
