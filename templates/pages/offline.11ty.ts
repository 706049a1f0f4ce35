import { html } from "#src/publishing/site/html.js";
import type { SiteViews } from "#src/publishing/site/site-config.js";
import { page } from "./_includes/page.js";

export const data = { pagination: { data: "onlyShared", size: 1 }, permalink: "offline.html" };

/** Stands in for a page that was never kept, where there is no network; its script lists what was. */
export function render({ site }: { readonly site: SiteViews }): string {
  const wording = site.wording();
  const words = wording.site.offline;
  return page({
    library: site.library(),
    wording,
    root: "",
    path: "offline.html",
    title: words.title,
    description: words.why,
    data: undefined,
    script: "offline.js",
    body: html`<header class="title"><h1>${words.title}</h1></header>
<p>${words.why} <a href="index.html" data-again hidden>${words.again}</a></p>
<section data-opens aria-labelledby="kept" hidden><h2 id="kept">${words.opens}</h2>
<ul></ul></section>`,
  }).html;
}
