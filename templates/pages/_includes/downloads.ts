import { type Html, html } from "#src/publishing/site/html.js";
import type { Download } from "#src/publishing/site/pack.js";
import type { Wording } from "#src/wording/wording.js";

/** The files that a page offers: what is printed, with the one that most people want first and large, and the others. */
export function downloads(files: readonly Download[], { outputs }: Wording): Html {
  const [first, ...prints] = files.filter(({ toPrint }) => toPrint);
  const others = files.filter(({ toPrint }) => !toPrint);
  return html`${
    first &&
    html`<h3>${outputs.toPrint}</h3>
<p class="downloads"><a class="button" href="${first.file}" download="${savedAs(first)}">${first.name}</a> <small>${first.kind}</small></p>${list(prints.map(print))}`
  }${others.length > 0 && html`${first && html`<h3>${outputs.others}</h3>`}${list(others.map(other))}`}`;
}

function list(links: readonly Html[]): Html | false {
  return links.length > 0 && html`<ul class="downloads">${links.map((link) => html`<li>${link}</li>`)}</ul>`;
}

function print(download: Download): Html {
  const { file, name, kind } = download;
  return html`<a href="${file}" download="${savedAs(download)}">${name}</a> <small>${kind}</small>`;
}

function other({ file, name, kind }: Download): Html {
  return html`<a href="${file}">${name}</a> <small>${kind}</small>`;
}

/** What is printed has a name that a person would give it. */
function savedAs({ file, saveAs = file }: Download): string {
  return saveAs;
}
