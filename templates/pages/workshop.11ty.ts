import { type Html, html } from "#src/publishing/site/html.js";
import type { SiteViews } from "#src/publishing/site/site-config.js";
import type { CourseView, LessonView, PlanView, WorkshopView } from "#src/publishing/site/workshop-view.js";
import type { Wording } from "#src/wording/wording.js";
import { care } from "./_includes/care.js";
import { dayOrDays } from "./_includes/dates.js";
import { downloads } from "./_includes/downloads.js";
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
<p class="byline">${[dayOrDays(view.days, wording), view.starts !== undefined && words.startsAt(view.starts), view.venue, view.lessons !== undefined && words.numberOfLessons(view.lessons)].filter(Boolean).map((part, index) => html`${index > 0 && " · "}${part}`)}</p>
<dl class="facts"><div><dt>${words.minutes}</dt><dd>${view.minutes}</dd></div><div><dt>${words.level}</dt><dd>${view.level}</dd></div><div><dt>${words.routines}</dt><dd>${view.routines.length}</dd></div></dl></header>
${view.course && around(view.course, wording)}<div class="beforehand"><div>
<div class="prose"${theirs(wording)}>${view.prose}</div>
<section aria-labelledby="danced"><h2 id="danced">${words.danced}</h2><ul class="danced plain">${view.routines.map((of) => danced(of, wording))}</ul></section>
</div><div>
${care(view, wording)}
${needs(view, wording)}
</div></div>
${
  view.downloads.length > 0 &&
  html`<section aria-labelledby="take"><h2 id="take">${words.takeAway}</h2>${downloads(view.downloads, wording)}</section>`
}
${
  view.plan &&
  html`<section class="plan" aria-labelledby="plan"><h2 id="plan">${words.runningOrder}</h2>
${glance(view.plan)}
${plan(view.plan, "", wording)}</section>`
}${view.course && course(view.course, wording)}
</article>`;
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

/** The whole of it as far as it goes on a screen: each line leads to what is done then. */
function glance({ activities }: PlanView): Html {
  return html`<ol class="glance plain">${activities.map(
    ({ clock, label, length }, index) =>
      html`<li><a href="#${blockId("", index)}"><span class="clock">${clock}</span> <span>${label}</span> <small>${length}</small></a></li>\n`,
  )}</ol>`;
}

/** @param of the id of the lesson that it is the plan of; empty of a class by itself */
function plan({ summary, activities }: PlanView, of: string, wording: Wording): Html {
  return html`${summary.map((text) => html`<p>${text}</p>`)}
<ol class="plain">${activities.map((one, index) => activity(one, blockId(of, index), wording))}</ol>`;
}

function blockId(of: string, index: number): string {
  return `${of === "" ? "" : `${of}-`}block-${index + 1}`;
}

/** Where the course stands today: the script knows which lessons these are, and without it they are not shown. */
function around({ lessons }: CourseView, { course: { around: words } }: Wording): Html | false {
  if (lessons.every(({ date }) => date === undefined)) return false;
  return html`<dl class="around" data-around hidden><div data-last hidden><dt>${words.last}</dt><dd></dd></div><div data-next hidden><dt>${words.next}</dt><dd></dd></div></dl>
`;
}

function course({ summary, lessons }: CourseView, wording: Wording): Html {
  return html`<section class="course" aria-labelledby="course"><h2 id="course">${wording.course.title}</h2>
${summary.map((text) => html`<p>${text}</p>`)}
<ol class="plain">${lessons.map((of) => lesson(of, wording))}</ol></section>`;
}

function lesson({ number, name, date, columns, sheet, saveAs, plan: order }: LessonView, wording: Wording): Html {
  const { course: words, dates, outputs } = wording;
  const filled = columns.filter(({ texts }) => texts.length > 0);
  const id = `lesson-${number}`;
  return html`<li class="lesson" data-day="${date ?? ""}"><h3 id="${id}">${name}${date !== undefined && html` <time datetime="${date}">${dates.weekday(date)}</time>`}</h3>
<dl>${filled.map(({ head, texts }) => html`<div><dt>${head}</dt>${texts.map((text) => html`<dd>${text}</dd>`)}</div>`)}</dl>
${sheet !== undefined && html`<p class="sheet"><a href="${sheet}" download="${saveAs ?? sheet}">${words.sheet(number)}</a> <small>${outputs.format("application/pdf", "pdf")}</small></p>`}
<details class="plan"><summary>${words.runningOrder}<span class="unseen">, ${name}</span></summary>
${plan(order, id, wording)}</details></li>
`;
}

function activity({ clock, label, length, cautions, steps }: Activity, id: string, { sections }: Wording): Html {
  return html`<li class="block"><h3 id="${id}"><span class="clock">${clock}</span> <span>${label}</span> <small>${length}</small></h3>
${cautions.length > 0 && html`<p class="care">${sections.takeCare(cautions, (read) => html`<a href="#care">${read}</a>`)}</p>`}
<ol class="plain">${steps.map(step)}</ol></li>
`;
}

function step({ label, instruction, load }: Activity["steps"][number]): Html {
  return html`<li><div><p>${label !== "" && html`<b>${label}.</b> `}${instruction}</p>${load !== "" && html`<p class="load">${load}</p>`}</div></li>
`;
}
