import { phraseEnd } from "../routine/chart.js";
import type { DancedPhrase, DancedSection, Move } from "../routine/routine.js";
import type { GroupMoves } from "./dancers.js";
import { plain } from "./difficulty.js";
import type { DancedBefore } from "./material.js";

/** Phrases that a class has danced, by what is danced in them, with the section where that was. */
export type PhrasesDanced = ReadonlyMap<string, PhraseDanced>;

interface PhraseDanced {
  readonly section: Pick<DancedSection, "name" | "mirrored" | "countsPerMinute" | "phrases">;
  /** Its number in that section. */
  readonly phrase: number;
}

/** A phrase that was danced before, and how many that section has. */
export interface PhraseBefore extends Pick<DancedBefore, "section" | "otherSide" | "pace"> {
  readonly phrases: readonly number[];
  readonly of: number;
}

/** Some phrases that follow each other, where they were danced before; which those were, unless it is all of that section. */
export function asDancedBefore({ of, phrases, ...before }: PhraseBefore, number: number): DancedBefore {
  return number >= of ? before : { ...before, phrases };
}

/**
 * Where a phrase of a section was danced before: with the same moves on the same counts, all of them on this side or all on the
 * other. What is the same on both sides goes by the side of its section.
 */
export function dancedBefore(
  met: PhrasesDanced,
  { mirrored, countsPerMinute }: Pick<DancedSection, "mirrored" | "countsPerMinute">,
  phrase: DancedPhrase,
  dancers: readonly GroupMoves[],
): PhraseBefore | undefined {
  const own = met.get(danced(phrase, dancers, ({ cue }) => cue.text));
  const other = met.get(danced(phrase, dancers, ({ mirroredCue }) => mirroredCue.text));
  const otherSide = !own || (other !== undefined && other.section.mirrored !== mirrored);
  const was = otherSide ? other : own;
  if (!was) return undefined;
  const { section, phrase: number } = was;
  const change = countsPerMinute.compare(section.countsPerMinute);
  return {
    ...{ section: section.name, otherSide, phrases: [number], of: section.phrases.length },
    ...(change !== 0 && { pace: change < 0 ? ("slower" as const) : ("faster" as const) }),
  };
}

/** What was danced, and some phrases of a section more. */
export function withPhrases(met: PhrasesDanced, section: DancedSection, dancers: readonly GroupMoves[]): PhrasesDanced {
  const own = section.phrases.flatMap((phrase) => {
    const key = danced(phrase, dancers, ({ cue }) => cue.text);
    return key === "" ? [] : [[key, { section, phrase: phrase.number }] as const];
  });
  return new Map([...own, ...met]);
}

/** Everything that is danced in a phrase, as one text; empty where nothing but a hold is. */
function danced({ at, ...phrase }: DancedPhrase, dancers: readonly GroupMoves[], text: (move: Move) => string): string {
  const moves = dancers.map(({ taught, after }) =>
    taught
      .filter((move) => !move.hold && move.at.gte(at + after) && move.at.lt(phraseEnd({ at, ...phrase }) + after))
      .map((move) => `${move.at.sub(at).toFraction()} ${move.length.toFraction()} ${plain(text(move))}`),
  );
  return moves.every((of) => of.length === 0) ? "" : JSON.stringify(moves);
}
