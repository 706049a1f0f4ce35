import Eleventy from "@11ty/eleventy";
import type { SiteContent } from "./library-view.js";
import { configureSite, type SitePart, templatesDir } from "./site-config.js";

/** Eleventy keeps every page that it made until its run ends, so a large library is made in several runs. */
const pagesARun = 400;

/**
 * Writes the site: the library page, a page a routine and a workshop, feed, sitemap, `library.json` and the assets. What lies
 * in the pack already (handouts, captions, click, video text) is linked from the pages, so the site comes last.
 *
 * @param outDir absolute; made where it is missing
 * @throws Error with what went wrong, where a page cannot be made or written
 */
export async function publishSite(content: SiteContent, outDir: string): Promise<void> {
  const slugs = content.routines.map(({ slug }) => slug);
  await run(content, outDir, { shared: true, routines: slugs.slice(0, pagesARun) });
  for (let from = pagesARun; from < slugs.length; from += pagesARun)
    await run(content, outDir, { shared: false, routines: slugs.slice(from, from + pagesARun) });
}

async function run(content: SiteContent, outDir: string, part: SitePart): Promise<void> {
  const eleventy = new Eleventy(templatesDir, outDir, {
    quietMode: true,
    configPath: false,
    config: (config) => configureSite(config, content, outDir, part),
  });
  const nothing = () => {};
  eleventy.logger.overrideLogger({ log: nothing, info: nothing, warn: nothing, error: nothing });
  eleventy.errorHandler.logger = { message: nothing };
  try {
    await eleventy.write();
  } catch (error) {
    throw new Error(`The site could not be made: ${rootMessage(error)}`, { cause: error });
  }
}

/** The innermost of Eleventy's nested errors says what happened. */
function rootMessage(error: unknown): string {
  const inner = error as { readonly originalError?: unknown; readonly cause?: unknown; readonly message?: string };
  const next = inner.originalError ?? inner.cause;
  return next === undefined ? (inner.message ?? String(error)) : rootMessage(next);
}
