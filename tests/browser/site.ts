import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { made } from "../shared.js";
import { type Host, serveFolder } from "./browser.js";
import { publishInto } from "./publish.js";

/** A published site on an address of its own. */
export interface TestSite {
  readonly folder: string;
  /** With a slash at the end. */
  readonly url: string;
  readonly close: () => Promise<void>;
}

/** The demo library's pages, published once for all files of tests: nothing may be written into its folder. */
export async function demoSite(host: Host = {}): Promise<TestSite> {
  const folder = await made("demo");
  return { folder, ...(await serveFolder(folder, host)) };
}

/** The same for any content. */
export async function publishedSite(content: Parameters<typeof publishInto>[0]): Promise<TestSite> {
  const folder = await mkdtemp(join(tmpdir(), "countleaf-site-"));
  await publishInto(content, folder);
  const server = await serveFolder(folder);
  const close = async () => {
    await server.close();
    await rm(folder, { recursive: true });
  };
  return { folder, url: server.url, close };
}

/** Everything that went wrong on a page, and every address outside the site that it asked for. */
export interface Watch {
  readonly troubles: string[];
  readonly foreign: string[];
}

/** A page of its own context, watched from its first request on. */
export async function watchedPage(
  browser: Browser,
  site: TestSite,
  options: BrowserContextOptions = {},
): Promise<{ readonly page: Page; readonly watch: Watch }> {
  const context = await browser.newContext(options);
  const watch: Watch = { troubles: [], foreign: [] };
  context.on("request", (request) => {
    if (!request.url().startsWith(site.url) && !request.url().startsWith("blob:")) watch.foreign.push(request.url());
  });
  context.on("requestfailed", (request) => watch.troubles.push(`failed: ${request.url()}`));
  context.on("response", (response) => {
    if (response.status() >= 400) watch.troubles.push(`${response.status()}: ${response.url()}`);
  });
  context.on("weberror", (error) => watch.troubles.push(error.error().message));
  context.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") watch.troubles.push(message.text());
  });
  return { page: await context.newPage(), watch };
}
