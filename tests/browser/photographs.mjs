// Photographs made for the tests, and programs of others that look at what became of them: libvips for pixels, ExifTool for
// everything else in a file.

import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { temporaryFolder } from "./site.mjs";

const folder = temporaryFolder();
let made = 0;

/** A path for a file that is gone when the tests end. */
export function scratch(ending) {
  return join(folder, `${(made += 1)}.${ending}`);
}

/** A scene with slopes, edges at an angle, strong and dull colours, and the noise of a camera; red, green and blue of each pixel. */
export function scene(width, height, seed = 1) {
  const pixels = Buffer.alloc(width * height * 3);
  let random = seed;
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      random = (Math.imul(random, 1664525) + 1013904223) >>> 0;
      const noise = (random >>> 24) / 32 - 4;
      const [u, v] = [x / width, y / height];
      const disc = Math.hypot(u - 0.6, (v - 0.45) * (height / width)) < 0.2 ? 70 : 0;
      const stripe = ((u * 3 + v) * 10) % 1 < 0.5 ? 30 : 0;
      const at = (y * width + x) * 3;
      pixels[at] = clamp(40 + 130 * u + disc + stripe + noise);
      pixels[at + 1] = clamp(60 + 110 * v + stripe + noise);
      pixels[at + 2] = clamp(150 - 110 * u + disc / 2 + noise);
    }
  }
  return { width, height, pixels };
}

/** Writes a scene as a file of the kind its name tells, with options of libvips in brackets: `a.jpg[Q=90,interlace]`. */
export function write(picture, file) {
  const plain = scratch("ppm");
  writeFileSync(plain, Buffer.concat([Buffer.from(`P6\n${picture.width} ${picture.height}\n255\n`), picture.pixels]));
  vips("copy", plain, file);
}

/** The pixels of a picture as libvips reads them: three channels of 8 bits. */
export function pixelsOf(file) {
  const plain = scratch("ppm");
  vips("colourspace", file, plain, "srgb");
  const bytes = readFileSync(plain);
  const head = /^P6\s+(?:#[^\n]*\s+)*(\d+)\s+(\d+)\s+255\s/.exec(bytes.toString("latin1", 0, 400));
  return { width: Number(head[1]), height: Number(head[2]), pixels: bytes.subarray(head[0].length) };
}

/** How far two pictures of one size lie apart: the mean difference of a channel, and how much sharper the first is. */
export function compared(one, other) {
  if (one.width !== other.width || one.height !== other.height) throw new Error("the sizes differ");
  let sum = 0;
  for (let at = 0; at < one.pixels.length; at += 1) sum += Math.abs(one.pixels[at] - other.pixels[at]);
  return { difference: sum / one.pixels.length, sharpness: bend(one) / bend(other) };
}

/** The mean of each channel. */
export function meansOf({ pixels }) {
  const sums = [0, 0, 0];
  for (let at = 0; at < pixels.length; at += 1) sums[at % 3] += pixels[at];
  return sums.map((sum) => (sum / pixels.length) * 3);
}

/** The mean bend between a pixel and those beside it: what blur takes away first. */
function bend({ width, height, pixels }) {
  let sum = 0;
  for (let y = 0; y < height; y += 1) {
    for (let x = 2; x < width; x += 1) {
      const at = (y * width + x) * 3 + 1;
      sum += Math.abs(pixels[at] - 2 * pixels[at - 3] + pixels[at - 6]);
    }
  }
  return sum / (width * height);
}

export function vips(...args) {
  run("vips", "libvips-tools", args);
}

/** Every tag ExifTool finds in a file, but what the file system tells of it. */
export function tagsOf(file) {
  const [tags] = JSON.parse(run("exiftool", "libimage-exiftool-perl", ["-json", "-a", "-G1", "-s", "-u", "-U", file]));
  return Object.keys(tags).filter((tag) => !/^(SourceFile$|ExifTool:|System:|Composite:)/.test(tag));
}

/** Writes tags into a file. */
export function tag(file, ...tags) {
  run("exiftool", "libimage-exiftool-perl", ["-q", "-overwrite_original", ...tags, file]);
}

/** A manual of one procedure that shows pictures, one a step; gives its folder and that of the pictures. */
export function manualWith(names) {
  const manual = scratch("manual");
  const pictures = join(manual, "tarn/pictures");
  mkdirSync(pictures, { recursive: true });
  writeFileSync(join(manual, "manual.yaml"), "title: Trial\npublisher: Trial Society (invented)\nlanguage: en-GB\nprofile: working\n");
  const machine = "name: Tarn\nmaker: Orrinshaw (invented)\nkind: outboard motor\nrevision: 1\ndate: 2026-09-14\n";
  writeFileSync(join(manual, "tarn/machine.yaml"), machine);
  const steps = names.map((name, at) => {
    const words = `Look at it from above, and then from below, before going on.\n\n![The hub from above, view ${at}](pictures/${name})\n`;
    return `\n## Look ${at} {#look-${at}}\n\n${words}`;
  });
  const head = "---\ntitle: The hub\nrevision: 1\ndate: 2026-09-14\n---\n";
  writeFileSync(join(manual, "tarn/hub.md"), head + steps.join(""));
  return { manual, pictures };
}

function clamp(value) {
  return Math.max(0, Math.min(255, Math.round(value)));
}

function run(program, debian, args) {
  const { error, status, stdout, stderr } = spawnSync(program, args, { encoding: "utf8", maxBuffer: 1 << 28 });
  if (error) throw new Error(`no ${program}: install Debian's package ${debian} (${error.message})`);
  if (status !== 0) throw new Error(`${program} ${args.join(" ")}: ${stderr}`);
  return stdout;
}
