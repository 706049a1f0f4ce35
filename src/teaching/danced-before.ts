import { phraseEnd } from "../routine/chart.js";
import type { DancedPhrase, DancedSection, Move } from "../routine/routine.js";
import type { GroupMoves } from "./dancers.js";
import { plain } from "./difficulty.js";
import type { DancedBefore } from "./material.js";

/** Phrases that a class has danced, by what is danced in them, with the section where that was. */
export type PhrasesDanced = ReadonlyMap<string, Pick<DancedSection, "name" | "mirrored">>;

/**
 * Where a phrase of a section was danced before: with the same moves on the same counts, all of them on this side or all on the
 * other. What is the same on both sides goes by the side of its section.
 */
export function dancedBefore(
  met: PhrasesDanced,
  { mirrored }: Pick<DancedSection, "mirrored">,
  phrase: DancedPhrase,
  dancers: readonly GroupMoves[],
): DancedBefore | undefined {
  const own = met.get(danced(phrase, dancers, ({ cue }) => cue.text));
  const other = met.get(danced(phrase, dancers, ({ mirroredCue }) => mirroredCue.text));
  if (own && !(other && other.mirrored !== mirrored)) return { section: own.name, otherSide: false };
  return other && { section: other.name, otherSide: true };
}

/** What was danced, and some phrases of a section more. */
export function withPhrases(met: PhrasesDanced, section: DancedSection, dancers: readonly GroupMoves[]): PhrasesDanced {
  const keys = section.phrases.map((phrase) => danced(phrase, dancers, ({ cue }) => cue.text));
  return new Map([...keys.flatMap((key) => (key === "" ? [] : [[key, section] as const])), ...met]);
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
