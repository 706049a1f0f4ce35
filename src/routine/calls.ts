import type Fraction from "fraction.js";
import { moveEnd } from "./chart.js";
import type { Cue } from "./cue.js";
import type { PlacedMove } from "./placing.js";
import type { Problems } from "./problems.js";
import type { Call, Move, Routine } from "./routine.js";
import { type Point, parseSpans, partOfCount } from "./spans.js";
import type { Feel } from "./vocabulary.js";
import type { WrittenMove } from "./written.js";

/**
 * The points that some counts name, as positions: `1-3&` names 1, 2, 3 and 3&, and `7&8` names 7, 7& and 8. A length in place of
 * an end names each count that begins within it.
 */
export function pointsOf({
  at,
  lastPoint,
  on,
  phrase,
}: Pick<PlacedMove, "at" | "lastPoint" | "on" | "phrase">): readonly Fraction[] {
  const called = calledPoints(on);
  if (called !== undefined) return positionsOf(called, at, phrase.feel);
  const points = [at];
  for (let next = at.floor().add(1); next.lt(lastPoint); next = next.add(1)) points.push(next);
  return lastPoint.gt(at) ? [...points, lastPoint] : points;
}

/** The points of a span that is written as it is called. */
function calledPoints(on: string): readonly Point[] | undefined {
  const parsed = parseSpans(on);
  const [span] = "spans" in parsed ? parsed.spans : [];
  return span?.called ? span.points : undefined;
}

/** Where points lie that are called one after the other, none of their counts left out. */
function positionsOf(points: readonly Point[], at: Fraction, feel: Feel): readonly Fraction[] {
  let count = at.floor();
  return points.map((point, index) => {
    if (index > 0 && point.count !== points[index - 1]?.count) count = count.add(1);
    return count.add(partOfCount(point.part, feel) ?? 0);
  });
}

/** What is called on a move as danced, each call on its point; where a restart breaks it off, as far as it comes. */
export function callsOf(placed: PlacedMove, { say }: WrittenMove): readonly Call[] | undefined {
  if (say === undefined) return undefined;
  const points = say.each ? pointsOf(placed) : [placed.at];
  const calls = say.calls.flatMap((cue, index) => {
    const at = points[index];
    return at === undefined ? [] : [{ at, cue }];
  });
  return aloud(calls).length === 0 ? [] : calls;
}

/** Those calls that are called: a list may be silent on some of its counts. */
export function aloud(calls: readonly Call[] = []): readonly Call[] {
  return calls.filter(({ cue }) => cue.text !== "");
}

/** Checks that a list of calls has one for each point; where a restart breaks the move off, it does not come to all of them. */
export function checkCalls(placed: PlacedMove, problems: Problems): void {
  const { say, place } = placed.written;
  if (say?.each !== true || placed.cut) return;
  const [calls, points] = [say.calls.length, pointsOf(placed).length];
  if (calls === points) return;
  problems.error(
    "say",
    `${place}/say`,
    `\`${placed.on}\` has ${points} ${points === 1 ? "count" : "counts"} to call on, and \`say\` is a list of ${calls}; write one call for each, or a text alone to call once`,
  );
}

/**
 * What is called on the counts of a move, as plain texts in order: its own calls, else what its phrase says; none where the counts
 * themselves are called, or nothing is.
 */
export function calledOn({ sections }: Pick<Routine, "sections">, move: Move): readonly Cue[] {
  if (move.say !== undefined) return aloud(move.say).map(({ cue }) => cue);
  return phraseCalls(sections, move).flatMap((text) => (text === "" ? [] : [{ text, marks: [] }]));
}

/** True where nothing is called on all of a move's counts, their numbers neither. */
export function isSilent({ sections }: Pick<Routine, "sections">, move: Move): boolean {
  if (move.say !== undefined) return move.say.length === 0;
  const calls = phraseCalls(sections, move);
  return calls.length > 0 && calls.length >= move.length.floor().valueOf() && calls.every((text) => text === "");
}

/** What a move's phrase says on its counts. */
function phraseCalls(sections: Routine["sections"], move: Move): readonly string[] {
  const phrase = sections[move.section]?.phrases.find(({ number }) => number === move.phrase);
  if (phrase?.say === undefined) return [];
  const first = move.at.sub(phrase.at).ceil().valueOf();
  const end = moveEnd(move).sub(phrase.at).ceil().valueOf();
  return phrase.say.slice(first, end);
}
