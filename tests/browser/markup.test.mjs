// Markup: the Nu Html Checker, which the WHATWG and the W3C use, reads every page, style sheet and drawing.

import assert from "node:assert/strict";
import { join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { errors } from "./checker.mjs";
import { filesOf, site } from "./site.mjs";

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
