import type { FeedEntry } from "#src/publishing/site/feed-view.js";
import { type Html, html, raw } from "#src/publishing/site/html.js";
import type { SiteViews } from "#src/publishing/site/site-config.js";

export const data = { pagination: { data: "onlyShared", size: 1 }, permalink: "feed.xml" };

export function render({ site }: { readonly site: SiteViews }): string {
  const library = site.library();
  const { id, updated, home, self, entries } = site.feed();
  return html`${raw('<?xml version="1.0" encoding="utf-8"?>')}
<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="${library.language}">
<id>${id}</id>
<title>${library.name}</title>
<updated>${updated}</updated>
<author><name>${library.teacher ?? library.name}</name></author>
<link rel="self" type="application/atom+xml" href="${self}"/>
<link rel="alternate" type="text/html" href="${home}"/>
${entries.map(entry)}</feed>
`.html;
}

function entry({ id, title, updated, address, author, summary, styles }: FeedEntry): Html {
  return html`<entry>
<id>${id}</id>
<title>${title}</title>
<updated>${updated}</updated>
<author><name>${author}</name></author>
<link rel="alternate" type="text/html" href="${address}"/>
${styles.map((style) => html`<category term="${style}"/>\n`)}<summary>${summary}</summary>
</entry>
`;
}
