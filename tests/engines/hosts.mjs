// The places that the site is opened from: a static host, one that has gone away, a network that leads nowhere, a folder.
import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const types = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".webmanifest": "application/manifest+json",
  ".pdf": "application/pdf",
};

/**
 * A plain static host on a free port.
 *
 * @returns its address, with a slash at the end; `hang`, after which it takes every request and answers none, as a Wi-Fi
 * without internet does; and `close`
 */
export async function host(folder) {
  let answers = true;
  const server = createServer((request, response) => {
    if (!answers) return;
    const path = decodeURIComponent(new URL(request.url, "http://localhost").pathname);
    const named = normalize(join(folder, path));
    const file = existsSync(named) && statSync(named).isDirectory() ? join(named, "index.html") : named;
    if (!file.startsWith(folder) || !existsSync(file)) return response.writeHead(404).end();
    response.writeHead(200, { "content-type": types[extname(file)] ?? "application/octet-stream" });
    createReadStream(file).pipe(response);
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  return {
    address: `http://localhost:${server.address().port}/`,
    hang: () => {
      answers = false;
      // What is still open would go on answering over the line that it has.
      server.closeIdleConnections();
    },
    close: () =>
      new Promise((closed) => {
        server.closeAllConnections();
        server.close(closed);
      }),
  };
}
