import { type Html, html } from "#src/publishing/site/html.js";
import type { SiteViews } from "#src/publishing/site/site-config.js";
import type { PlanView, WorkshopView } from "#src/publishing/site/workshop-view.js";
import type { Wording } from "#src/wording/wording.js";
import { care } from "./_includes/care.js";
import { dateTime } from "./_includes/dates.js";
import { page } from "./_includes/page.js";
import { theirs } from "./_includes/theirs.js";

type Activity = PlanView["activities"][number];

interface PageData {
  readonly slug: string;
  readonly site: SiteViews;
}

export const data = {
  pagination: { data: "workshopSlugs", size: 1, alias: "slug" },
  permalink: ({ slug }: Pick<PageData, "slug">) => `workshops/${slug}/index.html`,
};

export function render({ slug, site }: PageData): string {
  const wording = site.wording();
  const view = site.workshop(slug);
  return page({
    library: site.library(),
    wording,
    root: "../../",
    path: `workshops/${slug}/`,
    title: view.title,
    description: wording.workshop.description(
      view.title,
      view.minutes,
      view.routines.map(({ title }) => title),
    ),
    data: view.data,
    script: "workshop.js",
    body: body(view, wording),
  }).html;
}

function body(view: WorkshopView, wording: Wording): Html {
  const words = wording.workshop;
  return html`<article class="workshop">
<header class="title"><h1${theirs(wording)}>${view.title}</h1>
<p class="byline">${[view.date && dateTime(view.date, wording.dates), view.venue].filter(Boolean).map((part, index) => html`${index > 0 && " · "}${part}`)}</p>
<dl class="facts"><div><dt>${words.minutes}</dt><dd>${view.minutes}</dd></div><div><dt>${words.level}</dt><dd>${view.level}</dd></div><div><dt>${words.routines}</dt><dd>${view.routines.length}</dd></div></dl></header>
<div class="prose"${theirs(wording)}>${view.prose}</div>
<section aria-labelledby="danced"><h2 id="danced">${words.danced}</h2><ul class="danced plain">${view.routines.map((of) => danced(of, wording))}</ul></section>
${care(view, wording)}
${needs(view, wording)}
${view.plan && plan(view.plan, wording)}
${
  view.downloads.length > 0 &&
  html`<section aria-labelledby="take"><h2 id="take">${words.takeAway}</h2><ul class="downloads">${view.downloads.map(({ file, name, kind }) => html`<li><a href="${file}">${name}</a> <small>${kind}</small></li>`)}</ul></section>`
}</article>`;
}

function danced(
  { slug, title, choreographer, counts, run, tempo }: WorkshopView["routines"][number],
  wording: Wording,
): Html {
  const { routine } = wording;
  return html`<li><h3${theirs(wording)}><a href="../../routines/${slug}/index.html">${title}</a></h3><p>${routine.by(choreographer)} · ${routine.numberOfCounts(counts)} · ${routine.pace(run, tempo)}</p></li>`;
}

function needs({ gear }: WorkshopView, { workshop: words }: Wording): Html | false {
  if (gear.length === 0) return false;
  return html`<section aria-labelledby="needs"><h2 id="needs">${words.bring}</h2><ul>${gear.map(
    ({ item, required, routines }) => html`<li>${words.need(html`<b>${item}</b>`, required, routines)}</li>`,
  )}</ul></section>`;
}

function plan({ summary, activities }: PlanView, wording: Wording): Html {
  return html`<section class="plan" aria-labelledby="plan"><h2 id="plan">${wording.workshop.runningOrder}</h2>
${summary.map((text) => html`<p>${text}</p>`)}
<ol class="plain">${activities.map((of) => activity(of, wording))}</ol></section>`;
}

function activity({ clock, label, length, cautions, steps }: Activity, { sections }: Wording): Html {
  return html`<li class="block"><h3><span class="clock">${clock}</span> ${label} <small>${length}</small></h3>
${cautions.length > 0 && html`<p class="care">${sections.takeCare(cautions, (read) => html`<a href="#care">${read}</a>`)}</p>`}
<ol class="plain">${steps.map(step)}</ol></li>
`;
}

function step({ label, instruction, load }: Activity["steps"][number]): Html {
  return html`<li><div><p>${label !== "" && html`<b>${label}.</b> `}${instruction}</p>${load !== "" && html`<p class="load">${load}</p>`}</div></li>
`;
}
