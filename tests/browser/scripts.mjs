// Parts of the scripts by themselves, outside a browser: what they reckon and read, as one object `leaf`.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import vm from "node:vm";
import { project, sheetsOf, site } from "./site.mjs";

/** The parts' own name for everything, after the named parts have run. */
export function parts(...names) {
  const context = vm.createContext({ URL, console });
  for (const name of names) {
    const path = join(project, "themes/workshop/scripts", `${name}.js`);
    vm.runInContext(readFileSync(path, "utf8"), context, { filename: path });
  }
  return context.leaf;
}

/** What comes out of another realm, as plain data of this one. */
export const plain = (value) => (value === undefined ? undefined : JSON.parse(JSON.stringify(value)));

/** The data block of a published sheet. */
export function dataOf(name = sheetsOf(site)[0], folder = site) {
  const html = readFileSync(join(folder, name), "utf8");
  return JSON.parse(/<script type="application\/json" id="bench-data">(.*?)<\/script>/s.exec(html)[1]);
}
