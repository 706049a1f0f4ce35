import { type Html, html, raw } from "#src/publishing/site/html.js";
import type { RoutineFacts } from "#src/publishing/site/routine-facts.js";
import type { PictureView, RoutineView } from "#src/publishing/site/routine-view.js";
import type { LinkedData } from "#src/publishing/site/structured-data.js";
import type { Library } from "#src/routine/routine.js";
import { care } from "./care.js";
import { counts } from "./counts.js";
import { dateTime } from "./dates.js";
import { page } from "./page.js";
import { practice } from "./practice.js";

/** The page of a routine. */
export function routinePage(library: Library, slug: string, view: RoutineView & { readonly data: LinkedData }): string {
  return page({
    library,
    root: "../../",
    path: `routines/${slug}/`,
    title: view.title,
    description:
      view.facts.summary ?? `${view.title}, a routine of ${view.facts.counts} counts by ${view.choreographer}.`,
    data: view.data,
    preview: slug,
    scripts: ["routine.js", "practice/main.js"],
    body: body(view),
  }).html;
}

function body(view: RoutineView): Html {
  return html`<article class="routine">
${head(view)}
<div class="side">
${choice(view)}
${onThisPage(view)}
</div>
${care(view)}
<div class="ready">${needs(view)}${start(view)}</div>
${view.introduction.html !== "" && html`<div class="prose introduction">${view.introduction}</div>`}
${pictures(view)}
${practice("routine.json")}
${counts(view)}
${view.after.html !== "" && html`<div class="prose after">${view.after}</div>`}
${videos(view)}
${takeAway(view)}
</article>`;
}

function head(view: RoutineView): Html {
  const { facts } = view;
  return html`<header class="title">
<p class="kicker">${[...facts.styles, ...audience(facts)].join(" · ")}</p>
<h1>${view.title}</h1>
<p class="byline">Choreography by ${view.choreographer}${view.song && html`, to ${view.song}`}${facts.date && html`. ${dateTime(facts.date)}`}</p>
${facts.summary && html`<p class="summary">${facts.summary}</p>`}
${pulse(facts.phrase, view.accents)}
${view.form.length > 0 && html`<ul class="form">${view.form.map((text) => html`<li>${text}</li>`)}</ul>`}
<dl class="facts">
${fact(view.form.length > 0 ? "Counts in all" : "Counts", facts.counts)}
${fact("One run", view.run)}
${fact("Tempo", view.tempo, " a minute")}
${fact("Phrases of", facts.phrase)}
${view.accents.length > 0 && fact("Landing hardest", listed(view.accents))}
${view.triplet && fact("Feel", "triplet")}
${fact(view.firstNumber === 1 ? "Count one at" : `First count (${view.firstNumber}) at`, view.firstCount)}
</dl>
</header>`;
}

function audience({ audience }: RoutineFacts): readonly string[] {
  if (audience === "adult") return ["adults only"];
  return audience === "teen" ? ["teens and adults"] : [];
}

function listed(values: readonly number[]): string {
  return [values.slice(0, -1).join(", "), ...values.slice(-1)].filter(Boolean).join(" and ");
}

function fact(name: string, value: string | number, unit?: string): Html {
  return html`<div><dt>${name}</dt><dd>${value}${unit && html`<small>${unit}</small>`}</dd></div>`;
}

/** The counts of one phrase as an ornament; the facts below say the same in words. */
function pulse(phrase: number, accents: readonly number[]): Html | false {
  if (phrase > 16) return false;
  const count = (_: unknown, index: number) =>
    accents.includes(index + 1) ? html`<b>${index + 1}</b>` : html`<span>${index + 1}</span>`;
  return html`<p class="pulse" aria-hidden="true">${Array.from({ length: phrase }, count)}</p>`;
}

function choice({ versions, groups }: RoutineView): Html {
  return html`<div class="choice">
<fieldset class="pills"><legend>Version</legend>${versions.map(
    ({ id, name, taught }, index) =>
      html`<label><input type="radio" name="version" id="v${index}" value="${id}"${taught && raw(" checked")}><span>${name}</span></label>`,
  )}</fieldset>
${
  groups.length > 0 &&
  html`<fieldset class="pills"><legend>Group</legend>${[
    ["all", "All groups"] as const,
    ...groups.map((name) => [name, name] as const),
  ].map(
    ([value, name], index) =>
      html`<label><input type="radio" name="group" id="${index === 0 ? "all-groups" : `g${index - 1}`}" value="${index === 0 ? "" : value}"${index === 0 && raw(" checked")}><span>${name}</span></label>`,
  )}</fieldset>`
}
<fieldset class="pills"><legend>Side</legend><label><input type="checkbox" id="mirrored"><span>Mirrored</span></label></fieldset>
</div>`;
}

function onThisPage({ sections, videos }: RoutineView): Html {
  return html`<nav class="jump" aria-labelledby="jump"><h2 id="jump">On this page</h2><ul>
<li class="by-script"><a href="#practice">Practise</a></li>
<li><a href="#counts">The counts</a><ol>${sections.map(({ id, name }) => html`<li><a href="#${id}">${name}</a></li>`)}</ol></li>
${videos.length > 0 && html`<li><a href="#videos">Watch</a></li>`}
<li><a href="#take">Take away</a></li>
</ul>
<p class="by-script"><button class="button" type="button" data-share>Copy the link to this view</button></p>
<p class="unseen" role="status" data-shared></p></nav>`;
}

function needs({ gear }: RoutineView): Html {
  return html`<section aria-labelledby="needs"><h2 id="needs">What you need</h2>
${
  gear.length === 0
    ? html`<p>Nothing but room to move.</p>`
    : html`<ul class="gear">${gear.map(
        ({ classes, item, required, why }) =>
          html`<li class="${classes}"><b>${item}</b>${!required && ", if you like"}${why && html`: ${why}`}</li>`,
      )}</ul>`
}</section>`;
}

function start({ starts, countIn, firstCount, firstNumber, versions }: RoutineView): Html {
  return html`<section aria-labelledby="start"><h2 id="start">How it starts</h2>
${starts.map(({ classes, value }) => html`<p class="${classes} stance">${value}</p>`)}
<p>${countIn} counts in, then ${firstNumber === 1 ? "count one" : `the first count (${firstNumber})`} at ${firstCount} in the track.</p>
${versions.map(
  ({ classes, load, space }) =>
    html`<p class="${classes}">Room to travel: ${space}.${load !== "" && ` Weight or impact in one run: ${load}.`}</p>`,
)}</section>`;
}

/** Only what is shown is fetched: a browser leaves a picture out of sight alone until it comes near. */
function pictures({ maps, floors, facts, groups }: RoutineView): Html | false {
  if (maps.length === 0) return false;
  const dancer = groups.length > 0 ? groups[0] : "one dancer";
  const run = facts.times > 1 ? `, one time through of ${facts.times}` : "";
  return html`<section class="pictures" aria-labelledby="pictures"><h2 id="pictures">At a glance</h2>
<p class="strip-hint">The map is wider than this window: draw it along, or scroll it to the side.</p>
<section class="strip" aria-label="Phrase map" tabindex="0">${maps.map((map) => picture(map, "Phrase map", "sections, height, facing and hits on the track’s clock. The counts say the same in words."))}</section>
${floors.length > 0 && html`<div class="floor">${floors.map((floor) => picture(floor, "Floor plan", `the way ${dancer} travels${run}, seen from above. The counts say the same in words.`))}<p class="floor-caption">The floor from above: the way ${dancer} travels${run}.</p></div>`}</section>`;
}

function picture({ classes, name, file, mirrored }: PictureView, kind: string, text: string): Html {
  return html`<figure class="${classes}"><img class="as-taught" src="${file}" loading="lazy" alt="${kind}, ${name}: ${text}"><img class="mirrored" src="${mirrored}" loading="lazy" alt="${kind}, ${name}, mirrored: ${text}"></figure>`;
}

function videos({ videos, chapters }: RoutineView): Html | false {
  if (videos.length === 0) return false;
  return html`<section class="watch" aria-labelledby="videos"><h2 id="videos">Watch</h2>
<ul class="plain">${videos.map((link) => html`<li>${link}</li>`)}</ul>
${
  chapters.length > 0 &&
  html`<h3>Chapters of the breakdown</h3><ol class="chapters">${chapters.map(({ clock, link }) => html`<li><span class="clock">${clock}</span><span>${link}</span></li>`)}</ol>`
}</section>`;
}

function takeAway({ downloads, credit, videoText }: RoutineView): Html {
  return html`<section class="take" aria-labelledby="take"><h2 id="take">Take away</h2>
<ul class="downloads">${downloads.map(({ file, name, kind }) => html`<li><a href="${file}">${name}</a> <small>${kind}</small></li>`)}</ul>
${credit && html`<h3>If you post it</h3><p class="credit">${credit}</p>`}
${
  videoText &&
  html`<details class="video-text"><summary>Text for the video’s description</summary><button class="button by-script" type="button" data-copy>Copy the text</button><p class="unseen" role="status"></p><pre tabindex="0">${videoText}</pre></details>`
}</section>`;
}
