import type { DeskRoutine } from "../../../src/build/live/desk-data.js";
import type { Landing } from "../../../src/hearing/song/landing.js";
import { writtenTempo, writtenTime } from "../../../src/routine/written-figures.js";
import type { SongWording } from "../../../src/wording/song.js";
import { made, refill } from "./elements.js";
import { type Laid, tappedTempo } from "./laid.js";
import type { Desk } from "./state.js";

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

/**
 * Sections in danced order, each with where it begins in the song and what follows from that.
 *
 * @param otherwise where whoever took the last mark away by the keys goes on
 */
export function showSections(
  into: HTMLElement,
  { desk, laid, routine }: Found,
  words: SongWording,
  otherwise: HTMLElement,
  remove: (section: number) => void,
): void {
  const { landings, sections } = laid;
  const items = landings.map((landing, index) => {
    const { section, mark } = landing;
    const name = nameOf(routine, section, words);
    const item = made("li", "", landing.follows === "too-early" || landing.unwritable ? { class: "wrong" } : {});
    const head = made("p", "", { class: "head" });
    head.append(made("b", name), ` ${words.begins(landing.begins)}`);
    item.append(head);
    const period = 60 / (sections[landings[index - 1]?.section ?? 0]?.countsPerMinute ?? 60);
    const said = saidOf(landing, period, words);
    if (said.length > 0) item.append(made("p", words.facts(said)));
    if (landing.at !== undefined) item.append(made("code", `at: ${writtenTime(landing.at)}`));
    const tempo = tappedTempo(desk, routine, sections[section]?.written ?? -1);
    if (tempo !== undefined) item.append(made("code", `tempo: ${writtenTempo(tempo)}`));
    if (mark) {
      const button = made("button", words.remove, {
        ...{ type: "button", class: "button", "aria-label": words.removeFrom(name) },
        "data-key": `mark-${section}`,
      });
      button.addEventListener("click", () => remove(section));
      item.append(button);
    }
    return item;
  });
  refill(into, items, otherwise);
}

/** @param period seconds a count before it */
function saidOf({ mark, at, follows, by, unwritable }: Landing, period: number, words: SongWording): readonly string[] {
  const said = mark ? [words.onMark(mark)] : at === undefined ? [] : [words.asInFile];
  if (unwritable) return [...said, words.unwritable];
  if (follows === "wait") return [...said, words.wait(by, by / period)];
  if (follows === "cut") return [...said, words.cut(by)];
  if (follows === "too-early") return [...said, words.tooEarly(by)];
  return mark ? [...said, words.arrives] : said;
}
