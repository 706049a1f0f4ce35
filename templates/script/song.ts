/* The song desk: from a song that somebody plays to the figures of it that stand in a routine's file. */
import type { DeskData, DeskRoutine } from "../../src/build/live/desk-data.js";
import type { Grid, NoGuess } from "../../src/hearing/song/types.js";
import { songWording } from "../../src/wording/song.js";
import { drawNear, drawWhole, type View } from "./song/draw.js";
import { made, the } from "./song/elements.js";
import { figuresOf } from "./song/figures.js";
import { filePart } from "./song/file.js";
import { onKeys } from "./song/keys.js";
import { type Laid, lay } from "./song/laid.js";
import { gridIn, gridText } from "./song/plain-lines.js";
import { playing } from "./song/playing.js";
import { nameOf, showSections } from "./song/sections.js";
import { guessOf, type Shape, shapeOf, soundOf } from "./song/sound.js";
import { showSources } from "./song/sources.js";
import {
  anchored,
  type Desk,
  forgotten,
  gridOf,
  guessed,
  type Nudge,
  newDesk,
  nudged,
  type Stretch,
  takenFrom,
  tapped,
  withoutTaps,
} from "./song/state.js";
import { onTaps, shownTaps, tapsText } from "./song/tapping.js";

document.documentElement.dataset.script = "";

const data = JSON.parse(the("data", HTMLElement).textContent ?? "") as DeskData;
const words = songWording(data.language);
let { routine } = data;
let desk: Desk = newDesk(gridInFile(routine), gridIn(location.hash));
let laid: Laid = { beats: [], sections: [], landings: [] };
let none: NoGuess | undefined;
let shape: Shape = { peaks: new Float32Array(), rate: 1 };
/** The part of the song that is seen from near, in seconds. */
let near = { from: 0, seconds: innerWidth < 600 ? 4 : 8 };
/** Of the song that was chosen last: what an earlier one still gives comes too late. */
let song = 0;

const part = {
  desk: the("desk", HTMLElement),
  file: the("file", HTMLInputElement),
  news: the("news", HTMLElement),
  told: the("told", HTMLElement),
  near: the("near", HTMLCanvasElement),
  whole: the("whole", HTMLCanvasElement),
  position: the("position", HTMLInputElement),
  play: the("play", HTMLButtonElement),
  clock: the("clock", HTMLElement),
  speed: the("speed", HTMLSelectElement),
  clicks: the("clicks", HTMLInputElement),
  sources: the("sources", HTMLElement),
  tap: the("tap", HTMLButtonElement),
  stretch: the("stretch", HTMLSelectElement),
  again: the("again", HTMLButtonElement),
  taps: the("taps", HTMLElement),
};
/** What only a routine has. */
const landing = routine && {
  next: the("next", HTMLSelectElement),
  mark: the("mark", HTMLButtonElement),
  list: the("landings", HTMLElement),
};

const player = playing(() => laid.beats);
const { audio } = player;
const file = filePart(data, words, (now) => {
  routine = now;
  const grid = gridInFile(now);
  // What was taken over stands in the file now: the desk goes on from there.
  change({ ...desk, ...(grid && { file: grid }) });
});

function gridInFile(of: DeskRoutine | undefined): Grid | undefined {
  const { countsPerMinute, firstCount, tempoIsEstimate } = of?.music ?? {};
  if (countsPerMinute === undefined || firstCount === undefined || tempoIsEstimate) return undefined;
  return { countsPerMinute, firstCount };
}

/** The counts with another thing said about them: all that follows is worked out and shown anew. */
function change(next: Desk): void {
  desk = next;
  laid = lay(desk, routine, length());
  const grid = gridOf(desk);
  the("tempo", HTMLElement).textContent = grid ? words.tempo(grid.countsPerMinute) : words.none;
  the("first", HTMLElement).textContent = grid ? words.place(grid.firstCount) : words.none;
  showSources(part.sources, desk, none, words, (basis) => change(takenFrom(desk, basis)));
  showTaps();
  if (routine && landing) {
    landing.mark.disabled = laid.landings.length === 0;
    showSections(landing.list, { desk, laid, routine }, words, landing.mark, (section) => mark(section));
  }
  file.show(grid && (routine ? figuresOf(desk, routine) : grid));
  for (const button of nudges) button.disabled = grid === undefined;
  draw();
}

function length(): number {
  return Number.isFinite(audio.duration) ? audio.duration : shape.peaks.length / shape.rate;
}

/* Choosing the song. */

async function open(chosen: File): Promise<void> {
  const turn = ++song;
  audio.pause();
  if (audio.src !== "") URL.revokeObjectURL(audio.src);
  audio.src = URL.createObjectURL(chosen);
  const say = (said: string) => {
    part.news.textContent = said;
  };
  say(words.opening);
  try {
    const heard = await soundOf(chosen);
    if (turn !== song) return;
    shape = shapeOf(heard);
    none = undefined;
    near = { ...near, from: 0 };
    part.desk.hidden = false;
    part.position.max = String(heard.samples.length / heard.rate);
    change(forgotten(desk));
    say(words.listening);
    const worker = new Worker("/~live/song/listen.js");
    const seconds = heard.samples.length / heard.rate;
    const guess = await guessOf(heard, worker).finally(() => worker.terminate());
    if (turn !== song) return;
    if ("why" in guess) none = guess;
    change("why" in guess ? desk : guessed(desk, guess));
    say(words.ready(seconds, desk.basis.from === "guess"));
  } catch {
    if (turn !== song) return;
    part.desk.hidden = true;
    say(words.unreadable);
  }
}

part.file.addEventListener("change", () => {
  const [chosen] = part.file.files ?? [];
  if (chosen) void open(chosen);
});
document.addEventListener("dragover", (event) => event.preventDefault());
document.addEventListener("drop", (event) => {
  event.preventDefault();
  const [chosen] = event.dataTransfer?.files ?? [];
  if (chosen) void open(chosen);
});

/* Seeing and hearing it. */

function view(): View {
  const at = audio.currentTime;
  const isNear = at >= near.from && at <= near.from + 0.92 * near.seconds;
  // It turns the page rather than run along: easier to read, and nothing moves for those who mind.
  if (!isNear) near = { ...near, from: Math.max(0, at - (audio.paused ? 0.5 : 0.1) * near.seconds) };
  const begins = laid.landings.map(({ section, begins }) => ({
    at: begins,
    name: routine ? nameOf(routine, section, words) : "",
  }));
  return {
    ...{ shape, at, begins, length: length(), beats: laid.beats },
    ...{ from: near.from, seconds: near.seconds },
    taps: shownTaps(desk, stretch()),
    marks: [...desk.marks.values()],
  };
}

let drawing = 0;
function draw(): void {
  cancelAnimationFrame(drawing);
  drawing = requestAnimationFrame(() => {
    const seen = view();
    drawNear(part.near, seen);
    drawWhole(part.whole, seen);
    const said = words.positionOf(seen.at, seen.length);
    if (part.clock.textContent !== said) {
      part.clock.textContent = said;
      part.position.value = String(seen.at);
      part.position.setAttribute("aria-valuetext", said);
    }
    if (!audio.paused) draw();
  });
}

for (const name of ["seeked", "loadedmetadata"]) audio.addEventListener(name, draw);
for (const name of ["play", "pause"])
  audio.addEventListener(name, () => {
    part.play.textContent = audio.paused ? words.play : words.pause;
    part.tap.textContent = audio.paused ? words.tapToPlay : words.tap;
    draw();
  });
addEventListener("resize", draw);
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", draw);
part.play.addEventListener("click", player.toggle);
part.position.addEventListener("input", () => player.seek(Number(part.position.value)));
part.speed.addEventListener("change", () => player.setRate(Number(part.speed.value) / 100));
part.clicks.addEventListener("input", () => player.setLevel(Number(part.clicks.value)));
part.near.addEventListener("click", ({ offsetX }) =>
  player.seek(near.from + (offsetX / part.near.clientWidth) * near.seconds),
);
part.whole.addEventListener("click", ({ offsetX }) => player.seek((offsetX / part.whole.clientWidth) * length()));

function zoom(by: number): void {
  const seconds = Math.max(1, Math.min(32, near.seconds * by));
  near = { from: Math.max(0, audio.currentTime - seconds / 2), seconds };
  draw();
}
the("closer", HTMLButtonElement).addEventListener("click", () => zoom(0.5));
the("wider", HTMLButtonElement).addEventListener("click", () => zoom(2));

/* Tapping along. */

function stretch(): Stretch {
  return part.stretch.value === "" ? "song" : Number(part.stretch.value);
}

let telling: ReturnType<typeof setTimeout> | undefined;
/** Read out once nothing more comes: with every tap nobody could follow it. */
function tell(said: string): void {
  clearTimeout(telling);
  telling = setTimeout(() => {
    part.told.textContent = said;
  }, 2000);
}

function showTaps(): void {
  part.taps.textContent = tapsText(desk, stretch(), words);
  part.again.disabled = part.taps.textContent === "";
}

function tap(event: Event): void {
  if (audio.paused) {
    player.toggle();
    return;
  }
  player.hush();
  change(tapped(desk, stretch(), player.heardAt(event)));
  tell(part.taps.textContent ?? "");
}

onTaps(part.tap, tap);
part.stretch.addEventListener("change", () => change(desk));
part.again.addEventListener("click", () => {
  change(withoutTaps(desk, stretch()));
  part.tap.focus();
});

/* A little more by hand. */

const nudges = [...document.querySelectorAll<HTMLButtonElement>("[data-nudge]")];
for (const button of nudges)
  button.addEventListener("click", (event) => {
    const { nudge } = button.dataset;
    if (nudge === "here") firstHere(event);
    else change(nudged(desk, nudge as Nudge));
  });

function firstHere(event: Event): void {
  if (gridOf(desk)) change(anchored(desk, player.heardAt(event)));
}

/* Where sections begin. */

/** Marks where a section begins, or takes its mark away. */
function mark(section: number, at?: number): void {
  const marks = new Map(desk.marks);
  marks.delete(section);
  if (at !== undefined) marks.set(section, at);
  const next = { ...desk, marks };
  // The routine begins where its first section does.
  change(at !== undefined && section === laid.landings[0]?.section ? anchored(next, at) : next);
}

function markNext(event: Event): void {
  if (!landing || !routine || laid.landings.length === 0) return;
  const section = Number(landing.next.value);
  const at = player.heardAt(event);
  mark(section, at);
  const now = laid.landings.find((one) => one.section === section);
  tell(`${nameOf(routine, section, words)} ${now ? words.begins(now.begins) : ""}`);
  landing.next.selectedIndex = Math.min(landing.next.selectedIndex + 1, landing.next.length - 1);
}

landing?.mark.addEventListener("click", markNext);

/** Sections to choose among: to tap for, and to mark; a repeat has no place of its own in the file. */
function fillChoices(): void {
  part.stretch.append(made("option", words.tapForAll, { value: "" }));
  if (!routine || !landing) return;
  for (const [index, { name }] of routine.written.entries())
    if (routine.danced.some(({ written, numbers }) => written === index && numbers.length > 0))
      part.stretch.append(made("option", name, { value: String(index) }));
  the("stretches", HTMLElement).hidden = false;
  const opening = routine.danced.findIndex(({ numbers }) => numbers.length > 0);
  for (const [index, { pass }] of routine.danced.entries())
    if (index >= opening && pass === 1)
      landing.next.append(made("option", nameOf(routine, index, words), { value: String(index) }));
}

/* Keys, and from one desk to another. */

onKeys(part.desk, {
  p: () => player.toggle(),
  t: tap,
  f: firstHere,
  m: markNext,
  ArrowLeft: () => player.seek(audio.currentTime - 5),
  ArrowRight: () => player.seek(audio.currentTime + 5),
});

document.getElementById("along")?.addEventListener("submit", (event) => {
  const grid = gridOf(desk);
  if (!grid) return;
  event.preventDefault();
  const chosen = new FormData(event.target as HTMLFormElement).get("routine");
  location.assign(`/song/?${new URLSearchParams({ routine: String(chosen) })}#${gridText(grid)}`);
});

fillChoices();
change(desk);
