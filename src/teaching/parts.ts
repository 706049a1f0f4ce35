import Fraction from "fraction.js";
import { trackTime } from "../routine/clock.js";
import type { DancedSection, Routine } from "../routine/routine.js";
import { type SheetSection, sectionName } from "../routine/sheet.js";
import type { SectionUse } from "./lesson.js";
import { type GroupLoads, plusAll } from "./load.js";
import { countsTake, type Passage, type PieceEntry, type Recap, type RoutinePart, type SongCue } from "./material.js";
import type { Versions } from "./versions.js";

/** A section of a routine's sheet in a class: how the class comes by it, and its chunks in the material. */
export interface Entry {
  readonly sheet: SheetSection;
  readonly use: SectionUse;
  readonly chunks: readonly number[];
}

/** A routine, the sections of it that a class dances, and what each of its danced sections loads. */
export interface Danced {
  readonly routine: Routine;
  readonly versions: Versions;
  readonly entries: readonly Entry[];
  /** Which of them a danced section is, by its index. */
  readonly entryAt: ReadonlyMap<number, number>;
  readonly loads: readonly GroupLoads[];
  readonly slowLoads: readonly GroupLoads[];
}

/** The sections that are taught, each as far as the routine goes then; where none is, one with nothing to teach, to dance what is known. */
export function partsOf(of: Danced): readonly RoutinePart[] {
  const { entries } = of;
  const taught = entries.flatMap(({ use }, entry) => (use === "taught" ? [entry] : []));
  const parts = taught.length > 0 ? taught : entries.slice(-1).map(() => entries.length - 1);
  return parts.map((entry, order) => partOf(of, entry, order === 0, order === parts.length - 1));
}

function partOf(of: Danced, entry: number, first: boolean, last: boolean): RoutinePart {
  const { routine, versions, entries } = of;
  const { sections } = routine;
  const here = entries[entry];
  const begins = here?.sheet.danced[0] ?? 0;
  const section = sections[here?.sheet.section ?? -1];
  if (!here || !section) throw new RangeError(`No section ${entry}`);
  const before = begins === 0 ? undefined : entryAt(of, begins - 1)?.chunks.at(-1);
  const { wall } = sections[begins] ?? section;
  const top = sections.findIndex((one) => one.wall === wall);
  const isDanced = (index: number) => {
    const at = of.entryAt.get(index);
    return at !== undefined && (entries[at]?.use !== "taught" || at <= entry);
  };
  const isLater = (index: number) => !isDanced(index) && entryAt(of, index) !== undefined;
  const endAfter = (from: number, goesOn: (index: number) => boolean) => {
    let end = from + 1;
    while (end < sections.length && !isLater(end) && goesOn(end)) end++;
    return end;
  };
  const wallEnd = endAfter(begins, (index) => sections[index]?.wall === wall);
  const chunksIn = (indexes: readonly number[]) =>
    [...new Set(indexes.map((index) => entryAt(of, index)))].flatMap((one) => one?.chunks ?? []).sort((a, b) => a - b);
  const timesIn = (pieces: readonly (readonly number[])[]) => [
    ...new Set(pieces.flat().flatMap((index) => sections[index]?.wall ?? [])),
  ];
  const once = stretches(top, wallEnd, isDanced);
  const counted = chunksIn(once.flat().filter((index) => sections[index]?.seconds === undefined)).length;
  const all = stretches(
    0,
    endAfter(begins, () => true),
    isDanced,
  );
  // With gaps in it, the song is danced piece by piece, one time through.
  const song = all.length > 1 ? once : all;
  return {
    ...{ routine, section, versions, first, last, known: entries.some(({ use }) => use !== "taught") },
    chunks: here.use === "taught" ? here.chunks : [],
    ...(before !== undefined && { after: before }),
    fromTheTop: { ...passageOf(of, once, onCounts), chunks: chunksIn(once.flat()), times: timesIn(once), counted },
    withSong: {
      ...{ ...passageOf(of, song, onTheClock), chunks: chunksIn(song.flat()) },
      ...{ pieces: song.length, times: timesIn(song) },
      cues: song.flatMap(([first = 0]) => (first === 0 ? [] : songCue(routine, first))),
    },
  };
}

/** What a class goes through again before anything new of a routine: every recalled section once. */
export function recapOf(of: Danced): Recap | undefined {
  const recalled = of.entries.filter(({ use }) => use === "recalled");
  if (recalled.length === 0) return undefined;
  const firsts = new Set(recalled.map(({ sheet }) => sheet.section));
  const pieces = stretches(0, of.routine.sections.length, (index) => firsts.has(index));
  return {
    ...{ routine: of.routine, versions: of.versions },
    ...{ ...passageOf(of, pieces, onCounts), chunks: recalled.flatMap(({ chunks }) => chunks) },
    entries: pieces.slice(1).flatMap(([first]) => entryOf(of, first ?? 0)),
  };
}

function songCue(routine: Routine, index: number): readonly SongCue[] {
  const section = routine.sections[index];
  if (!section) return [];
  const at = trackTime(routine, section.start)?.valueOf();
  return [{ ...sectionName(routine, section), ...(at !== undefined && { at }) }];
}

/** How the first group stands where a section begins. */
function entryOf({ routine, versions }: Danced, index: number): readonly PieceEntry[] {
  const section = routine.sections[index];
  if (!section) return [];
  const { moves, start } = versions.taught;
  const before = moves.findLast(({ at }) => at.lt(section.at));
  return [{ ...sectionName(routine, section), stance: before?.after ?? start }];
}

function entryAt({ entries, entryAt: at }: Danced, index: number): Entry | undefined {
  return entries[at.get(index) ?? -1];
}

/** Indexes of danced sections that follow each other, from one up to, not including, another; what is left out divides them. */
function stretches(from: number, to: number, isDanced: (index: number) => boolean): readonly (readonly number[])[] {
  const found: number[][] = [];
  for (let index = from; index < to; index++) {
    if (!isDanced(index)) continue;
    const last = found.at(-1);
    if (last?.at(-1) === index - 1) last.push(index);
    else found.push([index]);
  }
  return found;
}

type Lasting = (sections: readonly DancedSection[]) => Fraction;

const onCounts: Lasting = (sections) =>
  sections.reduce((sum, section) => sum.add(section.seconds ?? countsTake(section.counts, section)), new Fraction(0));

/** With the waits for the track. */
const onTheClock: Lasting = (sections) => (sections.at(-1)?.end ?? new Fraction(0)).sub(sections[0]?.start ?? 0);

/** Some stretches of a routine one after the other, each with a count-in of its own. */
function passageOf(
  { routine, loads, slowLoads }: Danced,
  pieces: readonly (readonly number[])[],
  lasting: Lasting,
): Passage {
  const sum = (numbers: readonly Fraction[]) => numbers.reduce((total, one) => total.add(one), new Fraction(0));
  const sections = pieces.map((piece) => piece.flatMap((index) => routine.sections[index] ?? []));
  return {
    seconds: sum(sections.map(lasting)),
    uncounted: sum(sections.flat().map(({ seconds }) => seconds ?? new Fraction(0))),
    countIn: sum(sections.flatMap(([first]) => (first ? [countsTake(routine.music.countIn, first)] : []))),
    loads: sumOf(loads, pieces.flat()),
    slowLoads: sumOf(slowLoads, pieces.flat()),
  };
}

function sumOf(loads: readonly GroupLoads[], sections: readonly number[]): GroupLoads {
  const none: GroupLoads = (loads[0] ?? []).map(() => ({ easiest: {}, taught: {} }));
  return sections.reduce((total, index) => plusAll(total, loads[index] ?? []), none);
}
