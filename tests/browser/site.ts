import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { captions } from "../../src/publishing/captions/publisher.js";
import { description } from "../../src/publishing/description/publisher.js";
import { preview } from "../../src/publishing/preview/publisher.js";
import { record } from "../../src/publishing/record/publisher.js";
import { readContent } from "../../src/reading/read-content.js";
import { contextOf } from "../publishing/fixtures/context.js";
import { writeSite } from "../publishing/fixtures/write-site.js";
import { serveFolder } from "./browser.js";

/** A published site on an address of its own. */
export interface TestSite {
  readonly folder: string;
  /** With a slash at the end. */
  readonly url: string;
  readonly close: () => Promise<void>;
}

const demo = fileURLToPath(new URL("../../content", import.meta.url));

/** The demo library's pages with the text files that they link to, published and served. Handouts are left out: they take long. */
export async function demoSite(): Promise<TestSite> {
  return publishedSite(await readContent(demo));
}

/** The same for any content. */
export async function publishedSite(content: Parameters<typeof writeSite>[0]): Promise<TestSite> {
  const folder = await mkdtemp(join(tmpdir(), "countleaf-site-"));
  for (const routine of content.routines) {
    const files = [
      ...(await captions.publish(routine, contextOf(content.library))),
      ...(await description.publish(routine, contextOf(content.library))),
      ...(await preview.publish(routine, contextOf(content.library))),
      ...(await record.publish(routine, contextOf(content.library))),
    ];
    for (const { path, content: text } of files) {
      await mkdir(dirname(join(folder, path)), { recursive: true });
      await writeFile(join(folder, path), text);
    }
  }
  await writeSite(content, folder);
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
