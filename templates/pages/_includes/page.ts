import { type Html, html, jsonBlock } from "#src/publishing/site/html.js";
import type { LinkedData } from "#src/publishing/site/structured-data.js";
import type { Library } from "#src/routine/routine.js";
import type { Wording } from "#src/wording/wording.js";
import { theirs } from "./theirs.js";
import { paperColours } from "./theme.js";

/** Own files only, and no inline script or style. A learner's own track and the audio made on the spot are blobs. */
const policy = [
  "default-src 'none'",
  ...["script-src", "style-src", "img-src", "font-src", "connect-src", "manifest-src", "worker-src"].map(
    (kind) => `${kind} 'self'`,
  ),
  "media-src 'self' blob:",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** Faces that every page shows at once. */
const early = ["400-normal", "700-normal", "800-normal"];

export interface Page {
  readonly library: Library;
  readonly wording: Wording;
  /** The way from the page to the site's first folder: "" or "../../". */
  readonly root: string;
  /** The page's own path from there, as it is published: "routines/low-tide/". */
  readonly path: string;
  readonly title: string;
  readonly description: string;
  /** JSON-LD; none of a page that only stands in for another, which is listed nowhere. */
  readonly data: LinkedData | undefined;
  /** Its name in the folder of scripts. It is no module: those a browser refuses to a page that is opened from a folder. */
  readonly script: string;
  readonly body: Html;
}

/** The frame of every page. */
export function page(of: Page): Html {
  const { library, root, path, title, description, data, script, body } = of;
  const words = of.wording.site;
  const home = path === "";
  const canonical = data && library.url && `${library.url}/${path}`;
  return html`<!DOCTYPE html>
<html lang="${of.wording.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${home ? title : `${title} · ${library.name}`}</title>
<meta name="description" content="${description}">
<meta name="color-scheme" content="light dark">
${!data && html`<meta name="robots" content="noindex">\n`}${Object.entries(paperColours).map(([scheme, colour]) => html`<meta name="theme-color" content="${colour}" media="(prefers-color-scheme: ${scheme})">\n`)}<meta name="referrer" content="strict-origin-when-cross-origin">
${early.map((face) => html`<link rel="preload" href="${root}assets/fonts/atkinson-hyperlegible-next-latin-${face}.woff2" as="font" type="font/woff2" crossorigin>\n`)}<link rel="stylesheet" href="${root}assets/style.css">
<link rel="icon" href="${root}assets/icon.svg" type="image/svg+xml">
<link rel="apple-touch-icon" href="${root}assets/icon-192.png">
<link rel="manifest" href="${root}manifest.webmanifest">
<link rel="alternate" type="application/atom+xml" title="${library.name}" href="${root}feed.xml">
${canonical && html`<link rel="canonical" href="${canonical}">\n<meta property="og:url" content="${canonical}">\n`}<meta property="og:site_name" content="${library.name}">
<meta property="og:title" content="${title}">
<meta property="og:type" content="${home ? "website" : "article"}">
<meta property="og:description" content="${description}">
${canonical && shared(`${canonical}preview.png`, words.preview(title))}<script defer src="${root}assets/script/${script}"></script>
${data && html`<script type="application/ld+json">${jsonBlock(data)}</script>\n`}</head>
<body>
<a class="skip" href="#main">${words.skip}</a>
${
  !home &&
  html`<header class="site-head"><a${theirs(of.wording)} href="${root}index.html">${library.name}</a></header>
`
}<main id="main">
${body}
</main>
<footer class="site-foot">
<p>${words.of(library.name, library.teacher)} <a href="${root}feed.xml">${words.feed}</a></p>
</footer>
</body>
</html>
`;
}

function shared(image: string, alt: string): Html {
  return html`<meta property="og:image" content="${image}">
<meta property="og:image:width" content="1200">
<meta property="og:image:height" content="630">
<meta property="og:image:alt" content="${alt}">
<meta name="twitter:card" content="summary_large_image">
`;
}
