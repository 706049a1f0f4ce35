import { type Html, html, jsonBlock } from "../../publishing/site/html.js";
import { songKeys } from "../../reading/song-sections.js";
import type { Library, Routine } from "../../routine/routine.js";
import type { SongWording } from "../../wording/song.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import type { DeskData, DeskRoutine } from "./desk-data.js";
import { own } from "./pages.js";

/** Where the song desk is. */
export const songPath = "song/index.html";

/* It asks for nothing but what this program serves, and plays what its reader has chosen on her own computer. */
const policy = [
  "default-src 'none'",
  ...["script-src", "style-src", "font-src", "connect-src", "worker-src"].map((kind) => `${kind} 'self'`),
  "img-src data:",
  "media-src blob:",
  "base-uri 'none'",
  "form-action 'self'",
].join("; ");

/** What the desk needs to know of a routine. */
export function deskRoutine(routine: Routine, text: string, key: string): DeskRoutine {
  const { slug, title, music, sections } = routine;
  const { saysFirstCount, sections: written } = songKeys(text);
  return {
    slug,
    title,
    key,
    music: {
      countsPerMinute: music.countsPerMinute.valueOf(),
      tempoIsEstimate: music.tempoIsEstimate,
      ...(music.firstCount && { firstCount: music.firstCount.valueOf() }),
      saysFirstCount,
      accents: music.accents,
    },
    written,
    danced: sections.map(({ written, wall, pass, phrases, seconds }) => ({
      written,
      wall,
      pass,
      numbers: phrases.flatMap(({ numbers }) => numbers),
      ...(seconds && { seconds: seconds.valueOf() }),
    })),
  };
}

interface Named {
  readonly slug: string;
  readonly title: string;
}

/**
 * The song desk.
 *
 * @param routines those that figures can be taken along to
 */
export function songPage(data: DeskData, library: Library, routines: readonly Named[]): string {
  const wording = wordingOf(data.language);
  const words = wording.song;
  const { routine } = data;
  return html`<!doctype html>
<html lang="${wording.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<link rel="icon" href="data:,">
<title>${words.title}${routine && ` · ${routine.title}`} · ${library.name}</title>
<link rel="stylesheet" href="${own}song/style.css">
<script type="application/json" id="data">${jsonBlock(data)}</script>
<script src="${own}song/song.js" defer></script>
</head>
<body>
<a class="skip" href="#main">${wording.site.skip}</a>
<header class="site-head"><a href="/">${library.name}</a></header>
<main id="main">
<header class="title">
${routine && html`<p class="kicker"><a href="/routines/${routine.slug}/">${routine.title}</a></p>`}
<h1>${words.title}</h1>
<p class="summary">${words.summary}</p>
</header>
${choice(words)}
<div id="desk" hidden tabindex="-1">
${stage(words, routine !== undefined)}
${counts(words)}
${routine && landing(words)}
</div>
${intoFile(data, wording, routines)}
</main>
</body>
</html>
`.html;
}

function choice(words: SongWording): Html {
  return html`<section class="choose" id="drop" aria-labelledby="song">
<h2 id="song">${words.theSong}</h2>
<p><label class="pick"><input type="file" id="file" accept="audio/*,video/*"><span class="button">${words.choose}</span></label> ${words.drop}</p>
<p id="news" role="status"></p>
</section>`;
}

const speeds = [100, 90, 80, 70, 60, 50];

/** Where the song is seen and heard: the part of it about the moment, which stays in sight, and the rest. */
function stage(words: SongWording, hasSections: boolean): Html {
  const keys = [
    ["P", words.keyNames.play],
    ["T", words.keyNames.tap],
    ["F", words.keyNames.first],
    ...(hasSections ? [["M", words.keyNames.mark]] : []),
  ];
  return html`<section class="stage" aria-labelledby="found">
<h2 class="found" id="found"><span><b id="tempo">${words.none}</b> ${words.countsAMinute}</span> <span>${words.firstCountAt} <b id="first">${words.none}</b></span> <span class="quiet" id="whence"></span></h2>
<canvas id="near" class="near" role="img" aria-label="${words.shape}"></canvas>
<div class="row"><button class="button go" id="play" type="button">${words.play}</button><span class="clock" id="clock"></span></div>
</section>
<div class="whole-song">
<canvas id="whole" class="whole" role="img" aria-label="${words.whole}"></canvas>
<input id="position" data-own type="range" min="0" max="0" step="0.1" value="0" aria-label="${words.position}">
<div class="row"><label class="field">${words.speed} <select id="speed">${speeds.map((percent) => html`<option value="${percent}">${words.percent(percent)}</option>`)}</select></label>
<label class="field">${words.clicks} <input id="clicks" type="range" min="0" max="2" step="0.1" value="1"></label>
<span class="pair"><button class="button" id="closer" type="button">${words.closer}</button><button class="button" id="wider" type="button">${words.wider}</button></span></div>
<p class="keys">${words.keys} ${keys.map(([key, does]) => html`<span><kbd>${key}</kbd> ${does}</span> `)}<span>${words.arrows.map((key) => html`<kbd>${key}</kbd> `)}${words.arrowKeys}</span></p>
</div>`;
}

/** Where counts come from: the file, guesses, taps; and what the hand adds. */
function counts(words: SongWording): Html {
  const nudges = (of: keyof SongWording["nudgeGroups"], names: readonly (keyof SongWording["nudges"])[]) => {
    const buttons = names.map(
      (name) => html`<button class="button" type="button" data-nudge="${name}">${words.nudges[name]}</button>`,
    );
    return html`<div class="nudges" role="group" aria-labelledby="by-hand-${of}"><span id="by-hand-${of}">${words.nudgeGroups[of]}</span>${buttons}</div>
`;
  };
  return html`<section aria-labelledby="counts">
<h2 id="counts">${words.theCounts}</h2>
<div class="tapping">
<button id="tap" type="button"><span>${words.tapToPlay}</span></button>
<p id="taps"></p>
<p class="unseen" id="told" role="status"></p>
<div class="row"><label class="field" id="stretches" hidden>${words.tapFor} <select id="stretch"></select></label> <button class="button" id="again" type="button" disabled>${words.again}</button></div>
<p class="quiet">${words.tapWhy}</p>
</div>
<div id="sources"></div>
<h3>${words.byHand}</h3>
${nudges("first", ["first-back", "first-on", "count-back", "count-on", "here"])}${nudges("tempo", ["tempo-down", "tempo-up", "half", "double"])}</section>`;
}

function landing(words: SongWording): Html {
  return html`<section aria-labelledby="landing">
<h2 id="landing">${words.sections}</h2>
<p class="quiet">${words.sectionsWhy}</p>
<div class="row"><label class="field">${words.markFor} <select id="next"></select></label><button class="button go" id="mark" type="button">${words.mark}</button></div>
<ol class="landings" id="landings"></ol>
</section>`;
}

function intoFile({ routine, run }: DeskData, { song: words }: Wording, routines: readonly Named[]): Html {
  const file = routine && `${routine.slug}.md`;
  const write =
    file !== undefined && run !== undefined
      ? html`<button class="button go" id="write" type="button" disabled>${words.write(file)}</button>
<button class="button" id="back" type="button" hidden>${words.takeBack}</button>`
      : undefined;
  return html`<section aria-labelledby="lines">
<h2 id="lines">${routine ? words.toFile : words.lines}</h2>
<div id="changes"><p>${words.notYet}</p></div>
<div class="row"><button class="button" id="copy" type="button" disabled>${words.copy}</button>
${write}</div>
<p id="done" role="status"></p>
${routine && run === undefined && html`<p>${words.copyOnly}</p>`}
${!routine && takeAlong(words, routines)}
</section>`;
}

/** A plain form would lose the figures that are still in the page: the script sends them along. */
function takeAlong(words: SongWording, routines: readonly Named[]): Html {
  if (routines.length === 0) return html`<p>${words.noRoutines}</p>`;
  return html`<h3>${words.takeAlong}</h3>
<form class="row" id="along" action="/song/"><label class="field">${words.aRoutine} <select name="routine">${routines.map(({ slug, title }) => html`<option value="${slug}">${title}</option>`)}</select></label><button class="button" type="submit">${words.go}</button></form>`;
}

/** What leads to the desk from a page that is served: one routine's own, or the library. */
export function songLink(path: string, { language }: Library): string | undefined {
  const words = wordingOf(language).song;
  if (path === "index.html") return linkBlock("/song/", words.libraryLink, words);
  const [, slug] = /^routines\/([^/]+)\/index\.html$/.exec(path) ?? [];
  return slug === undefined ? undefined : linkBlock(`/song/?routine=${encodeURIComponent(slug)}`, words.link, words);
}

function linkBlock(address: string, text: string, words: SongWording): string {
  return html`<p class="live-song"><a href="${address}">${text}</a> ${words.linkForYou}</p>
`.html;
}
