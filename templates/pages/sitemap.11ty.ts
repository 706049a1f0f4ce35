import { html, raw } from "#src/publishing/site/html.js";
import type { SiteViews } from "#src/publishing/site/site-config.js";

export const data = { pagination: { data: "onlyAddressed", size: 1 }, permalink: "sitemap.xml" };

export function render({ site }: { readonly site: SiteViews }): string {
  return html`${raw('<?xml version="1.0" encoding="utf-8"?>')}
<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">
${site
  .sitemap()
  .map(
    ({ address, date }) => html`<url><loc>${address}</loc>${date && html`<lastmod>${date}</lastmod>`}</url>\n`,
  )}</urlset>
`.html;
}
