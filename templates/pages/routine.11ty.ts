import type { SiteViews } from "#src/publishing/site/site-config.js";
import { routinePage } from "./_includes/routine.js";

interface PageData {
  readonly slug: string;
  readonly site: SiteViews;
}

export const data = {
  pagination: { data: "routineSlugs", size: 1, alias: "slug" },
  permalink: ({ slug }: Pick<PageData, "slug">) => `routines/${slug}/index.html`,
};

export const render = ({ slug, site }: PageData): string =>
  routinePage(site.library(), slug, site.routine(slug), site.wording());
