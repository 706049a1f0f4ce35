import { join, relative } from "node:path";
import Eleventy from "@11ty/eleventy";
import { pagesDir } from "../home.js";
import type { OutFile } from "../publisher.js";
import { mediaTypeOf } from "./media-type.js";
import { configureSite, type SitePart } from "./site-config.js";

/** Eleventy needs the name of a folder to publish into, though nothing is written there. */
const root = join(pagesDir, "../../_site");

/**
 * Makes a part of the site, or all of it: a page a routine and a workshop; the library page, feed, sitemap and `library.json`.
 * Eleventy keeps every page that it made until its run ends, so a large library is made in several parts.
 *
 * @throws Error with what went wrong, where a page cannot be made
 */
export async function publishSite(part: SitePart): Promise<readonly OutFile[]> {
  const eleventy = new Eleventy(templatesFor(part), root, {
    quietMode: true,
    configPath: false,
    config: (config) => configureSite(config, part),
  });
  const nothing = () => {};
  eleventy.logger.overrideLogger({ log: nothing, info: nothing, warn: nothing, error: nothing });
  eleventy.errorHandler.logger = { message: nothing };
  try {
    return (await eleventy.toJSON()).map(({ outputPath, content }) => {
      const path = relative(root, outputPath).replaceAll("\\", "/");
      return { path, kind: path.endsWith(".html") ? "page" : "data", mediaType: mediaTypeOf(path), content };
    });
  } catch (error) {
    throw new Error(`The site could not be made: ${rootMessage(error)}`, { cause: error });
  }
}

/** Where all pages are of one kind, one template will do: to look at all of them takes as long as making some pages. */
function templatesFor({ whole, routines, workshops }: SitePart): string {
  if (whole === undefined && workshops.length === 0) return join(pagesDir, "routine.11ty.js");
  if (whole === undefined && routines.length === 0) return join(pagesDir, "workshop.11ty.js");
  return pagesDir;
}

/** The innermost of Eleventy's nested errors says what happened. */
function rootMessage(error: unknown): string {
  const inner = error as { readonly originalError?: unknown; readonly cause?: unknown; readonly message?: string };
  const next = inner.originalError ?? inner.cause;
  return next === undefined ? (inner.message ?? String(error)) : rootMessage(next);
}
