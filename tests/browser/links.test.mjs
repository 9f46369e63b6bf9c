// Links: followed from the first page as a reader would, every file of the manual is reached and every target is there.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { openBrowser } from "./browser.mjs";
import { PREFIX, serve } from "./server.mjs";
import { filesOf, pagesOf, site } from "./site.mjs";

let browser, server;
/** What each page holds, by path: its links, its ids, its title. */
const found = new Map();

before(async () => {
  browser = await openBrowser();
  server = await serve(site);
  const page = await browser.newPage();
  for (const name of pagesOf(site)) {
    await page.goto(server.address + name);
    found.set(name, await page.evaluate(whatItHolds));
  }
});
after(async () => {
  await browser?.close();
  await server?.close();
});

for (const name of pagesOf(site)) {
  test(`${name} links to what is there`, () => {
    const { links, title, headings, doubled } = found.get(name);
    assert.ok(title.trim(), "the page has no title");
    assert.equal(headings, 1, "a page has one main heading");
    assert.deepEqual(doubled, [], "an id stands twice");
    assert.deepEqual(links.map((link) => faultOf(name, link)).filter(Boolean), []);
  });
}

test("every file of the manual is reached from its first page", () => {
  const reached = new Set(["index.html"]);
  for (const name of reached) {
    for (const { url } of found.get(name)?.links ?? []) {
      const target = targetOf(url);
      if (target) reached.add(target.path);
    }
  }
  // What keeps the manual on a device is asked for by the scripts of all pages, not by a link.
  reached.add("offline.js");
  assert.deepEqual(filesOf(site).filter((name) => !reached.has(name)), []);
});

test("no two pages have the same title", () => {
  const titles = [...found.values()].map(({ title }) => title);
  assert.deepEqual(titles.filter((title, at) => titles.indexOf(title) !== at), []);
});

function faultOf(name, { kind, written, url }) {
  if (/^https?:/.test(written)) return kind === "A" ? null : `${kind} loads ${written} from elsewhere`;
  if (/^(data|javascript|file|blob):/.test(written) || written.startsWith("/")) return `${kind} with ${written}`;
  const target = targetOf(url);
  if (!target || !filesOf(site).includes(target.path)) return `${written} leads nowhere`;
  if (target.anchor && !found.get(target.path)?.ids.includes(target.anchor)) return `${written}: no such place on that page`;
  return null;
}

/** The file and the place on it a whole address means, or nothing where it leads out of the manual. */
function targetOf(url) {
  const { origin, pathname, hash } = new URL(url);
  if (origin !== new URL(server.address).origin || !pathname.startsWith(PREFIX)) return null;
  return { path: decodeURIComponent(pathname.slice(PREFIX.length)), anchor: decodeURIComponent(hash.slice(1)) };
}

/** Runs in the page. */
function whatItHolds() {
  const links = [...document.querySelectorAll("[href], [src]")].map((element) => {
    const written = element.getAttribute("href") ?? element.getAttribute("src");
    return { kind: element.tagName.toUpperCase(), written, url: new URL(written, document.baseURI).href };
  });
  // The search, and what tells of new values, are loaded when they are first used, from the folder that its button names.
  const find = document.querySelector("[data-root]");
  for (const file of find ? ["search.css", "search-index.js", "search.js", "saved-news.css", "saved-news.js"] : []) {
    links.push({ kind: "LINK", written: find.dataset.root + file, url: new URL(find.dataset.root + file, document.baseURI).href });
  }
  for (const image of document.querySelectorAll("[srcset]")) {
    for (const [written] of image.getAttribute("srcset").matchAll(/[^\s,]+(?=\s+\d+w)/g)) {
      links.push({ kind: "IMG", written, url: new URL(written, document.baseURI).href });
    }
  }
  const ids = [...document.querySelectorAll("[id]")].map((element) => element.id);
  const doubled = ids.filter((id, at) => ids.indexOf(id) !== at);
  return { links, ids, doubled, title: document.title, headings: document.querySelectorAll("h1").length };
}
