import { routinePage } from "./_includes/routine.js";

export const data = {
  pagination: { data: "routineSlugs", size: 1, alias: "slug" },
  permalink: ({ slug }) => `routines/${slug}/index.html`,
};

/* Eleventy loads a template anew for every part of a site; what it imports stays loaded, and quick. */
export const render = ({ slug, site }) => routinePage(site.library(), slug, site.routine(slug));
