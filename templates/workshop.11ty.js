import { html } from "../dist/publishing/site/html.js";
import { dateTime } from "./_includes/dates.js";
import { page } from "./_includes/page.js";

export const data = {
  pagination: { data: "workshopSlugs", size: 1, alias: "slug" },
  permalink: ({ slug }) => `workshops/${slug}/index.html`,
};

export async function render({ slug }) {
  const view = await this.workshopView(slug);
  return page({
    library: this.library(),
    root: "../../",
    path: `workshops/${slug}/`,
    title: view.title,
    description: `${view.title}: ${view.minutes} minutes with ${view.routines.map(({ title }) => title).join(", ")}.`,
    data: view.data,
    scripts: [],
    body: body(view),
  }).html;
}

function body(view) {
  return html`<article class="workshop"><header class="title"><h1>${view.title}</h1>
<p class="byline">${view.date && html`${dateTime(view.date)}, `}${view.venue && `${view.venue}, `}${view.minutes} minutes, ${view.level.toLowerCase()}</p></header>
<section aria-labelledby="care"><h2 id="care">Take care</h2><ul>${view.cautions.map(({ label, text }) => html`<li><b>${label}</b> ${text}</li>`)}</ul><p>${view.deference}</p>${view.houseRules}</section>
<section aria-labelledby="routines"><h2 id="routines">What is danced</h2><ul>${view.routines.map(
    ({ slug, title, choreographer, counts, run, tempo }) =>
      html`<li><a href="../../routines/${slug}/index.html">${title}</a> by ${choreographer}: ${counts} counts, ${run}, ${tempo} a minute</li>`,
  )}</ul></section>
<section aria-labelledby="needs"><h2 id="needs">What to bring</h2><ul>${view.gear.map(
    ({ item, required, routines }) =>
      html`<li><b>${item}</b>${!required && " (if you like)"}, for ${routines.join(", ")}</li>`,
  )}</ul></section>
<div class="prose">${view.prose}</div>
${view.hasPack && html`<p><a href="pack.pdf">The whole pack, to print</a></p>`}</article>`;
}
