import { type Html, html, raw } from "#src/publishing/site/html.js";
import type { PlayerData } from "#src/publishing/site/player-data.js";
import type { RoutineFacts } from "#src/publishing/site/routine-facts.js";
import type { RoutineView } from "#src/publishing/site/routine-view.js";
import type { LinkedData } from "#src/publishing/site/structured-data.js";
import type { Library } from "#src/routine/routine.js";
import type { Wording } from "#src/wording/wording.js";
import { foldedCare } from "./care.js";
import { counts } from "./counts.js";
import { dateTime } from "./dates.js";
import { downloads } from "./downloads.js";
import { fold } from "./fold.js";
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
    script: "routine.js",
    body: body(view, wording),
  }).html;
}

function body(view: PageView, wording: Wording): Html {
  const taught = view.versions.findIndex((version) => version.taught);
  return html`<article class="routine" data-slug="${view.facts.slug}" data-shown="v${taught}">
${head(view, wording)}
<div class="side">
${choice(view, wording)}
${onThisPage(view, wording)}
</div>
${careLine(view, wording)}
${practice(view.player, view, wording)}
${counts(view, wording)}
${foldedCare(view, wording)}
${needs(view, wording)}
${start(view, wording)}
${theWords(view, wording)}
${pictures(view, wording)}
${videos(view, wording)}
${takeAway(view, wording)}
</article>`;
}

/** What it is, and its figures in one line; the line gives way where the window is too low for it. */
function head(view: RoutineView, wording: Wording): Html {
  const { routine: words, sections, dates } = wording;
  const { facts } = view;
  const line = [
    sections.counts(facts.counts),
    view.run,
    words.pulse(view.tempo),
    ...(view.accents.length > 0 ? [words.accentsOn(view.accents)] : []),
  ];
  return html`<header class="title">
<h1${theirs(wording)}>${view.title}</h1>
<p class="figures">${line.map((figure) => html`<span>${figure}</span>`)}</p>
<p class="byline">${words.choreography(view.choreographer, view.song, facts.date === undefined ? undefined : dateTime(facts.date, dates))}${audience(facts, words).map((text) => html`. <b>${text}</b>`)}</p>
${[...(view.draft ? [words.draft((line) => html`<code>${line}</code>`)] : []), ...view.doubts.map(sections.doubt)].map((text) => html`<p class="doubt">${text}</p>\n`)}</header>`;
}

function audience({ audience }: RoutineFacts, { adultsOnly, teensAndAdults }: Wording["routine"]): readonly string[] {
  if (audience === "adult") return [adultsOnly];
  return audience === "teen" ? [teensAndAdults] : [];
}

function fact(name: string, value: string | number, unit?: string): Html {
  return html`<div><dt>${name}</dt><dd>${value}${unit && html`<small>${unit}</small>`}</dd></div>`;
}

/**
 * Which version, whose counts, which side: one line that opens on a tap. Without script everything to choose from stands there, since
 * the choice itself is the style sheet's.
 */
function choice({ versions, groups }: RoutineView, { routine: words, sections }: Wording): Html {
  return html`<div class="choice">
<button class="choice-bar by-script" type="button" aria-expanded="false" aria-controls="choices" data-choose>${versions.map(({ classes, name }) => html`<span class="${classes}">${name}</span>`)} <span class="mirrored">${sections.mirrored}</span></button>
<div class="choices" id="choices">
<fieldset class="pills"><legend>${words.version}</legend>${versions.map(
    ({ id, name, taught }, index) =>
      html`<label><input type="radio" name="version" id="v${index}" value="${id}"${taught && raw(" checked")}><span>${name}</span></label>`,
  )}</fieldset>
<fieldset class="pills"><legend>${words.side}</legend><label><input type="checkbox" id="mirrored"><span>${words.mirrored}</span></label></fieldset>
</div></div>${whose(groups, words)}`;
}

/** Whose counts somebody dances is asked in the open, and remembered. */
function whose(groups: RoutineView["groups"], words: Wording["routine"]): Html | false {
  if (groups.length === 0) return false;
  const answers = [["all", words.allGroups] as const, ...groups.map((name) => [name, name] as const)];
  return html`\n<fieldset class="pills whose"><legend>${words.whose}</legend>${answers.map(
    ([value, name], index) =>
      html`<label><input type="radio" name="group" id="${index === 0 ? "all-groups" : `g${index - 1}`}" value="${index === 0 ? "" : value}"${index === 0 && raw(" checked")}><span>${name}</span></label>`,
  )}</fieldset>`;
}

/** Names the risks above Start; what to do about them stands at each move and below. */
function careLine({ careFor }: RoutineView, { routine: words }: Wording): Html {
  return html`${careFor.map(({ classes, value }) => html`<p class="care-line ${classes}">${words.careFor(value, (read) => html`<a href="#care">${read}</a>`)}</p>\n`)}`;
}

function onThisPage({ sections, videos }: RoutineView, wording: Wording): Html {
  const words = wording.routine;
  return html`<nav class="jump" aria-labelledby="jump"><h2 id="jump">${words.onThisPage}</h2><ul>
<li class="by-script"><a href="#practice">${wording.practice.title}</a></li>
<li class="parts"><a href="#counts">${wording.sections.title}</a><ol>${sections.map(({ id, name }) => html`<li><a href="#${id}"${theirs(wording)}>${name}</a></li>`)}</ol></li>
<li><a href="#care">${words.takeCare}</a></li>
<li><a href="#needs">${words.needs}</a></li>
<li><a href="#start">${words.starts}</a></li>
${videos.length > 0 && html`<li><a href="#videos">${wording.videos.watch}</a></li>`}
<li><a href="#take">${words.takeAway}</a></li>
</ul>
<p class="by-script"><button class="button" type="button" data-share>${words.copyLink}</button></p>
<p class="unseen" role="status" data-shared></p></nav>`;
}

function needs({ gear }: RoutineView, wording: Wording): Html {
  const { routine: words } = wording;
  const line =
    gear.length === 0
      ? words.needsNothing
      : html`${gear.map(({ classes, item, required }) => html`<span class="${classes}">${words.need(item, required, undefined)}</span>`)}`;
  return fold(
    "needs",
    words.needs,
    line,
    gear.length === 0
      ? html`<p>${words.needsNothing}</p>`
      : html`<ul class="gear">${gear.map(
          ({ classes, item, required, why }) =>
            html`<li class="${classes}">${words.need(html`<b${theirs(wording)}>${item}</b>`, required, why)}</li>`,
        )}</ul>`,
  );
}

function start(view: RoutineView, wording: Wording): Html {
  const { routine: words } = wording;
  const { starts, countIn, firstCount, firstNumber, versions, facts } = view;
  const stances = starts.map(({ classes, value }) => html`<span class="${classes} stance">${value}</span>`);
  return fold(
    "start",
    words.starts,
    html`${stances}`,
    html`${starts.map(({ classes, value }) => html`<p class="${classes} stance">${value}</p>`)}
<p>${words.countIn(countIn, firstNumber, firstCount)}</p>
${versions.map(({ classes, load, space }) => (space || load) && html`<p class="${classes}">${words.room(space, load)}</p>`)}
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
</dl>`,
  );
}

/** What the author says of it beyond the counts. */
function theWords(view: RoutineView, wording: Wording): Html {
  const { routine: words } = wording;
  const { facts, introduction, after } = view;
  return fold(
    "words",
    words.about,
    facts.summary === undefined ? facts.styles.join(", ") : html`<span${theirs(wording)}>${facts.summary}</span>`,
    html`${facts.styles.length > 0 && html`<p class="kicker">${facts.styles.join(" · ")}</p>`}
${facts.summary && html`<p class="summary"${theirs(wording)}>${facts.summary}</p>`}
${introduction.html !== "" && html`<div class="prose introduction"${theirs(wording)}>${introduction}</div>`}
${after.html !== "" && html`<div class="prose after"${theirs(wording)}>${after}</div>`}`,
  );
}

function videos({ videos, chapters }: RoutineView, wording: Wording): Html | false {
  const { videos: words } = wording;
  if (videos.length === 0) return false;
  return fold(
    "videos",
    words.watch,
    words.line(chapters.length),
    html`<div class="watch"><ul class="plain">${videos.map(({ link, goesWith }) => html`<li>${link}${goesWith && html`<br>${goesWith}`}</li>`)}</ul>
${
  chapters.length > 0 &&
  html`<h3>${words.chapters}</h3><ol class="chapters">${chapters.map(({ clock, link }) => html`<li><span class="clock">${clock}</span><span${theirs(wording)}>${link}</span></li>`)}</ol>`
}</div>`,
  );
}

function takeAway({ downloads: files, credit, videoText }: RoutineView, wording: Wording): Html {
  const { routine: words } = wording;
  return fold(
    "take",
    words.takeAway,
    words.takeAwayLine(files.length),
    html`<div class="take">${downloads(files, wording)}
<p class="by-script"><button class="button" type="button" data-keep disabled>${wording.notices.keep}</button></p><p role="status" data-kept></p>
${credit && html`<h3>${words.ifYouPost}</h3><p class="credit"${theirs(wording)}>${credit}</p>`}
${
  videoText &&
  html`<details class="video-text"><summary>${words.videoText}</summary><button class="button by-script" type="button" data-copy>${words.copyText}</button><p class="unseen" role="status"></p><pre tabindex="0">${videoText}</pre></details>`
}</div>`,
  );
}
