// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />

import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rename, rm, writeFile } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join, normalize, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { type Browser, chromium } from "playwright-core";

const root = fileURLToPath(new URL("../../", import.meta.url));

/**
 * A real browser. COUNTLEAF_BROWSER names an installed Chromium or Chrome; without it the one that comes as an npm package
 * is unpacked, once a machine, together with the few system libraries that a bare machine lacks.
 */
export async function launchBrowser(args: readonly string[] = []): Promise<Browser> {
  const installed = process.env.COUNTLEAF_BROWSER;
  if (installed) return chromium.launch({ executablePath: installed, args: [...args] });
  const home = await unpackedBrowser();
  return chromium.launch({
    executablePath: join(home, "chromium"),
    env: { ...process.env, LD_LIBRARY_PATH: join(home, "al2023", "lib"), FONTCONFIG_PATH: join(home, "fonts") },
    args: ["--no-sandbox", "--no-zygote", "--disable-gpu", ...args],
  });
}

/** Several test files start at once: each unpacks beside the final folder, the first one there wins. */
async function unpackedBrowser(): Promise<string> {
  const manifest = await readFile(join(root, "node_modules/@sparticuz/chromium/package.json"), "utf8");
  const home = join(tmpdir(), `countleaf-browser-${(JSON.parse(manifest) as { version: string }).version}`);
  if (existsSync(home)) return home;
  const beside = await mkdtemp(`${home}-`);
  const unpack = "import chromium from '@sparticuz/chromium'; await chromium.executablePath();";
  await promisify(execFile)(process.execPath, ["--input-type=module", "--eval", unpack], {
    cwd: root,
    // The package unpacks its libraries only where this variable says that they are wanted.
    env: { ...process.env, TMPDIR: beside, AWS_EXECUTION_ENV: "AWS_Lambda_nodejs20.x" },
  });
  await writeFile(join(beside, "fonts/fonts.conf"), fontsIn(join(home, "fonts")));
  try {
    await rename(beside, home);
  } catch (error) {
    if (!existsSync(home)) throw error;
    await rm(beside, { recursive: true });
  }
  return home;
}

/** The package looks for its fonts in a fixed place; a browser that finds none ends with the first select or text field. */
function fontsIn(folder: string): string {
  return `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>${folder}</dir><cachedir>${folder}-cache</cachedir></fontconfig>
`;
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

/** A folder on a free port of this machine, as a plain static host would show it. */
export async function serveFolder(
  folder: string,
): Promise<{ readonly url: string; readonly close: () => Promise<void> }> {
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? "/", "http://localhost").pathname);
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
