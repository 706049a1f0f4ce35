import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join, normalize, sep } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { made } from "../shared.js";

/** The one browser of the run. What a file opens in it is its own, and closed with what is returned here. */
export async function openBrowser(): Promise<Browser> {
  return chromium.connect(await made("browser"));
}

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".webmanifest": "application/manifest+json",
  ".xml": "application/xml",
  ".txt": "text/plain; charset=utf-8",
  ".vtt": "text/vtt; charset=utf-8",
  ".pdf": "application/pdf",
  ".mid": "audio/midi",
};

/** How a host answers; it may change while it runs. */
export interface Host {
  /** Takes every request and never answers, as a network does that leads nowhere. */
  hangs?: boolean;
  /** Sends whoever asks for a folder's `index.html` to the folder. */
  readonly redirects?: boolean;
}

/** A folder on a free port of this machine, as a plain static host would show it. */
export async function serveFolder(
  folder: string,
  host: Host = {},
): Promise<{ readonly url: string; readonly close: () => Promise<void> }> {
  const server = createServer(async (request, response) => {
    if (host.hangs) return;
    const path = decodeURIComponent(new URL(request.url ?? "/", "http://localhost").pathname);
    if (host.redirects && path.endsWith("/index.html")) {
      response.writeHead(308, { location: encodeURI(path.replace(/index\.html$/, "")) }).end();
      return;
    }
    const file = normalize(join(folder, path.endsWith("/") ? `${path}index.html` : path));
    try {
      if (!file.startsWith(normalize(folder + sep))) throw new Error("outside");
      const body = await readFile(file);
      response.writeHead(200, { "content-type": types[extname(file)] ?? "application/octet-stream" }).end(body);
    } catch {
      response.writeHead(404, { "content-type": "text/plain" }).end("not here");
    }
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address() as AddressInfo;
  const close = () =>
    new Promise<void>((closed) => {
      server.closeAllConnections();
      server.close(() => closed());
    });
  return { url: `http://127.0.0.1:${port}/`, close };
}
