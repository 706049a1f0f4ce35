import type { TimesThrough } from "../../routine/times-through.js";
import { list } from "./language.js";

/** Line dancers call each time through a wall, whichever way it faces. */
const noun = (walls: number): string => (walls > 1 ? "wall" : "time");

/** "32 counts, 4 walls, 6 times through" */
const inShort = ({ counts, walls, times }: Pick<TimesThrough, "counts" | "walls" | "times">): string =>
  `${counts} counts, ${walls > 1 ? `${walls} walls, ` : ""}${times} times through`;

/** How one run of a routine goes. */
export const run = {
  inShort,
  /** "wall 3", or "time 3" where the routine does not turn to another wall */
  time: (walls: number, number: number): string => `${noun(walls)} ${number}`,
  /** "wall 3", "walls 1–2" */
  times: (walls: number, from: number, to: number): string =>
    from === to ? `${noun(walls)} ${from}` : `${noun(walls)}s ${from}–${to}`,
  /** How a routine is built that is danced several times through, in sentences. */
  timesThrough({ counts, walls, times, tags, restarts, startFacings }: TimesThrough): readonly string[] {
    const on = (numbers: readonly number[]) =>
      `${numbers.length === 1 ? noun(walls) : `${noun(walls)}s`} ${list(numbers.map(String))}`;
    return [
      `${inShort({ counts, walls, times })}.`,
      ...tags.map((tag) => `${tag.name}: ${tag.counts} counts, on ${on(tag.on)}.`),
      ...restarts.map(({ wall, after }) => `Restart: ${noun(walls)} ${wall} breaks off after ${after} counts.`),
      ...(walls > 1 ? [`The walls start facing ${startFacings.join(", ")}.`] : []),
    ];
  },
};
