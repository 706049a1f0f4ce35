import Fraction from "fraction.js";
import { type ChartPhrase, phraseEnd } from "../routine/chart.js";
import type { DancedPhrase, Move, Routine } from "../routine/routine.js";
import type { Height } from "../routine/vocabulary.js";
import { asDancedBefore, type PhraseBefore } from "./danced-before.js";
import { type GroupMoves, loadsOf, within } from "./dancers.js";
import type { RatedMove } from "./difficulty.js";
import { type Chunk, countsTake } from "./material.js";
import { asMarked, unslowedIn, unslowedOptions } from "./never-slowed.js";
import type { optionsBy } from "./options.js";
import type { TeachingSettings } from "./settings.js";

/** A section to be cut. */
export interface Uncut {
  readonly routine: Routine;
  readonly sectionIndex: number;
  /** In order; those of a pick-up that stands as a section before it come first. */
  readonly phrases: readonly ChartPhrase[];
  /** Index of that pick-up's section. */
  readonly pickUp?: number;
  readonly rated: readonly RatedMove[];
  /** What each group dances in the section, and in the pick-up. */
  readonly dancers: readonly (readonly GroupMoves[])[];
  /** What is danced of some phrases in other versions. */
  readonly options: ReturnType<typeof optionsBy>;
  /** Where a phrase was danced before, on this side or the other. */
  readonly before: (phrase: DancedPhrase) => PhraseBefore | undefined;
}

type Cutting = Uncut & { readonly begun: ReturnType<typeof startsOf> };

/** Phrases that are taught in one go. */
interface Cut {
  /** Their first count. */
  readonly from: number;
  readonly phrases: readonly ChartPhrase[];
  readonly counts: number;
  readonly points: number;
  readonly own: boolean;
  readonly before: PhraseBefore | undefined;
}

/** A pick-up leads into what follows: fewer counts than a phrase, and not from count one. */
export function isPickUp({ numbers }: DancedPhrase, { music }: Routine): boolean {
  return numbers.length < music.phrase && numbers[0] !== 1;
}

/**
 * As few chunks as the settings allow, cut between phrases, never within a move. A short phrase (a tag of half a phrase) joins its neighbour,
 * a pick-up always does; what was danced before is one chunk, however long it is.
 */
export function chunksIn(of: Uncut, settings: TeachingSettings): readonly Chunk[] {
  const uncut = { ...of, begun: startsOf(of.dancers.flat()) };
  const cuts: Cut[] = [];
  for (const charted of uncut.phrases) {
    const next = cutOf(uncut, charted, cuts.at(-1));
    const last = cuts.at(-1);
    const goesOn = charted.cells[0]?.begins === false;
    if (last && (goesOn || fits(last, next, uncut.routine, settings))) cuts[cuts.length - 1] = joinedCuts(last, next);
    else cuts.push(next);
  }
  return withoutPickUps(cuts, uncut.routine).map((cut) => chunkOf(uncut, cut));
}

function cutOf({ rated, dancers, before, begun }: Cutting, charted: ChartPhrase, last: Cut | undefined): Cut {
  const { phrase } = charted;
  const points = sum(
    rated.filter((one) => isWithin(begun(one), phrase.at, phraseEnd(phrase))).map((one) => one.points),
  );
  const own = isOwn(dancers, phrase.at, phraseEnd(phrase)) ?? last?.own ?? false;
  return {
    ...{ from: phrase.at, phrases: [charted], counts: phrase.numbers.length, points, own },
    before: before(phrase),
  };
}

function fits(last: Cut, next: Cut, { music }: Routine, settings: TeachingSettings): boolean {
  if (last.own !== next.own) return false;
  const [a, b] = [last.before, next.before];
  if (a || b) return a?.section === b?.section && a?.otherSide === b?.otherSide && a?.pace === b?.pace;
  const length = ({ phrases }: Cut) =>
    sum(phrases.map(({ phrase }) => (phrase.numbers.length * 2 <= music.phrase ? 0 : phrase.numbers.length)));
  return length(last) + length(next) <= settings.chunkCounts && last.points + next.points <= settings.chunkPoints;
}

function joinedCuts(last: Cut, next: Cut): Cut {
  return {
    from: last.from,
    phrases: [...last.phrases, ...next.phrases],
    counts: last.counts + next.counts,
    points: last.points + next.points,
    own: last.own && next.own,
    before: last.before && next.before ? bothBefore(last.before, next.before) : undefined,
  };
}

function bothBefore(last: PhraseBefore, next: PhraseBefore): PhraseBefore {
  return { ...last, phrases: [...new Set([...last.phrases, ...next.phrases])].sort((a, b) => a - b) };
}

/** Nothing but a pick-up is no chunk: it joins what follows it, or, at the end, what is before it. */
function withoutPickUps(cuts: readonly Cut[], routine: Routine): readonly Cut[] {
  const joined: Cut[] = [];
  let leading: Cut | undefined;
  for (const cut of cuts) {
    const whole = leading ? { ...joinedCuts(leading, cut), own: cut.own, before: cut.before } : cut;
    leading = undefined;
    if (cut.phrases.every(({ phrase }) => isPickUp(phrase, routine))) leading = whole;
    else joined.push(whole);
  }
  const last = joined.at(-1);
  if (!leading) return joined;
  return last ? [...joined.slice(0, -1), joinedCuts(last, leading)] : [leading];
}

function chunkOf(uncut: Cutting, { from, phrases, counts, points, own, before }: Cut): Chunk {
  const { routine, sectionIndex, rated, dancers, begun, options } = uncut;
  const section = routine.sections[sectionIndex];
  if (!section) throw new RangeError(`No section ${sectionIndex}`);
  const here = inAll(dancers, from, from + counts);
  const numbers = phrases.filter((one) => one.section === sectionIndex).map(({ phrase }) => phrase.number);
  const shown = [numbers[0] ?? 1, numbers.at(-1) ?? 0] as const;
  const [seconds, countIn] = [countsTake(counts, section), countsTake(routine.music.countIn, section)];
  const led = phrases.some((one) => one.section === uncut.pickUp);
  const pickUp = led ? routine.sections[uncut.pickUp ?? -1] : undefined;
  const shownOptions = options({ section, sectionIndex, phrases: shown, seconds, countIn });
  return {
    ...{ routine, section, sectionIndex, counts, points, dancers: here },
    phrases: shown,
    ...(pickUp !== undefined && { pickUp }),
    ...(before !== undefined && { before: asDancedBefore(before, numbers.length) }),
    moves: rated.filter((one) => isWithin(begun(one), from, from + counts)),
    improvised: own,
    ...{ seconds, countIn, uncounted: new Fraction(0) },
    loads: loadsOf(here),
    slowLoads: loadsOf(asMarked(here)),
    unslowed: [...unslowedIn(here), ...unslowedOptions(shownOptions, here)],
    options: shownOptions,
    floor: here.some(({ taught }) => taught.some(isFloorWork)),
  };
}

/** Time without counts: there is nothing in it to learn in time. */
export function uncountedChunk(routine: Routine, sectionIndex: number, dancers: readonly GroupMoves[]): Chunk {
  const section = routine.sections[sectionIndex];
  const seconds = section?.seconds;
  if (!section || !seconds) throw new RangeError(`No time without counts ${sectionIndex}`);
  return {
    ...{ routine, section, sectionIndex, counts: 0, points: 0, dancers, seconds, uncounted: seconds },
    ...{
      phrases: [1, 0],
      moves: [],
      improvised: false,
      unslowed: [],
      options: [],
      floor: false,
      countIn: new Fraction(0),
    },
    ...{ loads: loadsOf(dancers), slowLoads: loadsOf(dancers) },
  };
}

/** What each group begins on some counts, of a pick-up and of the section that it leads into. */
function inAll(dancers: Uncut["dancers"], from: number, to: number): readonly GroupMoves[] {
  const [first = [], ...others] = dancers.map((those) => within(those, from, to));
  return first.map((group, index) => ({
    ...group,
    taught: [...group.taught, ...others.flatMap((those) => those[index]?.taught ?? [])],
    easiest: [...group.easiest, ...others.flatMap((those) => those[index]?.easiest ?? [])],
    ...(group.offered && { offered: [...group.offered, ...others.flatMap((those) => those[index]?.offered ?? [])] }),
  }));
}

const onTheFloor: readonly (Height | undefined)[] = ["kneeling", "seated", "lying", "inverted"];

/** Weight on more than the feet and the hands, or down there. */
function isFloorWork({ before, after, through, contacts }: Move): boolean {
  return (
    [before.height, after.height, through].some((height) => onTheFloor.includes(height)) ||
    contacts.some((part) => part !== "hands")
  );
}

/** Whether there is nothing to learn on some counts but what everybody improvises; undefined where nothing begins there. */
function isOwn(dancers: Uncut["dancers"], from: number, to: number): boolean | undefined {
  const moves = inAll(dancers, from, to).flatMap(({ taught }) => taught);
  return moves.length === 0 ? undefined : moves.every(({ improvised }) => improvised);
}

/** Where moves begin, in counts, as the first group dances them. */
function startsOf(dancers: readonly GroupMoves[]): (one: RatedMove) => number {
  const later = new Map(dancers.flatMap(({ taught, after }) => taught.map((move) => [move, after] as const)));
  return ({ move }) => move.at.valueOf() - (later.get(move) ?? 0);
}

function isWithin(at: number, from: number, to: number): boolean {
  return at >= from && at < to;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
