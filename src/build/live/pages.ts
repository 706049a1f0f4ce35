import { type Html, html, raw } from "../../publishing/site/html.js";
import type { Finding } from "../../reading/finding.js";
import type { Mistakes } from "./live.js";

/** In place of a page, or of a file that belongs to it, that can't be made: what to mend, where, and how. */
export function mistakesPage({ findings, sources }: Mistakes, path: string): string {
  const one = findings.length === 1;
  const item = (finding: Finding) => html`<li><p>${finding.file}, line ${finding.line}, column ${finding.column}</p>
<p class="say">${inCode(finding.message)}</p>
${markedLine(finding, sources.get(finding.file))}</li>
`;
  const others = path === "index.html" ? "" : html` The other pages go on: see <a href="/">the library</a>.`;
  return frame(
    one ? "One thing to mend" : `${findings.length} things to mend`,
    html`<p>This page comes back as soon as ${one ? "it is" : "they are"} mended and saved.${others}</p>
<ol>${findings.map(item)}</ol>`,
  );
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
export function nothingPage(): string {
  return frame("There is no page here", html`<p>Look for it in <a href="/">the library</a>.</p>`);
}

/** Where a page could not be made for a reason that lies outside the content. */
export function troublePage(message: string): string {
  return frame("This page could not be made", html`<pre><span>${message}</span></pre>`);
}

/* In the colours of the site, but on its own: the site's style sheet may be what can't be made. */
const style = raw(`:root{color-scheme:light dark;--paper:light-dark(#fbf5ea,#1b1513);--wash:light-dark(#f3e8d7,#281f1b);
--ink:light-dark(#2a1c17,#f6ebdd);--beat:light-dark(#8c2a1c,#ffb48c)}
body{font:1.1rem/1.5 system-ui,sans-serif;max-width:46rem;margin:3rem auto;padding:0 1rem;background:var(--paper);color:var(--ink)}
a{color:inherit}ol{padding-inline-start:1.5rem}li{margin-block:2.5rem}p{margin-block:.4rem}.say{font-weight:600}
code,pre{font-family:ui-monospace,monospace;background:var(--wash)}code{padding:.1em .3em;white-space:pre-wrap}
pre{display:flex;gap:1rem;padding:.8rem 1rem;line-height:1.35}pre::before{content:attr(data-line);opacity:.7}
pre span{white-space:pre-wrap;overflow-wrap:anywhere;min-width:0}mark{background:var(--beat);color:var(--paper)}`);

function frame(title: string, body: Html): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>${title}</title>
<style>${style}</style>
</head>
<body>
<main>
<h1>${title}</h1>
${body}
</main>
</body>
</html>
`.html;
}
