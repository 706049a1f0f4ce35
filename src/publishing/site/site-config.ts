import type { EleventyConfig } from "@11ty/eleventy";
import type { Library, Routine, Workshop } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { Work } from "../publisher.js";
import { routineJson } from "../routine-json.js";
import { feedView, type SitePage, sitemapView } from "./feed-view.js";
import { type LibraryFacts, libraryView } from "./library-view.js";
import { packOf } from "./pack.js";
import { playerData } from "./player-data.js";
import { routineView } from "./routine-view.js";
import { libraryData, routineData, workshopData } from "./structured-data.js";
import { workshopView } from "./workshop-view.js";

/** What the pages about a whole library are made from. */
export interface WholeLibrary {
  readonly facts: LibraryFacts;
  /** Every page of every output. */
  readonly pages: readonly SitePage[];
}

/** What one run of Eleventy makes: the whole site, or a part of it. */
export interface SitePart {
  readonly library: Library;
  /** Where the pages about the whole library are to be made. */
  readonly whole?: WholeLibrary;
  /** Whose pages are to be made. */
  readonly routines: readonly Work<Routine>[];
  readonly workshops: readonly Work<Workshop>[];
}

/**
 * Sets Eleventy up: it reads nothing but the templates, and a template reads nothing but the views, each computed when its
 * page is made and dropped afterwards, so that the memory does not grow with the library.
 */
export function configureSite(config: EleventyConfig, part: SitePart): void {
  config.setTemplateFormats(["11ty.js"]);
  config.setUseGitIgnore(false);
  config.ignores.clear();
  for (const [name, list] of Object.entries(listsOf(part))) config.addGlobalData(name, list);
  config.addGlobalData("site", () => siteViews(part));
}

/** A page template: for each value of a list, a page. */
export interface Template {
  readonly data: {
    readonly pagination: { readonly data: "routineSlugs" | "workshopSlugs" | "onlyShared" | "onlyAddressed" };
    readonly permalink: string | ((page: { readonly slug: string }) => string);
  };
  readonly render: (data: never) => string;
}

/** The pages that a template makes of a part of the site. */
export function pathsOf({ data: { pagination, permalink } }: Template, part: SitePart): readonly string[] {
  return listsOf(part)[pagination.data].map((slug) =>
    typeof permalink === "string" ? permalink : permalink({ slug }),
  );
}

/** What templates make their pages of. */
function listsOf({ library, whole, routines, workshops }: SitePart) {
  const slugs = (works: readonly Work<{ readonly slug: string }>[]) => works.map(({ subject }) => subject.slug);
  return {
    routineSlugs: slugs(routines),
    workshopSlugs: slugs(workshops),
    // Pages of which there is one.
    onlyShared: whole === undefined ? [] : [""],
    // The same of what only a library with an address has.
    onlyAddressed: whole === undefined || library.url === undefined ? [] : [""],
  };
}

/** What a page template is given as `site`. */
export type SiteViews = ReturnType<typeof siteViews>;

const nothing: WholeLibrary = { facts: { routines: [], workshops: [] }, pages: [] };

/**
 * What the templates ask for. Functions, so that Eleventy, which copies and keeps the data of every page, has nothing to copy
 * and to keep.
 */
function siteViews({ library, whole = nothing, routines, workshops }: SitePart) {
  const bySlug = new Map(routines.map((work) => [work.subject.slug, work]));
  const workshopBySlug = new Map(workshops.map((work) => [work.subject.slug, work]));
  const wording = wordingOf(library.language);
  return {
    library: () => library,
    wording: () => wording,
    home: () => {
      const view = libraryView(whole.facts, wording);
      return { ...view, data: libraryData(view, library) };
    },
    routine: (slug: string) => {
      const { subject, context } = known(bySlug, slug);
      const view = routineView(subject, library, packOf(context), wording);
      return {
        ...view,
        data: routineData(subject, view, library, wording),
        player: playerData(routineJson(subject, library, []), wording),
      };
    },
    workshop: (slug: string) => {
      const { subject, context } = known(workshopBySlug, slug);
      const view = workshopView(subject, library, packOf(context), wording);
      return { ...view, data: workshopData(subject, library) };
    },
    feed: () => feedView(library, whole.facts, wording),
    sitemap: () => sitemapView(library, whole.pages),
  };
}

function known<Value>(values: ReadonlyMap<string, Value>, slug: string): Value {
  const value = values.get(slug);
  if (value === undefined) throw new Error(`There is no page called ${slug}.`);
  return value;
}
