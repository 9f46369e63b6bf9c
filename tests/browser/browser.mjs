// Debian's own Chromium, driven from here. No browser is ever downloaded.

import { existsSync } from "node:fs";
import { chromium } from "playwright-core";

const PLACES = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"];

/** Starts the browser. Without one the tests fail; they are never skipped. */
export async function openBrowser() {
  const executablePath = PLACES.find((place) => place && existsSync(place));
  if (!executablePath) throw new Error("no chromium: install Debian's package chromium, or name it in CHROMIUM");
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-dev-shm-usage"] });
}

/** Opens a page and notes whatever it complains of and whatever it asks for outside `address`. */
export async function openPage(context, url, address) {
  const page = await context.newPage();
  const faults = [];
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) faults.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => faults.push(`script: ${error.message}`));
  page.on("request", (request) => {
    if (!request.url().startsWith(address) && !request.url().startsWith("data:")) faults.push(`asks for ${request.url()}`);
  });
  page.on("requestfailed", (request) => faults.push(`could not load ${request.url()}`));
  page.on("response", (response) => {
    if (response.status() >= 400) faults.push(`${response.status()} for ${response.url()}`);
  });
  await page.goto(url, { waitUntil: "load" });
  return { page, faults };
}
