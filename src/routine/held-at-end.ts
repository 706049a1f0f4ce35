import { parseSpans, partOfCount } from "./spans.js";
import type { Feel } from "./vocabulary.js";
import type { WrittenMove, WrittenPhrase } from "./written.js";

interface CountedPhrase {
  readonly written: WrittenPhrase;
  readonly numbers: readonly number[];
}

/** Whole counts at the end of some phrases in which nobody, in any version, does anything but hold. */
export function heldAtEnd(phrases: readonly CountedPhrase[], feel: Feel): number {
  let held = 0;
  for (const phrase of phrases.toReversed()) {
    const busy = busyUntil(phrase, phrase.written.feel ?? feel);
    held += Math.max(phrase.numbers.length - busy, 0);
    if (busy > 0) {
      // What reaches into the phrase after it is danced there too.
      return Math.max(held - Math.max(busy - phrase.numbers.length, 0), 0);
    }
  }
  return held;
}

/** Counts of a phrase, from its first, until the end of all that is danced in it; more than it has where a move runs on. */
function busyUntil({ written, numbers }: CountedPhrase, feel: Feel): number {
  const ends = [
    ...written.moves.flatMap((move) => (isHeld(move) ? [] : [endOf(move, numbers, feel)])),
    ...written.options.flatMap(({ moves }) => moves.flatMap((one) => (one.hold ? [] : [endOf(one, numbers, feel)]))),
  ];
  return Math.max(0, ...ends);
}

/** Whether every version holds there. */
function isHeld({ hold, options }: WrittenMove): boolean {
  return hold && options.every(({ moves }) => moves.every((one) => one.hold));
}

/** Where a move ends, in counts from the phrase's first; of a span that runs on, into the next phrase. */
function endOf({ on, lasts }: WrittenMove, numbers: readonly number[], feel: Feel): number {
  const parsed = parseSpans(on ?? "");
  if ("wrong" in parsed) return 0;
  const ends = parsed.spans.map(({ first, last }) => {
    const [from, to] = [numbers.indexOf(first.count), numbers.indexOf(last.count)];
    if (lasts !== undefined)
      return Math.ceil(
        lasts
          .add(from)
          .add(partOfCount(first.part, feel) ?? 0)
          .valueOf(),
      );
    return to < from ? numbers.length + last.count : to + 1;
  });
  return Math.max(0, ...ends);
}
