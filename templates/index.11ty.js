import { html } from "../dist/publishing/site/html.js";
import { dateTime } from "./_includes/dates.js";
import { page } from "./_includes/page.js";

export const data = {
  pagination: { data: "onlyShared", size: 1 },
  permalink: "index.html",
};

export function render() {
  const library = this.library();
  const view = this.libraryView();
  return page({
    library,
    root: "",
    path: "",
    title: library.name,
    description: `Dance routines by counts and cue words, from ${library.name}.`,
    scripts: ["library.js"],
    body: body(library, view),
  }).html;
}

function body(library, { cards, workshops }) {
  return html`<header class="title"><h1>${library.name}</h1></header>
<section aria-labelledby="routines"><h2 id="routines">Routines</h2>
<ul class="cards">${cards.map(card)}</ul></section>
${workshops.length > 0 && html`<section aria-labelledby="workshops"><h2 id="workshops">Workshops</h2><ul class="workshops">${workshops.map(workshop)}</ul></section>`}`;
}

function card({ facts, run }) {
  return html`<li class="card"><h3><a href="routines/${facts.slug}/index.html">${facts.title}</a></h3>
<p>${facts.choreographer}</p>${facts.summary && html`<p>${facts.summary}</p>`}
<p>${facts.counts} counts, ${run}, ${facts.countsPerMinute} a minute</p></li>
`;
}

function workshop({ slug, title, date, venue, minutes }) {
  return html`<li><h3><a href="workshops/${slug}/index.html">${title}</a></h3><p>${date && html`${dateTime(date)}, `}${venue && `${venue}, `}${minutes} minutes</p></li>`;
}
