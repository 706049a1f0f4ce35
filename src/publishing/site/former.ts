import type { Library, Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { OutFile, Publisher } from "../publisher.js";
import { escapeText, html, raw } from "./html.js";

/**
 * A page at each address that a routine had before, which leads on to where it is now: paper and posts out there still name it. Search
 * engines are told the new address alone, so these pages are not in the sitemap.
 */
export const formerPages: Publisher<Routine> = {
  name: "former",
  publish: (routine, { library }) =>
    routine.formerly.map((slug): OutFile => {
      const path = `routines/${slug}/index.html`;
      return { path, kind: "page", mediaType: "text/html", content: formerPage(routine, library) };
    }),
};

/** Nothing but a script and a style of its own site. */
const policy =
  "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'";

/** With script the view that was asked for goes along; without, the page itself does, and at worst there is a link. */
function formerPage({ slug, title }: Routine, library: Library): string {
  const { language, authors, routine: words } = wordingOf(library.language);
  const theirs = authors !== undefined && raw(` lang="${escapeText(authors)}"`);
  const now = `../${slug}/index.html`;
  return html`<!DOCTYPE html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title} · ${library.name}</title>
<meta name="color-scheme" content="light dark">
${library.url !== undefined && html`<link rel="canonical" href="${library.url}/routines/${slug}/">\n`}<noscript><meta http-equiv="refresh" content="0; url=${now}"></noscript>
<link rel="stylesheet" href="../../assets/style.css">
<script defer src="../../assets/script/moved.js"></script>
</head>
<body>
<main>
<h1${theirs}>${title}</h1>
<p>${words.moved(html`<a href="${now}" data-moved${theirs}>${title}</a>`)}</p>
</main>
</body>
</html>
`.html;
}
