import { type Html, html } from "#src/publishing/site/html.js";
import type { CardView, LibraryView, WorkshopEntry } from "#src/publishing/site/library-view.js";
import type { SiteViews } from "#src/publishing/site/site-config.js";
import type { Library } from "#src/routine/routine.js";
import { dateTime } from "./_includes/dates.js";
import { page } from "./_includes/page.js";

export const data = {
  pagination: { data: "onlyShared", size: 1 },
  permalink: "index.html",
};

export function render({ site }: { readonly site: SiteViews }): string {
  const library = site.library();
  const view = site.home();
  return page({
    library,
    root: "",
    path: "",
    title: library.name,
    description: `Dance routines by counts and cue words, from ${library.name}.`,
    data: view.data,
    preview: view.cards[0]?.facts.slug,
    scripts: ["library.js"],
    body: body(library, view),
  }).html;
}

function body(library: Library, view: LibraryView): Html {
  return html`<header class="title"><h1>${library.name}</h1>
${library.teacher && html`<p class="byline">${library.teacher}</p>`}</header>
<section aria-labelledby="routines"><h2 id="routines">Routines</h2>
${view.cards.length > 1 && filter(view)}
<ul class="cards">${view.cards.map(card)}</ul>
<p class="none" data-none hidden>No routine fits all of that. Take one wish back, or <button class="button" type="button" data-clear>show them all</button></p>
</section>
${
  view.workshops.length > 0 &&
  html`<section aria-labelledby="workshops"><h2 id="workshops">Classes and workshops</h2><ul class="workshops plain">${view.workshops.map(workshop)}</ul></section>`
}`;
}

/** Of use only with script, and shown only then. */
function filter({ styles, versions, adultOnly }: LibraryView): Html {
  return html`<search class="filter by-script" data-filter aria-label="Routines">
<label class="filter-words">Search <input type="search" name="q" placeholder="title, song, style, section"></label>
${
  styles.length > 1 &&
  select(
    "style",
    "Style",
    styles.map((style) => [style, style]),
  )
}
${
  versions.length > 1 &&
  select(
    "version",
    "Version",
    versions.map(({ id, name }) => [id, name]),
  )
}
${select("floor", "Floor work", [
  ["no", "without"],
  ["yes", "with"],
])}
${select("tempo", "Tempo", [
  ["slow", "under 90 a minute"],
  ["medium", "90 to 119"],
  ["fast", "120 and more"],
])}
${select("time", "One run", [
  ["short", "under a minute"],
  ["middle", "one to three minutes"],
  ["long", "three minutes and more"],
])}
${select("gear", "Gear", [["none", "nothing needed"]])}
${adultOnly && html`<label class="tick"><input type="checkbox" name="adult" value="out"> leave out adults only</label>`}
<p class="filter-left"><span role="status" data-left></span> <button class="button" type="button" data-clear hidden>Show all</button></p>
</search>`;
}

function select(name: string, label: string, options: readonly (readonly [value: string, text: string])[]): Html {
  return html`<label>${label} <select name="${name}"><option value="">any</option>${options.map(([value, text]) => html`<option value="${value}">${text}</option>`)}</select></label>`;
}

function card({ facts, run, levels, floor, choice }: CardView): Html {
  const { counts, countsPerMinute, phrase, form, song, gear, styles, audience } = facts;
  const lines = [
    // The first sentence is the short one; the others stand on the routine's own page.
    form.slice(0, 1).map((text) => text.replace(/\.$/, "")),
    [levels, phrase !== 8 && `phrases of ${phrase}`],
    [floor],
    gear.length > 0 && [`bring ${gear.join(", ")}`],
    [styles.join(", ")],
  ];
  return html`<li class="card" data-facts="${JSON.stringify(choice)}">
<p class="card-counts"><span><b>${counts}</b> counts</span> <span>${run}, ${countsPerMinute} a minute</span></p>
<h3><a href="routines/${facts.slug}/index.html">${facts.title}</a></h3>
<p class="card-by">${facts.choreographer}${song?.artist && ` · song by ${song.artist}`}</p>
${facts.summary && html`<p class="card-summary">${facts.summary}</p>`}
<ul class="card-facts">${lines.map(factLine)}</ul>
${audience !== "all" && html`<p class="card-audience">${audience === "adult" ? "Adults only" : "Teens and adults"}</p>`}
</li>
`;
}

function factLine(texts: readonly (string | false)[] | false): Html | false {
  const line = texts ? texts.filter(Boolean).join(" · ") : "";
  return line !== "" && html`<li>${line.charAt(0).toUpperCase() + line.slice(1)}</li>`;
}

function workshop({ slug, title, date, venue, minutes }: WorkshopEntry): Html {
  return html`<li><h3><a href="workshops/${slug}/index.html">${title}</a></h3><p>${date && html`${dateTime(date)} · `}${venue && `${venue} · `}${minutes} minutes</p></li>`;
}
