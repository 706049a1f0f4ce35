import type { WordPairs } from "./cue-language.js";
import { mirrorCue } from "./mirror-cue.js";
import type { PlacedMove, Run } from "./placing.js";
import type { Alternative } from "./routine.js";
import { onOtherSide } from "./stancing.js";
import { type Risk, risks } from "./vocabulary.js";
import type { WrittenGroup, WrittenMove, WrittenOption } from "./written.js";

/**
 * What the other versions dance on a placed move's counts, as danced: the plain move is the taught level's. A phrase's
 * options stand with the phrase's first move.
 */
export function alternativesOf(
  run: Run,
  pairs: WordPairs,
  group?: WrittenGroup,
): (placed: PlacedMove) => readonly Alternative[] {
  let last: PlacedMove["phrase"] | undefined;
  return (placed) => {
    const { plain, option, phrase, leads } = placed;
    const firstOfPhrase = phrase !== last;
    last = phrase;
    const mirrored = onOtherSide(run, phrase, group);
    const way = (version: string, moves: readonly WrittenMove[], on: string): Alternative => ({
      version,
      moves: moves.map((move) => ({
        on: move.on ?? on,
        cue: mirrored ? mirrorCue(move.cue, pairs) : move.cue,
        risks: risksAlone(move),
      })),
    });
    const ways = (plainMoves: readonly WrittenMove[], options: readonly WrittenOption[], on: string) => [
      ...(option !== undefined && options.includes(option) ? [way(run.routine.taught, plainMoves, on)] : []),
      ...options.filter((one) => one !== option).map((one) => way(one.version, one.moves, on)),
    ];
    return [
      ...(firstOfPhrase ? ways(phrase.written.moves, phrase.written.options, "") : []),
      ...(plain !== undefined && leads ? ways([plain], plain.options, plain.on ?? placed.on) : []),
    ];
  };
}

/** The risks that a written move has by itself, whatever comes before it. */
function risksAlone({ risks: named, contacts, height, through, weight, turn = 0 }: WrittenMove): readonly Risk[] {
  const met = new Set<Risk>(named);
  if (height === "inverted" || through === "inverted") met.add("inversion");
  if (Math.abs(turn) >= 8) met.add("spin");
  if (contacts.includes("knees") || weight === "knees" || height === "kneeling" || through === "kneeling")
    met.add("kneework");
  return risks.filter((risk) => met.has(risk));
}
