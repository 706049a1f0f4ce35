import type { SiteViews } from "#src/publishing/site/site-config.js";

export const data = { pagination: { data: "onlyShared", size: 1 }, permalink: "library.json" };

/** Everything that the library page is made from, for whoever wants to search it in another way. */
export function render({ site }: { readonly site: SiteViews }): string {
  const { cards, workshops } = site.home();
  return `${JSON.stringify({ name: site.library().name, routines: cards.map(({ facts }) => facts), workshops }, null, 1)}\n`;
}
