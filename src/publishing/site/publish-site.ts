import { readdir } from "node:fs/promises";
import { join, relative } from "node:path";
import { pathToFileURL } from "node:url";
import Eleventy from "@11ty/eleventy";
import { pagesDir } from "../home.js";
import type { OutFile } from "../publisher.js";
import { mediaTypeOf } from "./media-type.js";
import { configureSite, pathsOf, type SitePart, type Template } from "./site-config.js";

/** Eleventy needs the name of a folder to publish into, though nothing is written there. */
const root = "_site";

/**
 * Makes a part of the site, or all of it: a page a routine and a workshop; the library page, feed, sitemap and `library.json`.
 * Eleventy keeps every page that it made until its run ends, so a large library is made in several parts.
 *
 * @throws Error with what went wrong, where a page cannot be made, or one is missing in the end
 */
export async function publishSite(part: SitePart): Promise<readonly OutFile[]> {
  try {
    const templates = await templatesFor(part);
    const made = (await run(part, templates)).map(({ outputPath, content }): OutFile => {
      const path = relative(root, outputPath).replaceAll("\\", "/");
      return { path, kind: path.endsWith("index.html") ? "page" : "data", mediaType: mediaTypeOf(path), content };
    });
    const paths = new Set(made.map(({ path }) => path));
    const missing = templates.flatMap(({ template }) => pathsOf(template, part)).find((path) => !paths.has(path));
    if (missing !== undefined) throw new Error(`${missing} was not made`);
    return made;
  } catch (error) {
    throw new Error(`The site could not be made: ${rootMessage(error)}`, { cause: error });
  }
}

interface NamedTemplate {
  readonly name: string;
  readonly template: Template;
}

/**
 * Has Eleventy fill templates that it is given. It looks for no files of its own: it takes every path for a pattern, and a package
 * may lie in a folder with brackets or braces in its name.
 */
async function run(part: SitePart, templates: readonly NamedTemplate[]) {
  // Of two absolute paths Eleventy takes one for a part of the other wherever its name begins alike.
  const eleventy = new Eleventy(relative("", pagesDir) || ".", root, {
    quietMode: true,
    configPath: false,
    loader: "esm",
    config: (config) => {
      configureSite(config, part);
      // Eleventy writes into what it is given. A date, since it would take one from the path of the package.
      for (const { name, template } of templates) config.addTemplate(name, { ...template }, { date: new Date(0) });
    },
  });
  const nothing = () => {};
  eleventy.logger.overrideLogger({ log: nothing, info: nothing, warn: nothing, error: nothing });
  eleventy.errorHandler.logger = { message: nothing };
  await eleventy.init();
  eleventy.fileSystemSearch.search = async () => [];
  // The package.json of whoever has one where this is run.
  eleventy.templateData.getRawImports = () => ({});
  return eleventy.toJSON();
}

/** Where all pages are of one kind, one template will do: to look at all of them takes as long as making some pages. */
async function templatesFor({ whole, routines, workshops }: SitePart): Promise<readonly NamedTemplate[]> {
  const names = () => {
    if (whole === undefined && workshops.length === 0) return ["routine.11ty.js"];
    if (whole === undefined && routines.length === 0) return ["workshop.11ty.js"];
    return readdir(pagesDir);
  };
  const templates = (await names()).filter((name) => name.endsWith(".11ty.js")).sort();
  return Promise.all(
    templates.map(async (name) => ({ name, template: await import(pathToFileURL(join(pagesDir, name)).href) })),
  );
}

/** The innermost of Eleventy's nested errors says what happened. */
function rootMessage(error: unknown): string {
  const inner = error as { readonly originalError?: unknown; readonly cause?: unknown; readonly message?: string };
  const next = inner.originalError ?? inner.cause;
  return next === undefined ? (inner.message ?? String(error)) : rootMessage(next);
}
