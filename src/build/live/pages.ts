import { type Html, html, raw } from "../../publishing/site/html.js";
import type { Finding } from "../../reading/finding.js";
import type { Mistakes } from "./live.js";

/** In place of a page that can't be made: what to mend, where, and how. */
export function mistakesPage({ findings, sources }: Mistakes): string {
  const one = findings.length === 1;
  const item = (finding: Finding) => html`<li><p>${finding.file}, line ${finding.line}, column ${finding.column}</p>
<p><b>${finding.message}</b></p>
${markedLine(finding, sources.get(finding.file))}</li>
`;
  return frame(
    one ? "One thing to mend" : `${findings.length} things to mend`,
    html`<p>This page comes back as soon as ${one ? "it is" : "they are"} mended and saved. The other pages go on:
see <a href="/">the library</a>.</p>
<ol>${findings.map(item)}</ol>`,
  );
}

/** The line of a finding, with what stands at its column marked. */
function markedLine({ line, column }: Finding, text = ""): Html {
  const whole = text.split(/\r\n?|\n/)[line - 1] ?? "";
  const found = /^\S+|^./.exec(whole.slice(column - 1))?.[0] ?? "";
  const after = whole.slice(column - 1 + found.length);
  return html`<pre tabindex="0">${whole.slice(0, column - 1)}<mark>${found}</mark>${after}</pre>`;
}

/** Where there is no page. */
export function nothingPage(): string {
  return frame("There is no page here", html`<p>Look for it in <a href="/">the library</a>.</p>`);
}

/** Where a page could not be made for a reason that lies outside the content. */
export function troublePage(message: string): string {
  return frame("This page could not be made", html`<pre tabindex="0">${message}</pre>`);
}

const style = raw(`body{font:1.1rem/1.5 system-ui,sans-serif;max-width:46rem;margin:3rem auto;padding:0 1rem}
li{margin-block:2rem}p{margin-block:.4rem}pre{overflow-x:auto;padding:1rem;border:1px solid;line-height:1.35}
:root{color-scheme:light dark}`);

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
