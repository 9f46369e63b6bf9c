// A drawing can do nothing but be looked at, also where somebody opens it by itself on a server that sets no policy. Each of
// these asks Chromium for something else when it is opened as it is; none is let into a manual.
//
// Why they do: SVG 2, section 6.6 (presentation attributes are read as style, escapes and functions too); CSS Syntax 3,
// section 4.3.7 (escapes); HTML Standard, 4.2.6 (a style is all the text in its element, whatever stands between).

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { createServer } from "node:http";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser } from "./browser.mjs";
import { project, temporaryFolder } from "./site.mjs";

const PROGRAM = process.env.BENCHLEAF ?? join(process.env.CARGO_TARGET_DIR ?? join(project, "target"), "debug", "benchleaf");

/** What stands in a drawing; AWAY is an address on the server that listens. */
const CALLS = [
  `<style>@import 'AWAY';</style>`,
  `<style><g/><a></a>@import 'AWAY';</style>`,
  `<style><g><a/></g>@import 'AWAY';</style>`,
  `<style>@im<!-- -->port 'AWAY';</style>`,
  `<style>@im<![CDATA[port 'AWAY';]]></style>`,
  `<style>rect { mask: ur<!-- -->l(AWAY#a) }</style>`,
  `<style>rect { mask: u\\72l(AWAY#a) }</style>`,
  ...["fill", "stroke", "filter", "mask", "clip-path", "cursor"].map((key) => `<rect width="9" height="9" ${key}="\\75rl(AWAY#a)${key === "cursor" ? ",auto" : ""}"/>`),
  ...["marker-start", "marker-mid", "marker-end"].map((key) => `<path d="M0 0h9h9" ${key}="\\75rl(AWAY#a)"/>`),
  `<rect width="9" height="9" mask="image-set('AWAY' 1x)"/>`,
  `<image width="9" height="9" href="AWAY"/>`,
  `<use href="AWAY#a"/>`,
  `<h:img xmlns:h="http://www.w3.org/1999/xhtml" srcset="AWAY 1x"/>`,
  `<h:input xmlns:h="http://www.w3.org/1999/xhtml" type="image" src="AWAY"/>`,
  `<h:body xmlns:h="http://www.w3.org/1999/xhtml" background="AWAY"/>`,
];

const drawing = (inner, away) => `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30">${inner.replaceAll("AWAY", away)}<rect width="9" height="9"/></svg>`;

let browser, server, address, asked;

before(async () => {
  server = createServer((request, response) => {
    const at = /^\/(\d+)\.svg$/.exec(request.url)?.[1];
    if (at === undefined) {
      asked.push(request.url);
      return response.writeHead(404).end();
    }
    response.writeHead(200, { "content-type": "image/svg+xml" }).end(drawing(CALLS[at], `${address}away-${at}`));
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  address = `http://127.0.0.1:${server.address().port}/`;
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  server?.close();
  server?.closeAllConnections();
});

test("each of these drawings asks for something when it is opened", async () => {
  asked = [];
  const page = await browser.newPage();
  for (const at of CALLS.keys()) {
    await page.goto(`${address}${at}.svg`, { waitUntil: "networkidle" });
  }
  const silent = CALLS.filter((_, at) => !asked.some((url) => url.startsWith(`/away-${at}`)));
  // A body that is not the page's own draws no background: it stays refused with all of its kind.
  assert.deepEqual(silent.filter((inner) => !inner.startsWith("<h:body")), []);
  await page.close();
});

test("none of them is let into a manual, and none of the demo's own is kept out", () => {
  const folder = join(temporaryFolder(), "manual");
  mkdirSync(join(folder, "m/pictures"), { recursive: true });
  writeFileSync(join(folder, "manual.yaml"), "title: x\npublisher: x\nlanguage: en\n");
  writeFileSync(join(folder, "m/machine.yaml"), "name: x\nkind: pump\nrevision: 1\ndate: 2026-09-14\n");
  for (const [at, inner] of CALLS.entries()) writeFileSync(join(folder, `m/pictures/d${at}.svg`), drawing(inner, "https://elsewhere.example/x"));
  writeFileSync(join(folder, "m/pictures/good.svg"), drawing("<style>.a { fill: url(#g) }</style><rect class='a' mask='url(#m)' cursor='help'/>", ""));
  const refused = refusals(folder);
  assert.deepEqual(refused, CALLS.map((_, at) => `m/pictures/d${at}.svg`).sort());
  assert.deepEqual(refusals(join(project, "procedures")), []);
});

function refusals(folder) {
  const { stdout } = spawnSync(PROGRAM, ["inspect", folder], { encoding: "utf8", maxBuffer: 1 << 26 });
  const blocks = stdout.split("\n\n").filter((block) => block.includes("(picture-refused)"));
  return blocks.map((block) => /^ {2}(\S+\.svg)/m.exec(block)[1]).sort();
}
