/* The song desk: from a song that somebody plays to the figures of it that stand in a routine's file. */
import type { DeskData, DeskRoutine } from "../../src/build/live/desk-data.js";
import type { Grid, NoGuess } from "../../src/hearing/song/types.js";
import { songWording } from "../../src/wording/song.js";
import { made, the } from "./song/elements.js";
import { figuresOf } from "./song/figures.js";
import { filePart } from "./song/file.js";
import { onKeys } from "./song/keys.js";
import { type Laid, lay } from "./song/laid.js";
import { marked, put } from "./song/marks.js";
import { onSong } from "./song/opening.js";
import { gridIn, gridText } from "./song/plain-lines.js";
import { playing } from "./song/playing.js";
import { nameOf, showSections } from "./song/sections.js";
import { seeing } from "./song/seeing.js";
import { lengthOf, type Shape, shapeOf } from "./song/sound.js";
import { showSources, whenceOf } from "./song/sources.js";
import {
  anchored,
  type Desk,
  forgotten,
  gridOf,
  guessed,
  type Nudge,
  newDesk,
  nudged,
  openedCounts,
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
let laid: Laid = lay(desk, undefined, 0);
let none: NoGuess | undefined;
let shape: Shape = { peaks: new Float32Array(), rate: 1 };
const part = {
  desk: the("desk", HTMLElement),
  told: the("told", HTMLElement),
  play: the("play", HTMLButtonElement),
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

const player = playing(
  () => laid.beats,
  (why) => {
    the("news", HTMLElement).textContent = words.trouble[why];
  },
);
const { audio } = player;
const sight = seeing(player, words, () => ({
  shape,
  beats: laid.beats,
  begins: laid.landings.map(({ section, begins }) => ({
    at: begins,
    name: routine ? nameOf(routine, section, words) : "",
  })),
  taps: shownTaps(desk, stretch()),
  marks: [...desk.marks.values()],
}));
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

let telling: ReturnType<typeof setTimeout> | undefined;
/** Has something read out once nothing else comes for so many milliseconds: with every tap nobody could follow it. */
function tell(said: string, after: number): void {
  clearTimeout(telling);
  telling = setTimeout(() => {
    part.told.textContent = said;
  }, after);
}

/** The counts with another thing said about them: all that follows is worked out and shown anew. */
function change(next: Desk): void {
  desk = next;
  laid = lay(desk, routine, lengthOf(shape));
  const grid = gridOf(desk);
  the("tempo", HTMLElement).textContent = grid ? words.tempo(grid.countsPerMinute) : words.none;
  the("first", HTMLElement).textContent = grid ? words.place(grid.firstCount) : words.none;
  the("whence", HTMLElement).textContent = grid ? whenceOf(desk, words) : "";
  showSources(part.sources, desk, none, words, (basis) => change(takenFrom(desk, basis)));
  showTaps();
  if (routine && landing) {
    landing.mark.disabled = laid.landings.length === 0;
    showSections(landing.list, { desk, laid, routine }, words, landing.mark, {
      // A little before, so that it is heard how it begins.
      go: (at) => player.seek(at - 2),
      put: (section, at) => moveTo(section, put(desk, section, at)),
      mark: (section, at) => moveTo(section, marked(desk, section, at)),
      remove: (section) => moveTo(section, marked(desk, section)),
    });
  }
  file.show(grid && (routine ? figuresOf(desk, routine) : grid));
  for (const button of nudges) button.disabled = grid === undefined;
  sight.draw();
  if (grid) tell(words.found(grid), 700);
}

/* Choosing, seeing and hearing the song. */

onSong(audio, words, {
  opened: (sound) => {
    shape = shapeOf(sound);
    none = undefined;
    part.desk.hidden = false;
    change(forgotten(desk));
    sight.turnTo(0);
  },
  heard: (guess) => {
    if ("why" in guess) none = guess;
    change("why" in guess ? desk : guessed(desk, guess));
    return openedCounts(desk);
  },
});

for (const name of ["play", "pause"])
  audio.addEventListener(name, () => {
    part.play.textContent = audio.paused ? words.play : words.pause;
    part.tap.textContent = audio.paused ? words.tapToPlay : words.tap;
  });
part.play.addEventListener("click", player.toggle);
part.speed.addEventListener("change", () => player.setRate(Number(part.speed.value) / 100));
part.clicks.addEventListener("input", () => player.setLevel(Number(part.clicks.value)));

/* Tapping along. */

function stretch(): Stretch {
  return part.stretch.value === "" ? "song" : Number(part.stretch.value);
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
  tell(part.taps.textContent ?? "", 2000);
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

/** With a section somewhere else, which is read out. */
function moveTo(section: number, next: Desk): void {
  change(next);
  const now = laid.landings.find((one) => one.section === section);
  if (routine && now) tell(words.begun(nameOf(routine, section, words), now.begins), 700);
}

function markNext(event: Event): void {
  if (!landing || !routine || laid.landings.length === 0) return;
  const section = Number(landing.next.value);
  const at = player.heardAt(event);
  const next = marked(desk, section, at);
  // The routine begins where its first section does.
  moveTo(section, section === laid.landings[0]?.section ? anchored(next, at) : next);
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
