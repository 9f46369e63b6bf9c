// The copy of the manual on a device: whole after the first visit, of one version, and exchanged only when told.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { openBrowser } from "./browser.mjs";
import { serve } from "./server.mjs";
import { edition, filesOf, pagesOf, site } from "./site.mjs";

const PINION = "tarn-18/pinion-height-and-backlash-sheet-late.html";
const OLD = "78 ± 4 N·m";
const NEW = "82 ± 4 N·m";

let browser, changed;
before(async () => {
  browser = await openBrowser();
  // A change as an author makes it: the value, the revision, the line that says why.
  changed = edition([
    { file: "tarn-18/pinion-height-and-backlash.md", from: "late: 78 ± 4 N·m}", to: "late: 82 ± 4 N·m}" },
    { file: "tarn-18/pinion-height-and-backlash.md", from: "\nrevision: 4\n", to: "\nrevision: 5\n" },
    {
      file: "tarn-18/pinion-height-and-backlash.md",
      from: "\nchanges:\n",
      to: "\nchanges:\n  - {revision: 5, of: pinion-nut.torque, was: {late: 78 ± 4 N·m}, because: a trial of the copy, source: bulletin-2}\n",
    },
  ]);
  assert.equal(changed.code, 0);
});
after(() => browser?.close());

/** A server of its own and a device that has visited a page of it; the copy is whole when this returns. */
async function visited(name = "index.html") {
  const server = await serve(site);
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: "en-GB" });
  const page = await context.newPage();
  await page.goto(server.address + name);
  await kept(page);
  const close = async () => {
    await context.close();
    await server.close().catch(() => {});
  };
  return { server, context, page, close };
}

const kept = (page) => page.evaluate(() => globalThis.navigator.serviceWorker.ready.then(() => true));
const text = async (page) => (await page.locator("body").innerText()).replaceAll("\u00a0", " ");

test("the worker lists every file of the site with its hash, and none besides", () => {
  const [, list] = /^const COPY = (.*);$/m.exec(readFileSync(join(site, "offline.js"), "utf8"));
  const { files, later, version } = JSON.parse(list);
  assert.match(version, /^[0-9a-f]{32}$/);
  assert.deepEqual(later, []);
  assert.deepEqual(files.map(([path]) => path), filesOf(site).filter((path) => path !== "offline.js"));
  const other = /"version":"([0-9a-f]+)"/.exec(readFileSync(join(changed.folder, "offline.js"), "utf8"))[1];
  assert.notEqual(other, version);
});

test("after one visit to any page the whole manual works without the network", async () => {
  const { server, context, page, close } = await visited("tarn-18/index.html");
  await server.close();
  await context.setOffline(true);
  for (const name of pagesOf(site)) {
    await page.goto(server.address + name);
    assert.equal(await page.evaluate(() => document.querySelectorAll("h1").length), 1, name);
    assert.ok(await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue("--paper") !== ""), `${name} has lost its style`);
    const broken = await page.evaluate(async () => {
      for (const image of document.images) {
        image.loading = "eager";
        await image.decode().catch(() => {});
      }
      return [...document.images].filter((image) => image.naturalWidth === 0).map((image) => image.src);
    });
    assert.deepEqual(broken, [], name);
  }
  // A folder's address is its first page.
  await page.goto(server.address);
  assert.match(await page.title(), /Sallow Reach/);
  await close();
});

test("the bench works without the network, and keeps its ticks", async () => {
  const { server, context, page, close } = await visited(PINION);
  await server.close();
  await context.setOffline(true);
  await page.reload();
  await page.evaluate(() => globalThis.leaf.bench.begin("4711", "Ann"));
  // A line behind a hold point waits until that is signed.
  await page.locator('[data-act="backlash/hold:second-reader/1"] input').fill("Bo");
  await page.locator('[data-act="backlash/hold:second-reader/1"] .hold').press("Enter");
  await page.locator('[data-act="tighten/torque:pinion-nut/1"] > .hold').press("Enter");
  await page.reload();
  assert.match(await page.locator('[data-act="tighten/torque:pinion-nut/1"] .tick-state').innerText(), /^Done/);
  await close();
});

test("new values are told and loaded only when asked for; ticks survive", async () => {
  const { server, context, page, close } = await visited(PINION);
  await page.reload();
  await page.evaluate(() => globalThis.leaf.bench.begin("4711", "Ann"));
  // A line behind a hold point waits until that is signed.
  await page.locator('[data-act="backlash/hold:second-reader/1"] input').fill("Bo");
  await page.locator('[data-act="backlash/hold:second-reader/1"] .hold').press("Enter");
  await page.locator('[data-act="tighten/mark:pinion-nut/1"] > .hold').press("Enter");
  server.show(changed.folder);
  await page.reload();
  assert.ok((await text(page)).includes(OLD) && !(await text(page)).includes(NEW), "the old version is shown whole");
  const bar = page.locator(".saved-bar");
  await bar.waitFor();
  assert.match(await bar.innerText(), /New values are here: this page is now revision 5\./);
  // Every page is still of the old version, as often as it is opened.
  const other = await context.newPage();
  await other.goto(server.address + "tarn-18/pinion-height-and-backlash.html");
  assert.ok((await text(other)).includes(OLD) && !(await text(other)).includes(NEW));
  assert.equal(await other.evaluate((path) => fetch(path).then((answer) => answer.text()).then((page) => page.includes("82 ± 4")), server.address + PINION), false);
  await Promise.all([page.waitForNavigation(), bar.getByRole("button", { name: "Load them" }).click()]);
  assert.ok((await text(page)).includes(NEW) && !(await text(page)).includes(`(${OLD})`));
  assert.match(await page.locator('[data-act="tighten/mark:pinion-nut/1"] .tick-state').innerText(), /^Done/);
  assert.equal(await page.locator(".saved-bar").count(), 0);
  // The other page follows by itself: there is nothing to lose on it.
  await other.waitForFunction(() => document.body.textContent.replaceAll("\u00a0", " ").includes("82 ± 4 N·m"));
  const names = await page.evaluate(() => caches.keys());
  assert.equal(names.length, 1, `one version is kept: ${names}`);
  // And the new version is whole without the network.
  await server.close();
  await context.setOffline(true);
  await page.goto(server.address + "tables/torque.html");
  assert.ok((await text(page)).includes(NEW));
  await close();
});

test("a site caught in the middle of being exchanged is not taken: never old beside new", async () => {
  const { server, page, close } = await visited(PINION);
  await page.reload();
  // The new worker is there already, one page of the old version is still in its place.
  server.show((path) => {
    const folder = path === PINION ? site : changed.folder;
    return Promise.resolve(readFileSync(join(folder, path === "" ? "index.html" : path)));
  });
  await page.evaluate(() => globalThis.navigator.serviceWorker.getRegistration().then((own) => own.update()).catch(() => {}));
  await page.waitForFunction(() => globalThis.navigator.serviceWorker.getRegistration().then(({ installing, waiting }) => !installing && !waiting));
  await page.reload();
  assert.equal(await page.locator(".saved-bar").count(), 0);
  assert.ok((await text(page)).includes(OLD));
  // Once it is exchanged wholly, it is offered.
  server.show(changed.folder);
  await page.evaluate(() => globalThis.navigator.serviceWorker.getRegistration().then((own) => own.update()));
  await page.locator(".saved-bar").waitFor();
  await close();
});

/** Waits until the copy is whole: until nothing more is asked for. */
async function settled(server) {
  const count = () => [...server.served.values()].reduce((sum, one) => sum + one, 0);
  for (let last = -1; last !== count(); ) {
    last = count();
    await new Promise((done) => setTimeout(done, 1500));
  }
}

test("what has not changed is not fetched again", async () => {
  const { server, page, close } = await visited();
  await page.reload();
  await settled(server);
  const before = new Map(server.served);
  server.show(changed.folder);
  await page.evaluate(() => globalThis.navigator.serviceWorker.getRegistration().then((own) => own.update()));
  await page.locator(".saved-bar").waitFor();
  const fetched = [...server.served].filter(([path, count]) => count > (before.get(path) ?? 0)).map(([path]) => path);
  const bytes = (folder, path) => readFileSync(join(folder, path), "latin1");
  const differ = filesOf(changed.folder).filter((path) => path === "offline.js" || bytes(site, path) !== bytes(changed.folder, path));
  assert.ok(differ.includes(PINION) && differ.length < filesOf(site).length / 2);
  assert.deepEqual(fetched.sort(), differ.sort());
  await close();
});

test("where nothing may be kept, and from a folder, the manual works and says nothing", async () => {
  const server = await serve(site);
  for (const [address, options] of [[server.address, { serviceWorkers: "block" }], [`${pathToFileURL(site)}/`, {}]]) {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    const faults = [];
    page.on("pageerror", (error) => faults.push(error.message));
    page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
    await page.goto(address + PINION);
    await page.waitForTimeout(200);
    assert.equal(await page.locator(".saved-bar").count(), 0);
    assert.ok(await page.locator(".bench-bar").isVisible());
    assert.deepEqual(faults, []);
    await context.close();
  }
  await server.close();
});
