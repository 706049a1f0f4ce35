import { html } from "#src/publishing/site/html.js";
import type { SiteViews } from "#src/publishing/site/site-config.js";
import { page } from "./_includes/page.js";

/** Only a library with an address knows where it begins on its host, which a page that stands in for any other has to know. */
export const data = { pagination: { data: "onlyAddressed", size: 1 }, permalink: "404.html" };

/** What many static hosts show where there is no page (common practice, no source). */
export function render({ site }: { readonly site: SiteViews }): string {
  const wording = site.wording();
  const library = site.library();
  const words = wording.site.missing;
  const root = `${new URL(library.url ?? "").pathname.replace(/\/$/, "")}/`;
  return page({
    library,
    wording,
    root,
    path: "404.html",
    title: words.title,
    description: words.why,
    data: undefined,
    script: "offline.js",
    body: html`<header class="title"><h1>${words.title}</h1></header>
<p>${words.why}</p>
<p>${words.look(html`<a href="${root}index.html">${library.name}</a>`)}</p>`,
  }).html;
}
