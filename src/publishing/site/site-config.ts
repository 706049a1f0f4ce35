import { fileURLToPath } from "node:url";
import type { EleventyConfig } from "@11ty/eleventy";
import { writeAssets } from "./assets.js";
import { feedView, sitemapView } from "./feed-view.js";
import { libraryView, type SiteContent } from "./library-view.js";
import { readPack } from "./pack.js";
import { routineView } from "./routine-view.js";
import { libraryData, routineData, workshopData } from "./structured-data.js";
import { choiceStyle } from "./version-choice.js";
import { workshopView } from "./workshop-view.js";

/** The folder of templates, as it lies in the package. */
export const templatesDir = fileURLToPath(new URL("../../../templates/", import.meta.url));
const scriptsDir = fileURLToPath(new URL("../../../dist/script/", import.meta.url));

/** Which part of the site a run of Eleventy makes: the shared pages, or the pages of these routines. */
export interface SitePart {
  readonly shared: boolean;
  readonly routines: readonly string[];
}

/**
 * Sets Eleventy up: it reads nothing but the templates, and a template reads nothing but the views, each computed when its
 * page is made and dropped afterwards, so that the memory does not grow with the library.
 */
export function configureSite(config: EleventyConfig, content: SiteContent, outDir: string, part?: SitePart): void {
  const { routines, workshops } = content;
  const shared = part?.shared ?? true;
  config.setTemplateFormats(["11ty.js"]);
  config.setUseGitIgnore(false);
  config.ignores.clear();
  config.addGlobalData("routineSlugs", part?.routines ?? routines.map(({ slug }) => slug));
  config.addGlobalData("workshopSlugs", shared ? workshops.map(({ slug }) => slug) : []);
  config.addGlobalData("onlyShared", shared ? [true] : []);

  config.addGlobalData("site", () => siteViews(content, outDir));
  if (shared) config.on("eleventy.after", () => writeAssets(outDir, templatesDir, scriptsDir, choiceStyle(routines)));
}

/**
 * What the templates ask for. Functions, so that Eleventy, which copies and keeps the data of every page, has nothing to copy
 * and to keep.
 */
function siteViews(content: SiteContent, outDir: string) {
  const { library, routines, workshops } = content;
  const bySlug = new Map(routines.map((routine) => [routine.slug, routine]));
  const workshopBySlug = new Map(workshops.map((workshop) => [workshop.slug, workshop]));
  return {
    library: () => library,
    home: () => {
      const view = libraryView(content);
      return { ...view, data: libraryData(view, library) };
    },
    routine: (slug: string) => {
      const routine = known(bySlug, slug);
      const view = routineView(routine, library, readPack(outDir, "routines", slug));
      return { ...view, data: routineData(routine, view, library) };
    },
    workshop: (slug: string) => {
      const workshop = known(workshopBySlug, slug);
      const view = workshopView(workshop, library, readPack(outDir, "workshops", slug));
      return { ...view, data: workshopData(workshop, library) };
    },
    feed: () => feedView(content),
    sitemap: () => sitemapView(content),
  };
}

function known<Value>(values: ReadonlyMap<string, Value>, slug: string): Value {
  const value = values.get(slug);
  if (value === undefined) throw new Error(`There is no page called ${slug}.`);
  return value;
}
