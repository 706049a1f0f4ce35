import Fraction from "fraction.js";
import { countStart } from "./clock.js";
import type { DancedPhrase, DancedSection, Group, Move, Routine, Stance, Version } from "./routine.js";
import { nearestPoint, pointText } from "./spans.js";

/*
 * What is danced on which counts, said once: page, paper, captions, checks and planner read it here. Positions are exact, in
 * counts from the routine's first count; moments are seconds from the same.
 */

/** Those who dance the same: a version's one group, or all of it where the routine has no groups. */
export interface Dancers extends Pick<Group, "moves" | "start" | "end"> {
  /** The group's name; absent where all dance the same. */
  readonly group?: string;
}

/** One thing on some counts of a phrase: a move, the part of a move that lies in this phrase, or a hold that nobody wrote. */
export interface Cell {
  /** Absent where nothing is written, so that the dancers hold. */
  readonly move?: Move;
  readonly from: Fraction;
  readonly to: Fraction;
  /** False where it goes on from the phrase before. */
  readonly begins: boolean;
  /** False where it runs on into the next phrase. */
  readonly ends: boolean;
}

/** A phrase as danced, with all that some dancers do in it. The cells follow each other and leave no count out. */
export interface ChartPhrase {
  /** Index of its section in the routine's list. */
  readonly section: number;
  readonly phrase: DancedPhrase;
  /** Seconds at its first count. */
  readonly start: Fraction;
  /** In counts. */
  readonly length: number;
  /** How they stand at its first count; where a move goes on from before, as they stood before that move. */
  readonly stance: Stance;
  readonly cells: readonly Cell[];
}

/**
 * Everybody who dances a version, the first group first.
 *
 * @example dancersOf(routine, routine.versions[0]).map(({ group }) => group) // [undefined]
 */
export function dancersOf({ groups: [first] }: Pick<Routine, "groups">, version: Version): readonly Dancers[] {
  const { moves, start, end, groups } = version;
  const all: Dancers = { moves, start, end };
  if (first === undefined) return [all];
  return [{ ...all, group: first }, ...groups.map(({ name, ...others }) => ({ ...others, group: name }))];
}

/**
 * Every phrase of the run with what some dancers do in it, in order, in time that grows with the run. A group in canon stands
 * in the phrase that the room counts, whatever its own numbers are.
 *
 * @param dancers a version, or a group of one (`dancersOf`)
 * @example
 * const [phrase] = chart(routine, routine.versions[0])
 * phrase.cells.map(({ move, from, to }) => [move.on, from.valueOf(), to.valueOf()]) // [["1-3", 0, 3], ["4", 3, 4], ["5-8", 4, 8]]
 * phrase.stance.facing // "front"
 */
export function chart(
  { sections }: Pick<Routine, "sections">,
  { moves, end: final }: Pick<Dancers, "moves" | "end">,
): readonly ChartPhrase[] {
  let next = 0;
  return sections.flatMap((section, index) =>
    section.phrases.map((phrase): ChartPhrase => {
      const end = phraseEnd(phrase);
      const over: Move[] = [];
      for (let at = next; moves[at]?.at.lt(end) === true; at++) {
        const move = moves[at];
        if (move === undefined) break;
        const to = moveEnd(move);
        if (to.gt(phrase.at)) over.push(move);
        if (at === next && to.lte(end)) next++;
      }
      return {
        section: index,
        phrase,
        start: countStart(section, phrase.at),
        length: phrase.numbers.length,
        stance: (over[0] ?? moves[next])?.before ?? final,
        cells: cellsOf(over, phrase.at, end),
      };
    }),
  );
}

/** The cells of some moves, each of which lasts over one of the counts, and the holds between them. */
function cellsOf(moves: readonly Move[], first: number, last: number): readonly Cell[] {
  const cells: Cell[] = [];
  let until = new Fraction(first);
  const end = new Fraction(last);
  const holdUntil = (to: Fraction) => {
    if (to.gt(until)) cells.push({ from: until, to, begins: true, ends: true });
  };
  for (const move of moves) {
    const to = moveEnd(move);
    const [begins, ends] = [move.at.gte(first), to.lte(end)];
    holdUntil(move.at);
    cells.push({ move, from: begins ? move.at : new Fraction(first), to: ends ? to : end, begins, ends });
    until = to;
  }
  holdUntil(end);
  return cells;
}

/**
 * The part of a phrase that some of its counts make up, as where a long one takes two rows.
 *
 * @param from which of its counts is the first, from 0
 * @param to the count after the last
 */
export function partOf(charted: ChartPhrase, section: DancedSection, from: number, to: number): ChartPhrase {
  const { phrase } = charted;
  const { say: called, ...rest } = phrase;
  const say = called?.slice(from, to) ?? [];
  const at = phrase.at + from;
  const end = phrase.at + Math.min(to, phrase.numbers.length);
  const earlier = charted.cells.findLast(({ move, to: until }) => move !== undefined && until.lte(at));
  const cells = charted.cells.flatMap((cell): readonly Cell[] => {
    if (cell.to.lte(at) || cell.from.gte(end)) return [];
    const [early, late] = [cell.from.lt(at), cell.to.gt(end)];
    return [
      {
        ...cell,
        from: early ? new Fraction(at) : cell.from,
        to: late ? new Fraction(end) : cell.to,
        begins: cell.begins && !early,
        ends: cell.ends && !late,
      },
    ];
  });
  const goesOn = cells.find(({ begins }) => !begins);
  return {
    section: charted.section,
    phrase: { ...rest, at, numbers: phrase.numbers.slice(from, to), ...(say.length > 0 && { say }) },
    start: countStart(section, at),
    length: end - at,
    stance: goesOn?.move?.before ?? earlier?.move?.after ?? charted.stance,
    cells,
  };
}

/** A move and who dances it. */
export interface GroupMove {
  readonly move: Move;
  /** Absent where everybody dances it. */
  readonly group?: string;
}

/** The moves of all dancers in order; what all of them dance on the same counts stands there once. */
export function movesOfAll(all: readonly Dancers[]): readonly GroupMove[] {
  const dancedBy = new Map<string, number>();
  for (const { moves } of all)
    for (const move of moves) dancedBy.set(sameness(move), (dancedBy.get(sameness(move)) ?? 0) + 1);
  return all
    .flatMap(({ group, moves }, index) =>
      moves.flatMap((move): readonly GroupMove[] => {
        if (group === undefined || dancedBy.get(sameness(move)) === all.length) return index === 0 ? [{ move }] : [];
        return [{ move, group }];
      }),
    )
    .sort((a, b) => a.move.at.compare(b.move.at));
}

function sameness({ at, length, cue }: Move): string {
  return `${at.toFraction()} ${length.toFraction()} ${cue.text}`;
}

/** Where a move ends, in counts from the routine's first. */
export function moveEnd({ at, length }: Pick<Move, "at" | "length">): Fraction {
  return at.add(length);
}

/** The count after a phrase's last. */
export function phraseEnd({ at, numbers }: Pick<DancedPhrase, "at" | "numbers">): number {
  return at + numbers.length;
}

/**
 * The counts of a run that lie between two positions, as an author would write them by the room's numbers: "3&-4".
 *
 * @param from a position in the phrase
 * @param to where it ends; in a later phrase where it runs on
 */
export function countsBetween(
  { sections }: Pick<Routine, "sections">,
  { phrase }: Pick<ChartPhrase, "phrase">,
  from: Fraction,
  to: Fraction,
): string {
  const first = pointText(nearestPoint(phrase, from));
  if (to.sub(from).lte(1)) return first;
  const final = to.ceil().sub(1);
  const last = final.lt(phraseEnd(phrase)) ? phrase : (phraseAt(sections, final) ?? phrase);
  // Both ends, though their numbers may be the same: from 7 to 7 of the next phrase.
  return `${first}-${pointText(nearestPoint(last, final))}`;
}

function phraseAt(sections: readonly DancedSection[], count: Fraction): DancedPhrase | undefined {
  return sections.flatMap(({ phrases }) => phrases).findLast(({ at }) => count.gte(at));
}
