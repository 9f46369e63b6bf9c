// The Nu Html Checker, run over files.

import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { pathBelow, site } from "./site.mjs";

const CHECKER = createRequire(import.meta.url).resolve("vnu-jar/build/dist/vnu.jar");

/** Every error the checker finds in pages, style sheets and drawings, with its place. */
export function errors(files) {
  const args = ["-jar", CHECKER, "--errors-only", "--format", "json", "--also-check-css", "--also-check-svg", ...files];
  const { error, stderr } = spawnSync("java", args, { encoding: "utf8", maxBuffer: 1 << 26 });
  if (error) throw new Error(`no java to run the checker with: install Debian's package default-jre-headless (${error.message})`);
  return JSON.parse(stderr).messages.map(({ url, lastLine, message }) => `${pathBelow(site, fileURLToPath(url))}:${lastLine}: ${message}`);
}
