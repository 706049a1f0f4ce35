import type { DeskRoutine } from "../../../src/build/live/desk-data.js";
import type { Landing } from "../../../src/hearing/song/landing.js";
import { writtenTempo, writtenTime } from "../../../src/routine/written-figures.js";
import type { SongWording } from "../../../src/wording/song.js";
import { made, refill } from "./elements.js";
import { type Laid, tappedTempo } from "./laid.js";
import { near, tappedPlace } from "./marks.js";
import { type Desk, fitFor, gridOf } from "./state.js";

/** What a section is called, with the time through and the repeat where it is danced more than once. */
export function nameOf({ written, danced }: DeskRoutine, index: number, words: SongWording): string {
  const section = danced[index];
  if (section === undefined) return "";
  const name = written[section.written]?.name ?? "";
  const through = words.through(section.wall, section.pass);
  return through === "" ? name : `${name}, ${through}`;
}

interface Found {
  readonly desk: Desk;
  readonly laid: Laid;
  readonly routine: DeskRoutine;
}

/** What is done from the list. */
interface Does {
  /** Goes to a moment of the song. */
  readonly go: (at: number) => void;
  /** Puts a section at a moment, whatever the counts say. */
  readonly put: (section: number, at: number) => void;
  readonly mark: (section: number, at: number) => void;
  readonly remove: (section: number) => void;
}

/**
 * Sections in danced order, each with where it begins in the song and what follows from that.
 *
 * @param otherwise where whoever took the last mark away by the keys goes on
 */
export function showSections(
  into: HTMLElement,
  found: Found,
  words: SongWording,
  otherwise: HTMLElement,
  does: Does,
): void {
  const { landings, sections } = found.laid;
  const items = landings.map((landing, index) => {
    const { section, begins } = landing;
    const item = made("li", "", landing.follows === "too-early" || landing.unwritable ? { class: "wrong" } : {});
    const name = nameOf(found.routine, section, words);
    const head = made("p", "", { class: "head" });
    const there = made("button", words.place(begins), {
      ...keyed("go", section),
      "aria-label": words.goTo(name, begins),
    });
    there.addEventListener("click", () => does.go(begins));
    head.append(made("b", name), ` ${words.begins} `, there);
    item.append(head);
    const period = 60 / (sections[landings[index - 1]?.section ?? 0]?.countsPerMinute ?? 60);
    const written = sections[section]?.written ?? -1;
    const tempo = tempoSaid(found, written, words);
    const beside = index > 0 ? besideSaid(found, landing, words) : undefined;
    const said = [...saidOf(landing, found.laid, period, words), tempo.said, beside].filter((one) => one !== undefined);
    if (said.length > 0) item.append(made("p", words.facts(said)));
    if (landing.at !== undefined) item.append(made("code", `at: ${writtenTime(landing.at)}`));
    if (tempo.line) item.append(made("code", tempo.line));
    item.append(...buttonsOf(landing, index === 0, name, words, does));
    return item;
  });
  refill(into, items, otherwise);
}

function keyed(key: string, section: number) {
  return { type: "button", "data-key": `${key}-${section}` };
}

/** What the taps for a section come to: a line for it, or that it needs none. */
function tempoSaid({ desk, routine }: Found, written: number, words: SongWording) {
  const [grid, fit] = [gridOf(desk), fitFor(desk, written)];
  if (grid === undefined || fit === undefined || "why" in fit) return {};
  const tempo = tappedTempo(desk, routine, written, grid);
  return tempo === undefined ? { said: words.sameTempo } : { line: `tempo: ${writtenTempo(tempo)}` };
}

/** That a section begins on no count that was tapped in it, or was marked after a pause, from which the counts may not go on as before. */
function besideSaid({ desk, laid }: Found, landing: Landing, words: SongWording) {
  const { section, begins, mark, follows } = landing;
  if (laid.places.has(section)) return undefined;
  const tapped = tappedPlace(desk, laid.sections[section], begins);
  if (mark) return tapped === undefined && (follows === "wait" || follows === "cut") ? words.tapThere : undefined;
  return tapped !== undefined && Math.abs(tapped - begins) > near ? words.tapsBeside(tapped - begins) : undefined;
}

/** What moves a section by hand: where it begins on the first count, that moves with the counts. */
function buttonsOf(
  { section, arrives, begins, mark, at, unwritable }: Landing,
  opens: boolean,
  name: string,
  words: SongWording,
  { put, mark: markAt, remove }: Does,
): readonly HTMLElement[] {
  const button = (key: string, text: string, press: () => void) => {
    const more = { class: "button", "aria-label": words.ofSection(text, name) };
    const one = made("button", text, { ...keyed(key, section), ...more });
    one.addEventListener("click", press);
    return one;
  };
  const isMoved = !opens && !unwritable && (mark !== undefined || at !== undefined);
  const isOff = isMoved && mark?.snapped && Math.abs(mark.off) >= 0.005;
  const keep = () => {
    put(section, mark?.at ?? begins);
    // It is gone then: by the keys, one goes on beside it.
    document.querySelector<HTMLElement>(`[data-key="mark-${section}"]`)?.focus();
  };
  return [
    ...(isMoved ? [button("back", words.nudges["first-back"], () => put(section, begins - 0.005))] : []),
    ...(isMoved ? [button("on", words.nudges["first-on"], () => put(section, begins + 0.005))] : []),
    // Each undoes the other, in one place for the keys.
    ...(isMoved && mark === undefined ? [button("mark", words.arrive(arrives), () => markAt(section, arrives))] : []),
    ...(isOff ? [button("keep", words.keep(mark.at), keep)] : []),
    ...(mark ? [button("mark", words.remove, () => remove(section))] : []),
  ];
}

/** @param period seconds a count before it */
function saidOf(
  { section, mark, at, follows, by, unwritable }: Landing,
  { places }: Laid,
  period: number,
  words: SongWording,
): readonly string[] {
  const said = mark
    ? [words.onMark(mark, places.get(section)?.by ?? "counts")]
    : at === undefined
      ? []
      : [words.asInFile];
  if (unwritable) return [...said, words.unwritable];
  if (follows === "wait") return [...said, words.wait(by, by / period)];
  if (follows === "cut") return [...said, words.cut(by)];
  if (follows === "too-early") return [...said, words.tooEarly(by)];
  return mark ? [...said, words.arrives] : said;
}
