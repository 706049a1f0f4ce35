import type { DeskRoutine } from "../../../src/build/live/desk-data.js";
import type { Landing } from "../../../src/hearing/song/landing.js";
import { writtenTime } from "../../../src/hearing/song/written.js";
import type { SongWording } from "../../../src/wording/song.js";
import { made, refill } from "./elements.js";
import type { Laid } from "./laid.js";

/** What a section is called, with the time through and the repeat where it is danced more than once. */
export function nameOf({ written, danced }: DeskRoutine, index: number, words: SongWording): string {
  const section = danced[index];
  if (section === undefined) return "";
  const name = written[section.written]?.name ?? "";
  const through = words.through(section.wall, section.pass);
  return through === "" ? name : `${name}, ${through}`;
}

/** Sections in danced order, each with where it begins in the song and what follows from that. */
export function showSections(
  into: HTMLElement,
  { landings, sections }: Laid,
  routine: DeskRoutine,
  words: SongWording,
  { otherwise, remove }: { readonly otherwise: HTMLElement; readonly remove: (section: number) => void },
): void {
  const items = landings.map((landing, index) => {
    const name = nameOf(routine, landing.section, words);
    const item = made("li", "", landing.follows === "too-early" || landing.unwritable ? { class: "wrong" } : {});
    const head = made("p", "", { class: "head" });
    head.append(made("b", name), ` ${words.begins(landing.begins)}`);
    item.append(head);
    const period = 60 / (sections[landings[index - 1]?.section ?? 0]?.countsPerMinute ?? 60);
    const said = saidOf(landing, period, words);
    if (said.length > 0) item.append(made("p", `${said.join("; ")}.`));
    if (landing.at !== undefined) item.append(made("code", `at: ${writtenTime(landing.at)}`));
    if (landing.mark) {
      const away = made("button", words.remove, {
        type: "button",
        class: "button",
        "aria-label": words.removeFrom(name),
        "data-key": `mark-${landing.section}`,
      });
      away.addEventListener("click", () => remove(landing.section));
      item.append(away);
    }
    return item;
  });
  refill(into, items, otherwise);
}

/** @param period seconds a count before it */
function saidOf({ mark, follows, by, unwritable }: Landing, period: number, words: SongWording): readonly string[] {
  const said = mark ? [words.onMark(mark)] : [];
  if (unwritable) return [...said, words.unwritable];
  if (follows === "wait") return [...said, words.wait(by, by / period)];
  if (follows === "cut") return [...said, words.cut(by)];
  if (follows === "too-early") return [...said, words.tooEarly(by)];
  return mark ? [...said, words.arrives] : said;
}
