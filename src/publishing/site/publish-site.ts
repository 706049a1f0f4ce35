import { join } from "node:path";
import Eleventy from "@11ty/eleventy";
import { configureSite, pagesDir, type SitePart } from "./site-config.js";

/**
 * Writes a part of the site, or all of it: a page a routine and a workshop; the library page, feed, sitemap, `library.json` and
 * the assets. Eleventy keeps every page that it made until its run ends, so a large library is made in several parts.
 *
 * @param outDir absolute; made where it is missing
 * @throws Error with what went wrong, where a page cannot be made or written
 */
export async function publishSite(part: SitePart, outDir: string): Promise<void> {
  const eleventy = new Eleventy(templatesFor(part), outDir, {
    quietMode: true,
    configPath: false,
    config: (config) => configureSite(config, part, outDir),
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

/** Where all pages are of one kind, one template will do: to look at all of them takes as long as making some pages. */
function templatesFor({ facts, routines, workshops }: SitePart): string {
  if (facts === undefined && workshops.length === 0) return join(pagesDir, "routine.11ty.js");
  if (facts === undefined && routines.length === 0) return join(pagesDir, "workshop.11ty.js");
  return pagesDir;
}

/** The innermost of Eleventy's nested errors says what happened. */
function rootMessage(error: unknown): string {
  const inner = error as { readonly originalError?: unknown; readonly cause?: unknown; readonly message?: string };
  const next = inner.originalError ?? inner.cause;
  return next === undefined ? (inner.message ?? String(error)) : rootMessage(next);
}
