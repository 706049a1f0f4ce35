import { fileURLToPath } from "node:url";
import type { EleventyConfig } from "@11ty/eleventy";
import type { Library, Routine, Workshop } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import { writeAssets } from "./assets.js";
import { feedView, sitemapView } from "./feed-view.js";
import { type LibraryFacts, libraryView, workshopFacts } from "./library-view.js";
import { type PackFiles, readPack } from "./pack.js";
import { routineFacts } from "./routine-facts.js";
import { routineView } from "./routine-view.js";
import { libraryData, routineData, workshopData } from "./structured-data.js";
import { choiceStyle } from "./version-choice.js";
import { workshopView } from "./workshop-view.js";

const packageDir = new URL("../../../", import.meta.url);
/** The compiled page templates. */
export const pagesDir = fileURLToPath(new URL("dist/pages/", packageDir));
/** The bundled browser scripts. */
const scriptsDir = fileURLToPath(new URL("dist/script/", packageDir));
/** Styles and images, as they lie in the package. */
const templatesDir = fileURLToPath(new URL("templates/", packageDir));

/** What one run of Eleventy makes: the whole site, or a part of it. */
export interface SitePart {
  readonly library: Library;
  /** Of all routines and workshops, where the pages about the whole library and the assets are to be made. */
  readonly facts?: LibraryFacts;
  /** Whose pages are to be made. */
  readonly routines: readonly Routine[];
  readonly workshops: readonly Workshop[];
  /** What lies in the pack beside a page. */
  readonly packOf: (kind: "routines" | "workshops", slug: string) => PackFiles;
}

/** The whole site, its pack as it lies on the disk. */
export function wholeSite(content: Pick<SitePart, "library" | "routines" | "workshops">, outDir: string): SitePart {
  const { library, routines, workshops } = content;
  const facts = { routines: routines.map(routineFacts), workshops: workshops.map(workshopFacts) };
  return { library, facts, routines, workshops, packOf: (kind, slug) => readPack(outDir, kind, slug) };
}

/**
 * Sets Eleventy up: it reads nothing but the templates, and a template reads nothing but the views, each computed when its
 * page is made and dropped afterwards, so that the memory does not grow with the library.
 */
export function configureSite(config: EleventyConfig, part: SitePart, outDir: string): void {
  const { facts, routines, workshops } = part;
  config.setTemplateFormats(["11ty.js"]);
  config.setUseGitIgnore(false);
  config.ignores.clear();
  config.addGlobalData(
    "routineSlugs",
    routines.map(({ slug }) => slug),
  );
  config.addGlobalData(
    "workshopSlugs",
    workshops.map(({ slug }) => slug),
  );
  config.addGlobalData("onlyShared", facts === undefined ? [] : [true]);

  config.addGlobalData("site", () => siteViews(part));
  if (facts !== undefined)
    config.on("eleventy.after", () => writeAssets(outDir, templatesDir, scriptsDir, choiceStyle(facts.routines)));
}

/** What a page template is given as `site`. */
export type SiteViews = ReturnType<typeof siteViews>;

/**
 * What the templates ask for. Functions, so that Eleventy, which copies and keeps the data of every page, has nothing to copy
 * and to keep.
 */
function siteViews({ library, facts = { routines: [], workshops: [] }, routines, workshops, packOf }: SitePart) {
  const bySlug = new Map(routines.map((routine) => [routine.slug, routine]));
  const workshopBySlug = new Map(workshops.map((workshop) => [workshop.slug, workshop]));
  const wording = wordingOf(library.language);
  return {
    library: () => library,
    wording: () => wording,
    home: () => {
      const view = libraryView(facts, wording);
      return { ...view, data: libraryData(view, library) };
    },
    routine: (slug: string) => {
      const routine = known(bySlug, slug);
      const view = routineView(routine, library, packOf("routines", slug), wording);
      return { ...view, data: routineData(routine, view, library, wording) };
    },
    workshop: (slug: string) => {
      const workshop = known(workshopBySlug, slug);
      const view = workshopView(workshop, library, packOf("workshops", slug), wording);
      return { ...view, data: workshopData(workshop, library) };
    },
    feed: () => feedView(library, facts, wording),
    sitemap: () => sitemapView(library, facts),
  };
}

function known<Value>(values: ReadonlyMap<string, Value>, slug: string): Value {
  const value = values.get(slug);
  if (value === undefined) throw new Error(`There is no page called ${slug}.`);
  return value;
}
