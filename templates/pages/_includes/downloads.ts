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
<p class="downloads">${link(first, "button")} <small>${first.kind}</small></p>${list(prints)}`
  }${others.length > 0 && html`${first && html`<h3>${outputs.others}</h3>`}${list(others)}`}`;
}

function list(files: readonly Download[]): Html | false {
  return (
    files.length > 0 &&
    html`<ul class="downloads">${files.map((file) => html`<li>${link(file)} <small>${file.kind}</small></li>`)}</ul>`
  );
}

function link({ file, name, saveAs }: Download, role?: string): Html {
  return html`<a href="${file}"${saveAs && html` download="${saveAs}"`}${role && html` class="${role}"`}>${name}</a>`;
}
