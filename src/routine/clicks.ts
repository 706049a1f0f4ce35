import type Fraction from "fraction.js";
import { countSeconds, countStart } from "./clock.js";
import type { DancedSection, Routine } from "./routine.js";
import { divisions } from "./spans.js";
import type { Feel } from "./vocabulary.js";

/** A whole count on the clock. */
export interface Click {
  /** In counts from the routine's first count; negative in the count-in. */
  readonly at: number;
  readonly number: number;
  /** What is called on it: its number, or what its phrase says in place of the numbers. */
  readonly call: string;
  /** How it is divided. */
  readonly feel: Feel;
  /** True where the number is one that lands hardest; never in the count-in, where nothing lands. */
  readonly accent: boolean;
  /** Seconds from the routine's first count. */
  readonly start: Fraction;
  /** Where it ends on the clock, same origin: early where the track's next section cuts it short. */
  readonly end: Fraction;
  /** Index into the routine's sections; absent in the count-in. */
  readonly section?: number;
  /** From 1 within the section; absent in the count-in. */
  readonly phrase?: number;
}

/**
 * Every whole count of one run in order, the count-in first. Counts of a section follow each other at its tempo from its
 * start; between sections there may be a wait, or time without counts. One at a time, so that a long routine takes no more memory than a short one.
 *
 * @returns counts with their numbers, and exact seconds from the routine's first count (negative in the count-in)
 * @example
 * [...clicks(routine)].slice(3, 6).map(({ number, start }) => [number, start.valueOf()]) // [[8, -1], [1, 0], [2, 1]]
 */
export function* clicks(routine: Routine): Generator<Click> {
  yield* countIn(routine);
  for (const [index, section] of routine.sections.entries()) yield* sectionClicks(routine, section, index);
}

/** The counts before the first, at the first section's tempo, with the numbers that lead into its first one: 5, 6, 7, 8. */
function* countIn({ music, sections }: Routine): Generator<Click> {
  const first = sections.find(({ counts }) => counts > 0);
  if (!first) return;
  const each = countSeconds(first.countsPerMinute);
  const [opening] = first.phrases;
  const [numbers, feel] = [opening?.numbers ?? [], opening?.feel ?? first.feel];
  const round = Math.max(music.phrase, ...numbers);
  for (let at = -music.countIn; at < 0; at++) {
    const steps = ((numbers[0] ?? 1) - 1 + at) % round;
    const number = (steps < 0 ? steps + round : steps) + 1;
    yield { at, number, call: String(number), feel, accent: false, start: each.mul(at), end: each.mul(at + 1) };
  }
}

function* sectionClicks(routine: Routine, section: DancedSection, index: number): Generator<Click> {
  for (const phrase of section.phrases) {
    for (const [place, number] of phrase.numbers.entries()) {
      const at = phrase.at + place;
      const last = at + 1 === section.at + section.counts;
      yield {
        at,
        number,
        call: phrase.say?.[place] ?? String(number),
        feel: phrase.feel,
        accent: routine.music.accents.includes(number),
        start: countStart(section, at),
        end: last ? section.end : countStart(section, at + 1),
        section: index,
        phrase: phrase.number,
      };
    }
  }
}

/** The moments between a count and the next on which its parts are called, in its feel: `e`, `&` and `a` in straight. */
export function partStarts({ start, end, feel }: Pick<Click, "start" | "end" | "feel">): readonly Fraction[] {
  return divisions(feel).map((part) => start.add(end.sub(start).mul(part)));
}
