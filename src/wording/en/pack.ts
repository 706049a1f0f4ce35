import { dates } from "./dates.js";
import { counted } from "./language.js";
import { workshop } from "./workshop.js";

/** A workshop's pack: its cover, its contents and the names of its parts. */
export const pack = {
  cover: "Cover",
  contents: "Contents",
  /** Before what its author says of it. */
  about: (isCourse: boolean): string => (isCourse ? "About this course" : "About this class"),
  /** "6 lessons, the last on Saturday 20 February 2027" */
  lessons: (number: number, last: string | undefined): string =>
    [counted(number, "lesson", "lessons"), ...(last === undefined ? [] : [`the last on ${dates.weekday(last)}`])].join(
      ", ",
    ),
  /** "Starts at 18:30 · 90 minutes · Level 2" */
  class: (starts: string | undefined, minutes: number, level: string): string =>
    [...(starts === undefined ? [] : [workshop.startsAt(starts)]), `${minutes} minutes`, level].join(" · "),
  /** After a routine's title. */
  routine: (choreographer: string, version: string, counts: number): string =>
    `by ${choreographer} · ${version} · ${counts} counts`,
  /** An entry of the contents, to who can't see it. */
  entry: (title: string, page: string): string => `${title}, page ${page}`,
  foot: (workshop: string, library: string): string => `${workshop} · ${library}`,
};
