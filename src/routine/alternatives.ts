import Fraction from "fraction.js";
import type { WordPairs } from "./cue-language.js";
import { keptRisks } from "./ladder.js";
import { otherWords } from "./mirror-cue.js";
import { inCountOrder, keptInPhrase, type PlacedMove, type Run } from "./placing.js";
import { collectProblems } from "./problems.js";
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
    const index = () => run.phrases.indexOf(phrase);
    const ordered = (moves: readonly WrittenMove[], on: string) =>
      inCountOrder(run, index(), moves, on === "" ? new Fraction(phrase.at) : placed.at);
    const way = (version: string, moves: readonly WrittenMove[], on: string, kept: Kept): Alternative => ({
      version,
      moves: ordered(moves, on).map((move) => ({
        place: move.place,
        on: move.on ?? on,
        cue: mirrored ? otherWords(move, pairs)(move.cue) : move.cue,
        improvised: move.improvised,
        risks: risksAlone(move, kept(move)),
      })),
    });
    const ways = (
      plainMoves: readonly WrittenMove[],
      options: readonly WrittenOption[],
      on: string,
      keptOf: (option: WrittenOption) => Kept,
    ) => [
      ...(option !== undefined && options.includes(option) ? [way(run.routine.taught, plainMoves, on, () => [])] : []),
      ...options.filter((one) => one !== option).map((one) => way(one.version, one.moves, on, keptOf(one))),
    ];
    const inPhrase = (one: WrittenOption): Kept => {
      const kept = keptInPhrase(run, index(), one, collectProblems());
      return (move) => kept.get(move) ?? [];
    };
    return [
      ...(firstOfPhrase ? ways(phrase.written.moves, phrase.written.options, "", inPhrase) : []),
      ...(plain !== undefined && leads
        ? ways([plain], plain.options, plain.on ?? placed.on, (one) => () => keptRisks(run.routine, one, plain))
        : []),
    ];
  };
}

/** The risks that a move keeps of the plain one in whose place it stands. */
type Kept = (move: WrittenMove) => readonly Risk[];

/** The risks that a written move has by itself, whatever comes before it. */
function risksAlone(
  { risks: named, contacts, height, through, weight, turn = 0 }: WrittenMove,
  kept: readonly Risk[],
): readonly Risk[] {
  const met = new Set<Risk>(named ?? kept);
  if (height === "inverted" || through === "inverted") met.add("inversion");
  if (Math.abs(turn) >= 8) met.add("spin");
  if (contacts.includes("knees") || weight === "knees" || height === "kneeling" || through === "kneeling")
    met.add("kneework");
  return risks.filter((risk) => met.has(risk));
}
