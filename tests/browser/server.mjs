// Serves a published folder below a path on this machine, as a club's web space would, and keeps a list of what was not there.

import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize, sep } from "node:path";

/** Where the manual stands on the server: not at the top. */
export const PREFIX = "/club/manual/";

/** Between two pieces of a page: longer than a frame of the screen. */
const PAUSE = 20;

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".ico": "image/x-icon",
  ".jpg": "image/jpeg",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".vtt": "text/vtt; charset=utf-8",
  ".webmanifest": "application/manifest+json",
  ".webp": "image/webp",
};

/** The strictest policy a club's web space may set: nothing from elsewhere, nothing written into a page. */
const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; media-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'";

/**
 * Starts the server. `address` ends with a slash; `missed` fills with the paths it could not serve, `served` counts
 * what it could. `piece` lets a page that is gone to arrive in pieces of so many bytes, as over a slow line. `show` puts another folder, or a function from path to bytes, in the place of the first.
 */
export async function serve(folder, { piece = Infinity } = {}) {
  const missed = [];
  const served = new Map();
  let shown = folder;
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url, "http://host").pathname);
    const body = await (typeof shown === "function" ? shown(path.slice(PREFIX.length)) : read(shown, path));
    if (path === "/favicon.ico") {
      // Browsers ask a server for its icon by themselves; that is no file of the manual.
      response.writeHead(204).end();
    } else if (body === null) {
      missed.push(path);
      response.writeHead(404).end();
    } else {
      served.set(path.slice(PREFIX.length), (served.get(path.slice(PREFIX.length)) ?? 0) + 1);
      const type = TYPES[extname(path)] ?? "application/octet-stream";
      response.writeHead(200, { "content-type": type, "content-security-policy": POLICY });
      if (request.headers["sec-fetch-mode"] === "navigate") await inPieces(response, body, piece);
      else response.write(body);
      response.end();
    }
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address();
  const close = () => new Promise((closed) => server.close(closed).closeAllConnections());
  return { address: `http://127.0.0.1:${port}${PREFIX}`, missed, served, show: (other) => (shown = other), close };
}

async function inPieces(response, body, piece) {
  for (let from = 0; from < body.length; from += piece) {
    response.write(body.subarray(from, from + piece));
    if (from + piece < body.length) await new Promise((next) => setTimeout(next, PAUSE));
  }
}

async function read(folder, path) {
  if (!path.startsWith(PREFIX)) return null;
  const file = normalize(join(folder, path.slice(PREFIX.length)));
  if (!file.startsWith(folder + sep)) return null;
  return readFile(file).catch(() => null);
}
