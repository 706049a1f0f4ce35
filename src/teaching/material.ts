import Fraction from "fraction.js";
import { type ChartPhrase, chart, phraseEnd } from "../routine/chart.js";
import { countSeconds } from "../routine/clock.js";
import type { DancedSection, Routine } from "../routine/routine.js";
import { type DancedName, type SheetSection, sectionName, sheetSections } from "../routine/sheet.js";
import { type GroupMoves, learnt, loadsOf, movesBySection, within } from "./dancers.js";
import { type RatedMove, rateMoves } from "./difficulty.js";
import { type GroupLoads, plusAll } from "./load.js";
import type { TeachingSettings } from "./settings.js";
import { type Versions, versionsFor } from "./versions.js";

/** Dancing that can be asked for at any speed. */
export interface Passage {
  /** Seconds at full tempo, without count-in. */
  readonly seconds: Fraction;
  /** Of those, seconds without counts, which last as long at any speed. */
  readonly uncounted: Fraction;
  /** Seconds that the count-in takes at full tempo. */
  readonly countIn: Fraction;
  readonly loads: GroupLoads;
}

/** What is taught in one go: some phrases of a section. */
export interface Chunk extends Passage {
  readonly routine: Routine;
  readonly section: DancedSection;
  /** Index of that section in the routine's list. */
  readonly sectionIndex: number;
  /** Numbers of the first and the last phrase, from 1 within the section. */
  readonly phrases: readonly [from: number, to: number];
  readonly counts: number;
  /** What there is to learn at the taught level, and what each group dances. */
  readonly moves: readonly RatedMove[];
  readonly dancers: readonly GroupMoves[];
  /** How hard it is to learn. */
  readonly points: number;
  /** All of it is the dancers' own: explained, and danced with the rest. */
  readonly improvised: boolean;
}

/** A section as it is taught: once for all the times that it is danced alike. */
export interface RoutinePart {
  readonly routine: Routine;
  readonly section: DancedSection;
  readonly versions: Versions;
  readonly first: boolean;
  /** True of the routine's last part. */
  readonly last: boolean;
  /** Indexes into the material's chunks. */
  readonly chunks: readonly number[];
  /** The chunk that is danced just before this part's first, and stands earlier in the material. */
  readonly after?: number;
  /** From the top of that time through to the end of this part, over parts that are taught by then. */
  readonly fromTheTop: Passage & { readonly chunks: readonly number[] };
  /** The routine from its first count, as far as it is taught after this part, on the track's clock. */
  readonly withSong: Passage & { readonly chunks: readonly number[] };
}

/** Everything that a class teaches, in its order. */
export interface Material {
  readonly parts: readonly RoutinePart[];
  readonly chunks: readonly Chunk[];
}

/** Two chunks without a stop. */
export function joined(before: Chunk, chunk: Chunk): Passage {
  return {
    seconds: before.seconds.add(chunk.seconds),
    uncounted: before.uncounted.add(chunk.uncounted),
    countIn: before.countIn,
    loads: plusAll(before.loads, chunk.loads),
  };
}

/** What a chunk is called. */
export function nameOf({ routine, section, phrases }: Chunk): DancedName {
  const [from, to] = phrases;
  const whole = from === 1 && to === section.phrases.length;
  return { ...sectionName(routine, section), ...(!whole && { phrases }), phrase: routine.music.phrase };
}

export function materialOf(routines: readonly Routine[], level: string, settings: TeachingSettings): Material {
  const parts: RoutinePart[] = [];
  const chunks: Chunk[] = [];
  let met: ReadonlySet<string> = new Set();
  for (const routine of routines) {
    const versions = versionsFor(routine, level);
    const moves = movesBySection(routine, versions);
    const charted = chart(routine, versions.taught);
    // There is nothing to teach in time without counts; it is waited for wherever a run comes by it.
    const sheet = sheetSections(routine).filter(({ section }) => routine.sections[section]?.seconds === undefined);
    const chunksOf: (readonly number[])[] = [];
    for (const entry of sheet) {
      const dancers = moves[entry.section] ?? [];
      const rating = rateMoves(learnt(dancers), settings.points, met);
      met = rating.met;
      const cut = chunksIn(
        routine,
        entry.section,
        charted.filter(({ section }) => section === entry.section),
        rating.rated,
        dancers,
        settings,
      );
      chunksOf.push(cut.map((_, index) => chunks.length + index));
      chunks.push(...cut);
    }
    parts.push(...partsOf(routine, versions, sheet, chunksOf, moves.map(loadsOf)));
  }
  return { parts, chunks };
}

/* Chunks */

/** As few chunks as the settings allow, cut between phrases, never within a move. A short phrase (a pick-up, a tag) joins its neighbour. */
function chunksIn(
  routine: Routine,
  sectionIndex: number,
  charted: readonly ChartPhrase[],
  rated: readonly RatedMove[],
  dancers: readonly GroupMoves[],
  settings: TeachingSettings,
): readonly Chunk[] {
  const section = routine.sections[sectionIndex];
  if (!section) return [];
  const groups: { from: number; to: number; counts: number; length: number; points: number; own: boolean }[] = [];
  const begun = startsOf(dancers);
  for (const { phrase, cells } of charted) {
    const inPhrase = (one: RatedMove) => isWithin(begun(one), phrase.at, phraseEnd(phrase));
    const points = sum(rated.filter(inPhrase).map((move) => move.points));
    const counts = phrase.numbers.length;
    const length = counts < routine.music.phrase ? 0 : counts;
    const group = groups.at(-1);
    const joined = cells[0]?.begins === false;
    const own = isOwn(dancers, phrase.at, phraseEnd(phrase)) ?? groups.at(-1)?.own ?? false;
    const fits =
      group &&
      group.own === own &&
      group.length + length <= settings.chunkCounts &&
      group.points + points <= settings.chunkPoints;
    if (group && (joined || fits)) {
      group.to = phrase.number;
      group.counts += counts;
      group.length += length;
      group.points += points;
      group.own &&= own;
    } else groups.push({ from: phrase.at, to: phrase.number, counts, length, points, own });
  }
  return groups.map(({ from: first, to, counts, points, own }, index) => {
    const from = (groups[index - 1]?.to ?? 0) + 1;
    const moves = rated.filter((one) => isWithin(begun(one), first, first + counts));
    const here = within(dancers, first, first + counts);
    return {
      ...{ routine, section, sectionIndex, phrases: [from, to] as const, counts, moves, dancers: here, points },
      improvised: own,
      seconds: countsTake(counts, section),
      uncounted: new Fraction(0),
      countIn: countsTake(routine.music.countIn, section),
      loads: loadsOf(here),
    };
  });
}

/** Whether there is nothing to learn on some counts but what everybody improvises; undefined where nothing begins there. */
function isOwn(dancers: readonly GroupMoves[], from: number, to: number): boolean | undefined {
  const moves = within(dancers, from, to).flatMap(({ taught }) => taught);
  return moves.length === 0 ? undefined : moves.every(({ improvised }) => improvised);
}

/** Where a move stands in the material: of a group in canon, where the first group danced it. */
function startsOf(dancers: readonly GroupMoves[]): (one: RatedMove) => Fraction {
  const later = new Map(dancers.flatMap(({ taught, after }) => taught.map((move) => [move, after] as const)));
  return ({ move }) => move.at.sub(later.get(move) ?? 0);
}

function isWithin(at: Fraction, from: number, to: number): boolean {
  return at.gte(from) && at.lt(to);
}

/** Seconds that some counts take at the section's tempo. */
export function countsTake(counts: number | Fraction, section: DancedSection): Fraction {
  return countSeconds(section.countsPerMinute).mul(counts);
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}

/* Parts */

function partsOf(
  routine: Routine,
  versions: Versions,
  sheet: readonly SheetSection[],
  chunksOf: readonly (readonly number[])[],
  loads: readonly GroupLoads[],
): readonly RoutinePart[] {
  const { sections } = routine;
  const entryOf = new Map(sheet.flatMap(({ danced }, entry) => danced.map((index) => [index, entry] as const)));
  const entryAt = (index: number) => entryOf.get(index) ?? (sections[index] ? -1 : Number.POSITIVE_INFINITY);
  const sums = runningSums(sections, loads);
  const upTo = (entry: number) => chunksOf.slice(0, entry + 1).flat();

  return sheet.flatMap((_, entry): RoutinePart[] => {
    const first = sections.findIndex((__, index) => entryAt(index) === entry);
    const section = sections[first];
    if (!section) return [];
    const before = first === 0 ? undefined : chunksOf[entryAt(first - 1)]?.at(-1);
    const top = sections.findIndex(({ wall }) => wall === section.wall);
    let end = first + 1;
    while (sections[end]?.wall === section.wall && entryAt(end) <= entry) end++;
    let known = end;
    while (known < sections.length && entryAt(known) <= entry) known++;
    const entriesDanced = new Set(sections.slice(top, end).map((__, index) => entryAt(top + index)));
    const countIn = (from: DancedSection) => countsTake(routine.music.countIn, from);
    return [
      {
        ...{ routine, section, versions, first: entry === 0, last: entry === sheet.length - 1 },
        chunks: chunksOf[entry] ?? [],
        ...(before !== undefined && { after: before }),
        fromTheTop: {
          ...between(sums, top, end),
          countIn: countIn(sections[top] ?? section),
          chunks: [...entriesDanced].sort((a, b) => a - b).flatMap((each) => chunksOf[each] ?? []),
        },
        withSong: {
          ...between(sums, 0, known),
          seconds: (sections[known - 1]?.end ?? new Fraction(0)).sub(sections[0]?.start ?? 0),
          countIn: countIn(sections[0] ?? section),
          chunks: upTo(entry),
        },
      },
    ];
  });
}

type Sums = readonly Pick<Passage, "seconds" | "uncounted" | "loads">[];

/** Of the first n danced sections, for every n. */
function runningSums(sections: readonly DancedSection[], loads: readonly GroupLoads[]): Sums {
  const none: GroupLoads = (loads[0] ?? []).map(() => ({ easiest: {}, taught: {} }));
  const sums = [{ seconds: new Fraction(0), uncounted: new Fraction(0), loads: none }];
  sections.forEach((section, index) => {
    const last = sums[index];
    if (!last) return;
    sums.push({
      seconds: last.seconds.add(section.seconds ?? countsTake(section.counts, section)),
      uncounted: last.uncounted.add(section.seconds ?? 0),
      loads: plusAll(last.loads, loads[index] ?? []),
    });
  });
  return sums;
}

function between(sums: Sums, from: number, to: number): Sums[number] {
  const [start, end] = [sums[from], sums[to]];
  if (!start || !end) throw new RangeError(`No sections from ${from} to ${to}`);
  const uncounted = end.uncounted.sub(start.uncounted);
  return { seconds: end.seconds.sub(start.seconds), uncounted, loads: plusAll(end.loads, start.loads, -1) };
}
