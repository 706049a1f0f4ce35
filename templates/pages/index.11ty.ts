import { type Html, html } from "#src/publishing/site/html.js";
import type { BrokenEntry, CardView, LibraryView, WorkshopEntry } from "#src/publishing/site/library-view.js";
import type { SiteViews } from "#src/publishing/site/site-config.js";
import type { Library } from "#src/routine/routine.js";
import type { Wording } from "#src/wording/wording.js";
import { dayOrDays } from "./_includes/dates.js";
import { page } from "./_includes/page.js";
import { theirs } from "./_includes/theirs.js";

export const data = {
  pagination: { data: "onlyShared", size: 1 },
  permalink: "index.html",
};

export function render({ site }: { readonly site: SiteViews }): string {
  const library = site.library();
  const wording = site.wording();
  const view = site.home();
  return page({
    library,
    wording,
    root: "",
    path: "",
    title: library.name,
    description: wording.library.description(library.name),
    data: view.data,
    script: "library.js",
    body: body(library, view, wording),
  }).html;
}

function body(library: Library, view: LibraryView, wording: Wording): Html {
  const words = wording.library;
  return html`<header class="title"><h1${theirs(wording)}>${library.name}</h1>
${library.teacher && html`<p class="byline">${library.teacher}</p>`}</header>
<section aria-labelledby="routines"><h2 id="routines">${words.routines}</h2>
${view.cards.length > 1 && filter(view, wording)}
<ul class="cards">${view.shelf.map((of) => ("mistakes" in of ? html`<li class="card">${broken(of, wording)}</li>\n` : card(of, view.told, wording)))}</ul>
<p class="none" data-none hidden>${words.noneFits((all) => html`<button class="button" type="button" data-clear>${all}</button>`)}</p>
</section>
${
  view.workshopShelf.length > 0 &&
  html`<section aria-labelledby="workshops"><h2 id="workshops">${words.workshops}</h2><ul class="workshops plain" data-workshops>${view.workshopShelf.map((of) => ("mistakes" in of ? html`<li>${broken(of, wording)}</li>` : workshop(of, view.told, wording)))}</ul>
<details class="past" data-past hidden><summary>${words.pastWorkshops}</summary></details></section>`
}`;
}

/** Of use only with script, and shown only then. */
function filter({ cards, styles, versions, adultOnly }: LibraryView, wording: Wording): Html {
  const { library: words } = wording;
  const { floor, tempo, run, gear } = words;
  return html`<search class="filter by-script" data-filter aria-label="${words.routines}">
<label class="filter-words">${words.search} <input type="search" name="q" placeholder="${words.searchHint}"></label>
<button class="button filter-fold" type="button" aria-expanded="false" aria-controls="filters" data-fold>${wording.notices.filtersSet(0)}</button>
<div class="filter-more" id="filters">${
    styles.length > 1 &&
    select(
      words,
      "style",
      words.style,
      styles.map((style) => [style, style]),
    )
  }
${
  versions.length > 1 &&
  select(
    words,
    "version",
    words.version,
    versions.map(({ id, name }) => [id, name]),
  )
}
${select(words, "floor", floor.label, [
  ["no", floor.without],
  ["yes", floor.with],
])}
${select(words, "tempo", tempo.label, [
  ["slow", tempo.slow],
  ["medium", tempo.medium],
  ["fast", tempo.fast],
])}
${select(words, "time", run.label, [
  ["short", run.short],
  ["middle", run.middle],
  ["long", run.long],
])}
${select(words, "gear", gear.label, [["none", gear.none]])}
${adultOnly && html`<label class="tick"><input type="checkbox" name="adult" value="out"> ${words.noAdultsOnly}</label>`}
</div>
<p class="filter-left"><span role="status" data-left>${wording.notices.routines(cards.length)}</span> <button class="button" type="button" data-clear hidden>${words.showAll}</button></p>
</search>`;
}

function select(
  { any }: Wording["library"],
  name: string,
  label: string,
  options: readonly (readonly [value: string, text: string])[],
): Html {
  return html`<label>${label} <select name="${name}"><option value="">${any}</option>${options.map(([value, text]) => html`<option value="${value}">${text}</option>`)}</select></label>`;
}

function card({ facts, key, face, lines, filterFacts }: CardView, told: LibraryView["told"], wording: Wording): Html {
  const { library, routine } = wording;
  const { song, audience } = facts;
  const numerals = face.map(({ number, accent }) => (accent ? html`<b>${number}</b> ` : `${number} `));
  return html`<li class="card" data-facts="${JSON.stringify(filterFacts)}">
<h3${theirs(wording)}><a href="routines/${facts.slug}/index.html">${facts.title}</a></h3>${toldLine(told[`routines/${facts.slug}`])}
<p class="card-key">${key}</p>
${face.length > 0 && html`<p class="card-face" aria-hidden="true">${numerals}</p>`}
<p class="card-by">${facts.choreographer}${song?.artist && ` · ${library.songBy(song.artist)}`}</p>
${facts.summary && html`<p class="card-summary"${theirs(wording)}>${facts.summary}</p>`}
<ul class="card-facts">${lines.map((line) => html`<li>${line}</li>`)}</ul>
${audience !== "all" && html`<p class="card-audience">${library.factLine([audience === "adult" ? routine.adultsOnly : routine.teensAndAdults])}</p>`}
</li>
`;
}

/** In the place of what can't be made yet: how much is to be mended, and the way to it. */
function broken({ kind, slug, title, mistakes, waitsFor }: BrokenEntry, wording: Wording): Html {
  const { library } = wording;
  const line = library.factLine([
    mistakes > 0 ? library.toMend(mistakes) : "",
    waitsFor.length > 0 ? library.waitsFor(waitsFor) : "",
  ]);
  return html`<h3${theirs(wording)}><a href="${kind}/${encodeURIComponent(slug)}/index.html">${title}</a></h3><p class="broken">${line}</p>`;
}

/** What its author alone is told of an entry, while the library is served. */
function toldLine(line: string | undefined): Html | false {
  return line !== undefined && html`<p class="told">${line}</p>`;
}

function workshop(
  { slug, title, date, lessons, dates, venue, minutes }: WorkshopEntry,
  told: LibraryView["told"],
  wording: Wording,
): Html {
  const { workshop } = wording;
  const days = dates ?? (date === undefined ? [] : [date]);
  const facts = [
    dayOrDays(days, wording),
    venue,
    lessons !== undefined && workshop.numberOfLessons(lessons),
    workshop.numberOfMinutes(minutes),
  ].filter(Boolean);
  return html`<li data-days="${days.join(" ")}"><h3${theirs(wording)}><a href="workshops/${slug}/index.html">${title}</a></h3>${toldLine(told[`workshops/${slug}`])}<p>${facts.map((fact, index) => html`${index > 0 && " · "}${fact}`)}</p></li>`;
}
