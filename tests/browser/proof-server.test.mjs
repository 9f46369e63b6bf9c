// A proof on this machine: the open page follows each save and stays where its reader was.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser, openPage } from "./browser.mjs";
import { project, temporaryFolder } from "./site.mjs";

const PROGRAM = process.env.BENCHLEAF ?? join(process.env.CARGO_TARGET_DIR ?? join(project, "target"), "debug", "benchleaf");
const SOURCE = "tarn-18/close-gearcase.md";
const TITLE = "Close the gearcase";
const PAGE = "tarn-18/close-gearcase.html";

let browser, program, address, manual, good;

before(async () => {
  const root = temporaryFolder();
  manual = join(root, "manual");
  cpSync(join(project, "procedures"), manual, { recursive: true });
  good = readFileSync(join(manual, SOURCE), "utf8");
  program = spawn(PROGRAM, ["proof", "manual", "--port", "0"], { cwd: root, stdio: ["ignore", "pipe", "inherit"] });
  address = await new Promise((done) => program.stdout.once("data", (text) => done(String(text).trim())));
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  program?.kill("SIGINT");
});

const save = (text) => writeFileSync(join(manual, SOURCE), text);
const titled = (title) => good.replace(/^title: .*/m, `title: ${title}`);
/** What went wrong; a page that is loaded again gives up what it was loading, and its news. */
const wrong = (faults) => faults.filter((fault) => !fault.startsWith("could not load"));
/** The sound page, open. */
async function opened() {
  save(good);
  const open = await openPage(await browser.newContext(), address + PAGE, address);
  await heading(open.page, TITLE);
  await open.page.locator("[id='page.desk']:not(.desk-kept)").waitFor();
  return open;
}
const heading = (page, title) => page.locator("h1", { hasText: title }).waitFor();
/** The first step's heading that is seen, and how far from the top. */
const placeOf = (page) =>
  page.evaluate(() => {
    const shown = [...document.querySelectorAll("main [id]")].filter((element) => element.getClientRects().length > 0);
    const seen = shown.map((element) => ({ id: element.id, top: Math.round(element.getBoundingClientRect().top) }));
    return seen.find(({ top }) => top >= 0);
  });

test("an open page shows what was saved and keeps its scroll place, also when text above it grows", async () => {
  const { page, faults } = await opened();
  await page.evaluate(() => scrollTo(0, document.body.scrollHeight / 2));
  const place = await placeOf(page);
  assert.ok(place.id && (await page.evaluate(() => scrollY)) > 500, "the page is long enough to be scrolled");
  save(titled("First save"));
  await heading(page, "First save");
  await page.waitForFunction(() => document.readyState === "complete");
  assert.deepEqual(await placeOf(page), place);
  const before = await page.evaluate(() => scrollY);
  // A paragraph in the first step: everything behind it moves down, and the reader with it.
  const words = "This sentence makes the first step longer than it was. ".repeat(40);
  save(titled("Second save").replace(/^(## .*\n)/m, `$1\n${words}\n`));
  await heading(page, "Second save");
  await page.waitForFunction(() => document.readyState === "complete");
  const now = await page.evaluate((id) => document.getElementById(id).getBoundingClientRect().top, place.id);
  assert.ok(Math.abs(now - place.top) <= 2, `${now} was ${place.top}`);
  assert.ok((await page.evaluate(() => scrollY)) > before + 50, "the text above did not grow");
  assert.deepEqual(wrong(faults), []);
  await page.close();
});

test("a broken save keeps the page and shows what is wrong on top of it, wherever the reader is", async () => {
  const { page, faults } = await opened();
  await page.evaluate(() => scrollTo(0, document.body.scrollHeight / 2));
  const title = await page.locator("h1").innerText();
  save(good.replace("fasteners:", "fasteners: [{"));
  const bar = page.locator("[id='page.desk'].desk-kept");
  await bar.waitFor();
  assert.match(await bar.innerText(), /yaml-unreadable[\s\S]*tarn-18\/close-gearcase\.md:\d+:\d+/);
  assert.equal(await page.locator("h1").innerText(), title);
  assert.ok(await bar.evaluate((element) => element.getBoundingClientRect().top >= 0), "the bar is not seen");
  save(good);
  await page.locator("[id='page.desk']:not(.desk-kept)").waitFor();
  assert.deepEqual(wrong(faults), []);
  await page.close();
});

test("a finding shows where it stands and in the list, which leads back to the page", async () => {
  const { page, faults } = await opened();
  save(good.replace(/\(torque:/, "(torque:no-such-"));
  await page.locator(".fault-error", { hasText: "no-such-" }).first().waitFor();
  await page.getByRole("link", { name: "All findings with their lines" }).click();
  await page.locator("mark", { hasText: "no-such-" }).first().waitFor();
  save(good);
  await page.locator("mark", { hasText: "no-such-" }).first().waitFor({ state: "detached" });
  await page.getByRole("link", { name: "Sallow Reach workshop manual" }).click();
  await heading(page, "Sallow Reach workshop manual");
  assert.deepEqual(wrong(faults), []);
  await page.close();
});

test("a page that nobody sees gives its connection back: many tabs do not starve one another", async () => {
  save(good);
  const context = await browser.newContext();
  const pages = [];
  for (let at = 0; at < 9; at += 1) {
    const page = await context.newPage();
    await page.goto(address + PAGE, { waitUntil: "load", timeout: 10_000 });
    await page.evaluate(() => {
      Object.defineProperty(document, "visibilityState", { value: "hidden", configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
    });
    pages.push(page);
  }
  save(titled("Seen again"));
  await pages[0].waitForTimeout(3000);
  assert.doesNotMatch(await pages[0].locator("h1").innerText(), /Seen again/);
  await pages[0].evaluate(() => {
    delete document.visibilityState;
    document.dispatchEvent(new Event("visibilitychange"));
  });
  await heading(pages[0], "Seen again");
  await context.close();
});

test("no copy is kept on the device, and the end of the proof is told on the page", async () => {
  save(good);
  const { page } = await openPage(await browser.newContext(), address + PAGE, address);
  assert.equal(await page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length), 0);
  program.kill("SIGINT");
  await page.locator("[id='page.desk-state']", { hasText: "The proof has ended" }).waitFor();
  assert.equal(await new Promise((done) => (program.exitCode === null ? program.once("exit", done) : done(program.exitCode))), 0);
  await page.close();
});
