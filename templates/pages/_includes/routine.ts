import { type Html, html, raw } from "#src/publishing/site/html.js";
import type { PlayerData } from "#src/publishing/site/player-data.js";
import type { RoutineFacts } from "#src/publishing/site/routine-facts.js";
import type { RoutineView } from "#src/publishing/site/routine-view.js";
import type { LinkedData } from "#src/publishing/site/structured-data.js";
import type { Library } from "#src/routine/routine.js";
import type { Wording } from "#src/wording/wording.js";
import { care } from "./care.js";
import { counts } from "./counts.js";
import { dateTime } from "./dates.js";
import { page } from "./page.js";
import { pictures } from "./pictures.js";
import { practice } from "./practice.js";
import { theirs } from "./theirs.js";

interface PageView extends RoutineView {
  readonly player: PlayerData;
}

/** The page of a routine. */
export function routinePage(
  library: Library,
  slug: string,
  view: PageView & { readonly data: LinkedData },
  wording: Wording,
): string {
  return page({
    library,
    wording,
    root: "../../",
    path: `routines/${slug}/`,
    title: view.title,
    description: view.facts.summary ?? wording.routine.description(view.title, view.facts.counts, view.choreographer),
    data: view.data,
    preview: slug,
    script: "routine.js",
    body: body(view, wording),
  }).html;
}

function body(view: PageView, wording: Wording): Html {
  const taught = view.versions.findIndex((version) => version.taught);
  return html`<article class="routine" data-shown="v${taught}">
${head(view, wording)}
<div class="side">
${choice(view, wording)}
${onThisPage(view, wording)}
</div>
${care(view, wording)}
<div class="ready">${needs(view, wording)}${start(view, wording)}</div>
${view.introduction.html !== "" && html`<div class="prose introduction"${theirs(wording)}>${view.introduction}</div>`}
${pictures(view, wording)}
${practice(view.player, wording)}
${counts(view, wording)}
${view.after.html !== "" && html`<div class="prose after"${theirs(wording)}>${view.after}</div>`}
${videos(view, wording)}
${takeAway(view, wording)}
</article>`;
}

function head(view: RoutineView, wording: Wording): Html {
  const { routine: words, sections, dates } = wording;
  const { facts } = view;
  return html`<header class="title">
<p class="kicker">${[...facts.styles, ...audience(facts, words)].join(" · ")}</p>
<h1${theirs(wording)}>${view.title}</h1>
<p class="byline">${words.choreography(view.choreographer, view.song, facts.date === undefined ? undefined : dateTime(facts.date, dates))}</p>
${facts.summary && html`<p class="summary"${theirs(wording)}>${facts.summary}</p>`}
${[...(view.draft ? [words.draft] : []), ...view.doubts.map(sections.doubt)].map((text) => html`<p class="doubt">${text}</p>\n`)}${pulse(facts.phrase, view.accents)}
${view.timesThrough.length > 0 && html`<ul class="form">${view.timesThrough.map((text) => html`<li>${text}</li>`)}</ul>`}
<dl class="facts">
${fact(view.timesThrough.length > 0 ? words.countsInAll : words.counts, facts.counts)}
${fact(words.run, view.run)}
${fact(words.tempo, view.tempo, words.aMinute)}
${fact(words.phrases, facts.phrase)}
${view.accents.length > 0 && fact(words.accents.label, words.accents.value(view.accents))}
${view.pauses.length > 0 && fact(words.pauses.label, words.pauses.value(view.pauses))}
${view.feel && fact(words.feel.label, view.feel)}
${view.firstCount !== undefined && fact(words.firstCountAt(view.firstNumber), view.firstCount)}
</dl>
</header>`;
}

function audience({ audience }: RoutineFacts, { adultsOnly, teensAndAdults }: Wording["routine"]): readonly string[] {
  if (audience === "adult") return [adultsOnly];
  return audience === "teen" ? [teensAndAdults] : [];
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

function choice({ versions, groups }: RoutineView, { routine: words }: Wording): Html {
  return html`<div class="choice">
<fieldset class="pills"><legend>${words.version}</legend>${versions.map(
    ({ id, name, taught }, index) =>
      html`<label><input type="radio" name="version" id="v${index}" value="${id}"${taught && raw(" checked")}><span>${name}</span></label>`,
  )}</fieldset>
${
  groups.length > 0 &&
  html`<fieldset class="pills"><legend>${words.group}</legend>${[
    ["all", words.allGroups] as const,
    ...groups.map((name) => [name, name] as const),
  ].map(
    ([value, name], index) =>
      html`<label><input type="radio" name="group" id="${index === 0 ? "all-groups" : `g${index - 1}`}" value="${index === 0 ? "" : value}"${index === 0 && raw(" checked")}><span>${name}</span></label>`,
  )}</fieldset>`
}
<fieldset class="pills"><legend>${words.side}</legend><label><input type="checkbox" id="mirrored"><span>${words.mirrored}</span></label></fieldset>
</div>`;
}

function onThisPage({ sections, videos }: RoutineView, wording: Wording): Html {
  const words = wording.routine;
  return html`<nav class="jump" aria-labelledby="jump"><h2 id="jump">${words.onThisPage}</h2><ul>
<li class="by-script"><a href="#practice">${wording.practice.title}</a></li>
<li class="parts"><a href="#counts">${wording.sections.title}</a><ol>${sections.map(({ id, name }) => html`<li><a href="#${id}"${theirs(wording)}>${name}</a></li>`)}</ol></li>
${videos.length > 0 && html`<li><a href="#videos">${wording.videos.watch}</a></li>`}
<li><a href="#take">${words.takeAway}</a></li>
</ul>
<p class="by-script"><button class="button" type="button" data-share>${words.copyLink}</button></p>
<p class="unseen" role="status" data-shared></p></nav>`;
}

function needs({ gear }: RoutineView, wording: Wording): Html {
  const { routine: words } = wording;
  return html`<section aria-labelledby="needs"><h2 id="needs">${words.needs}</h2>
${
  gear.length === 0
    ? html`<p>${words.needsNothing}</p>`
    : html`<ul class="gear">${gear.map(
        ({ classes, item, required, why }) =>
          html`<li class="${classes}">${words.need(html`<b${theirs(wording)}>${item}</b>`, required, why)}</li>`,
      )}</ul>`
}</section>`;
}

function start(view: RoutineView, { routine: words }: Wording): Html {
  const { starts, countIn, firstCount, firstNumber, versions } = view;
  return html`<section aria-labelledby="start"><h2 id="start">${words.starts}</h2>
${starts.map(({ classes, value }) => html`<p class="${classes} stance">${value}</p>`)}
<p>${words.countIn(countIn, firstNumber, firstCount)}</p>
${versions.map(({ classes, load, space }) => (space || load) && html`<p class="${classes}">${words.room(space, load)}</p>`)}</section>`;
}

function videos({ videos, chapters }: RoutineView, wording: Wording): Html | false {
  const { videos: words } = wording;
  if (videos.length === 0) return false;
  return html`<section class="watch" aria-labelledby="videos"><h2 id="videos">${words.watch}</h2>
<ul class="plain">${videos.map(({ link, goesWith }) => html`<li>${link}${goesWith && html`<br>${goesWith}`}</li>`)}</ul>
${
  chapters.length > 0 &&
  html`<h3>${words.chapters}</h3><ol class="chapters">${chapters.map(({ clock, link }) => html`<li><span class="clock">${clock}</span><span${theirs(wording)}>${link}</span></li>`)}</ol>`
}</section>`;
}

function takeAway({ downloads, credit, videoText }: RoutineView, wording: Wording): Html {
  const { routine: words } = wording;
  return html`<section class="take" aria-labelledby="take"><h2 id="take">${words.takeAway}</h2>
<ul class="downloads">${downloads.map(({ file, name, kind }) => html`<li><a href="${file}">${name}</a> <small>${kind}</small></li>`)}</ul>
<p class="by-script"><button class="button" type="button" data-keep>${wording.notices.keep}</button></p><p role="status" data-kept></p>
${credit && html`<h3>${words.ifYouPost}</h3><p class="credit"${theirs(wording)}>${credit}</p>`}
${
  videoText &&
  html`<details class="video-text"><summary>${words.videoText}</summary><button class="button by-script" type="button" data-copy>${words.copyText}</button><p class="unseen" role="status"></p><pre tabindex="0">${videoText}</pre></details>`
}</section>`;
}
