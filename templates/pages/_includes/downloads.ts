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
<p class="downloads">${print(first, "button")}</p>${list(prints.map((file) => print(file)))}`
  }${others.length > 0 && html`${first && html`<h3>${outputs.others}</h3>`}${list(others.map(other))}`}`;
}

function list(links: readonly Html[]): Html | false {
  return links.length > 0 && html`<ul class="downloads">${links.map((link) => html`<li>${link}</li>`)}</ul>`;
}

/** It is saved under the name that a person would give it. */
function print({ file, name, kind, saveAs = file }: Download, role = ""): Html {
  return html`<a class="${role}" href="${file}" download="${saveAs}">${name}</a> <small>${kind}</small>`;
}

function other({ file, name, kind }: Download): Html {
  return html`<a href="${file}">${name}</a> <small>${kind}</small>`;
}
