// The manual the tests look at: the demo as published in `site/`, and editions of it bound for one test.

import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

/** The project's folder. */
export const project = fileURLToPath(new URL("../../", import.meta.url));

/** The folder of the published demo. */
export const site = join(project, "site");

/** Stands word for word on every page and sheet. */
export const CAUTION =
  "The values here come from the publisher named above. They may be wrong for your machine. The maker's service data, " +
  "local codes and a qualified person decide. This manual checks values for plausibility and consistency, never for " +
  "correctness.";

/** Files a reader meets in a published folder, by path with `/`, sorted. What begins with a point is the program's own. */
export function filesOf(folder) {
  return readdirSync(folder, { recursive: true })
    .map((name) => name.split(sep).join("/"))
    .filter((name) => !name.split("/").some((part) => part.startsWith(".")))
    .filter((name) => statSync(join(folder, name)).isFile())
    .sort();
}

/** The HTML pages among them; bench sheets are pages too. */
export function pagesOf(folder) {
  const pages = filesOf(folder).filter((name) => name.endsWith(".html"));
  if (pages.length === 0) throw new Error(`no pages in ${folder}: publish the demo first`);
  return pages;
}

/** The bench sheets: the pages whose names say so. */
export function sheetsOf(folder) {
  return pagesOf(folder).filter(isSheet);
}

/** Whether a page is a bench sheet. */
export function isSheet(name) {
  return /-sheet(-[^/]+)?\.html$/.test(name);
}

/** Binds a changed copy of the demo and gives the published folder, and how the program ended. */
export function edition(changes, ...options) {
  const root = temporaryFolder();
  const manual = join(root, "manual");
  cpSync(join(project, "procedures"), manual, { recursive: true });
  for (const { file, from, to } of changes) replaceOnce(join(manual, file), from, to);
  const into = join(root, "site");
  return { folder: into, code: bind(manual, into, ...options) };
}

/** Binds a manual into a folder, and gives how the program ended. */
export function bind(manual, into, ...options) {
  return run(["bind", manual, "--into", into, ...options]);
}

/** A folder of its own that is gone when the tests end. */
export function temporaryFolder() {
  const folder = mkdtempSync(join(tmpdir(), "benchleaf-"));
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** The path of a file below a folder, as pages name it. */
export function pathBelow(folder, file) {
  return relative(folder, file).split(sep).join("/");
}

function run(args) {
  try {
    execFileSync("cargo", ["run", "--quiet", "--", ...args], { cwd: project, stdio: ["ignore", "ignore", "pipe"] });
    return 0;
  } catch (error) {
    if (typeof error.status !== "number") throw error;
    if (error.status > 1) throw new Error(`benchleaf could not run: ${error.stderr}`);
    return error.status;
  }
}

function replaceOnce(file, from, to) {
  const text = readFileSync(file, "utf8");
  if (text.split(from).length !== 2) throw new Error(`${file} does not hold ‘${from}’ exactly once`);
  writeFileSync(file, text.replace(from, () => to));
}
