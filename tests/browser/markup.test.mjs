// Markup: the Nu Html Checker, which the WHATWG and the W3C use, reads every page, style sheet and drawing.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { filesOf, pathBelow, site } from "./site.mjs";

const CHECKER = createRequire(import.meta.url).resolve("vnu-jar/build/dist/vnu.jar");

test("the checker finds no error in the manual", () => {
  const files = filesOf(site).filter((name) => /\.(html|css|svg)$/.test(name));
  assert.ok(files.some((name) => name.endsWith(".css")));
  assert.deepEqual(errors(files.map((name) => join(site, name))), []);
});

test("the checker finds the errors of a faulty page", () => {
  const faulty = fileURLToPath(new URL("faulty-page.html", import.meta.url));
  const texts = errors([faulty]).join("\n");
  assert.match(texts, /alt/);
  assert.match(texts, /Duplicate ID/);
});

function errors(files) {
  const args = ["-jar", CHECKER, "--errors-only", "--format", "json", "--also-check-css", "--also-check-svg", ...files];
  const { error, stderr } = spawnSync("java", args, { encoding: "utf8", maxBuffer: 1 << 26 });
  if (error) throw new Error(`no java to run the checker with: install Debian's package default-jre-headless (${error.message})`);
  return JSON.parse(stderr).messages.map(({ url, lastLine, message }) => `${pathBelow(site, fileURLToPath(url))}:${lastLine}: ${message}`);
}
