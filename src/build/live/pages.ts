import { type Html, html, raw } from "../../publishing/site/html.js";
import type { Finding } from "../../reading/finding.js";
import { byCause } from "./causes.js";
import type { Mistakes } from "./live.js";

/** Where the program's own files lie; no page of a pack begins like this. */
export const own = "/~live/";

/** In place of a page, or of a file that belongs to it, that can't be made: what to mend, where, and how. */
export function mistakesPage(mistakes: Mistakes, path: string): string {
  const { findings } = mistakes;
  const { causes, consequences } = byCause(findings);
  const one = findings.length === 1;
  const others = path === "index.html" ? "" : html` The other pages go on: see <a href="/">the library</a>.`;
  return frame(
    one ? "One thing to mend" : `${findings.length} things to mend`,
    html`<p>This page comes back as soon as ${one ? "it is" : "they are"} mended and saved.${others}</p>
${listOf(causes, mistakes)}
${
  consequences.length > 0 &&
  html`<h2>Look at these last: they may go by themselves once the others are mended</h2>
${listOf(consequences, mistakes)}`
}`,
  );
}

/** What to look at in a page that could be made, for the author's eyes alone: it is put into the page as it is served. */
export function toldBlock(told: Mistakes): string {
  const { findings } = told;
  const number = findings.length === 1 ? "One thing" : `${findings.length} things`;
  return html`<details class="live-told"${findings.length <= mostOpen && raw(" open")}><summary>${number} to look at before you publish; only you see this</summary>
${listOf(findings, told)}</details>
`.html;
}

/** On a page that goes on without what `library.yaml` says now. */
export const staleBlock =
  html`<p class="live-told"><a href="/"><code>library.yaml</code> has something to mend</a>; what you see is without what was changed in it since.</p>
`.html;

/** More findings than these are folded, so that the page itself is seen. */
const mostOpen = 3;

function listOf(findings: readonly Finding[], { sources }: Mistakes): Html {
  const item = (
    finding: Finding,
  ) => html`<li><p class="live-place">${finding.file}, line ${finding.line}, column ${finding.column}</p>
<p class="live-say">${inCode(finding.message)}</p>
${markedLine(finding, sources.get(finding.file))}</li>
`;
  return html`<ol class="live-list">${findings.map(item)}</ol>`;
}

/** A message, with what is to be typed set apart as the terminal sets it apart by backticks. */
function inCode(message: string): readonly Html[] {
  return message.split("`").map((part, index) => (index % 2 === 1 ? html`<code>${part}</code>` : html`${part}`));
}

/** The line of a finding, with what stands at its column marked. */
function markedLine({ line, column }: Finding, text = ""): Html {
  const whole = text.split(/\r\n?|\n/)[line - 1] ?? "";
  const found = /^\S+|^./.exec(whole.slice(column - 1))?.[0] ?? "";
  const after = whole.slice(column - 1 + found.length);
  return html`<pre data-line="${line}"><span>${whole.slice(0, column - 1)}<mark>${found}</mark>${after}</span></pre>`;
}

/** Where there is no page. */
export function nothingPage(path: string): string {
  const [, kind, slug] = /^(routine|workshop)s\/([^/]+)\/index\.html$/.exec(path) ?? [];
  const what =
    slug === undefined
      ? html`Nothing lies at <code>/${path}</code>.`
      : html`There is no ${kind} <code>${slug}</code>: its page is made of <code>${kind}s/${slug}.md</code> in your content folder.`;
  return frame(
    "There is no page here",
    html`<p class="live-say">${what}</p>
<p>Look for it in <a href="/">the library</a>.</p>`,
  );
}

/** Where a page could not be made for a reason that lies outside the content. */
export function troublePage(message: string): string {
  return frame("This page could not be made", html`<pre><span>${message}</span></pre>`);
}

function frame(title: string, body: Html): string {
  return html`<!doctype html>
<html class="live-page" lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>${title}</title>
${styleLink}</head>
<body>
<main>
<h1>${title}</h1>
${body}
</main>
</body>
</html>
`.html;
}

/** What the pages here look like, and what is put into others. */
export const styleLink = raw(`<link rel="stylesheet" href="${own}style.css">\n`);
