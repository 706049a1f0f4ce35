import Fraction from "fraction.js";
import { type ChartPhrase, chart, type Dancers, dancersOf, partOf } from "../../routine/chart.js";
import { type ShownTime, shownTrackTime } from "../../routine/clock.js";
import { definedOnly } from "../../routine/defined-only.js";
import type { DancedPhrase, DancedSection, Move, Routine, Version } from "../../routine/routine.js";
import { type SheetSection, sheetSections } from "../../routine/sheet.js";
import type { Facing } from "../../routine/vocabulary.js";
import { oppositeGroups } from "../../routine/whose.js";
import type { Wording } from "../../wording/wording.js";
import { type CellText, cellText } from "./cell-text.js";
import { musicSpan } from "./music-span.js";

/** A move, or the part of it that lies in one phrase, in counts from the phrase's first. */
export interface GridCell {
  readonly move: Move;
  readonly from: number;
  readonly to: number;
  /** False where it goes on from the phrase before. */
  readonly begins: boolean;
  /** False where it runs on into the next phrase. */
  readonly ends: boolean;
  /** Where it leads them to face, where that is elsewhere than before and one thing for all who dance the row. */
  readonly turned?: Facing;
  readonly text: CellText;
}

/** Which way a group faces. */
export interface GroupFacing {
  readonly group: string;
  readonly facing: Facing;
}

/** A phrase as a row of the grid. */
export interface Row {
  readonly phrase: DancedPhrase;
  /** Where its first count falls in the track. */
  readonly time?: ShownTime;
  /** Facing at its first count. */
  readonly facing: Facing;
  /** Columns of the grid in this row, and how many of them stay empty on the left (before a pick-up). */
  readonly columns: number;
  readonly offset: number;
  /** Which of its counts, from 0, are accents. */
  readonly accents: readonly number[];
  readonly cells: readonly GridCell[];
  /** The group that dances it, where not all dance the same. */
  readonly dancers?: string;
  /** True of a group's row where another group faces elsewhere on these counts, so that each row says its facing. */
  readonly facesApart: boolean;
  /** Who faces where at its first count, of a row that all groups dance but not all the same way round. */
  readonly facings?: readonly GroupFacing[];
  /** What stands there in place of counts, where there are none. */
  readonly uncounted?: string;
}

/** A section as the sheet prints it: once, with word of when it is danced again. */
export interface Band {
  /** From 1, in the order of the sheet. */
  readonly number: number;
  readonly entry: SheetSection;
  readonly section: DancedSection;
  readonly again: string;
  /** Who follows in canon; on a group's own sheet, that it waits. */
  readonly canon: readonly string[];
  /** Whether everybody dances its rows, where other sections have rows for each group. */
  readonly everybody: boolean;
  /** Whether counts of a group's own stand behind the music's. */
  readonly late: boolean;
  readonly rows: readonly Row[];
}

/** Everything that the count grid of a version shows, in order. */
export function sheetBands(routine: Routine, version: Version, wording: Wording): readonly Band[] {
  const all = dancersOf(routine, version);
  const charts = all.map(({ group, ...dancers }): DancersChart => {
    const phrases = chart(routine, dancers);
    return { group, phrases: new Map(phrases.map((charted) => [charted.phrase, charted])) };
  });
  const bands = sheetSections(routine).flatMap((entry, index): readonly Omit<Band, "everybody">[] => {
    const section = routine.sections[entry.section];
    if (section === undefined) return [];
    if (section.seconds !== undefined) {
      const rows = [uncountedRow(routine, version, section, wording)];
      return [
        { number: index + 1, entry, section, again: againText(routine, entry, wording), canon: [], late: false, rows },
      ];
    }
    const rows = section.phrases.flatMap((phrase) =>
      rowRanges(phrase).flatMap(([from, to]) => {
        const rows = rowsApart(charts, section, phrase.echo).flatMap(({ phrases, group }) => {
          const charted = phrases.get(phrase);
          if (charted === undefined) return [];
          const facings = group === undefined && !phrase.echo ? facingsApart(charts, section, phrase, from, to) : [];
          return [rowOf(routine, partOf(charted, section, from, to), { group, facings }, wording)];
        });
        const firsts = phrase.echo ? charts[0]?.phrases.get(phrase)?.stance.facing : rows[0]?.facing;
        const facesApart = rows.some(({ facing, dancers }) => dancers !== undefined && facing !== firsts);
        return rows.map((row): Row => ({ ...row, facesApart }));
      }),
    );
    const late = rows.some(({ cells }) => cells.some(({ text }) => text.late !== undefined));
    const canon = canonTexts(routine, all, entry.section, wording);
    return [{ number: index + 1, entry, section, again: againText(routine, entry, wording), canon, late, rows }];
  });
  const apart = bands.some(({ rows }) => rows.some(({ dancers }) => dancers !== undefined));
  return bands.map((band) => ({ ...band, everybody: apart && isForEverybody(band) }));
}

function isForEverybody({ canon, rows }: Pick<Band, "canon" | "rows">): boolean {
  const says = ({ dancers, facings, uncounted }: Row) => dancers ?? facings ?? uncounted;
  return canon.length === 0 && rows.every((row) => says(row) === undefined);
}

/** What the line of a section says of those who dance its counts later. */
export function canonFacts({ canon, late }: Band, { print }: Wording): readonly string[] {
  return [...canon, ...(late ? [print.ownCounts] : [])];
}

/** Who follows in canon, each as it stands when it begins. */
function canonTexts(routine: Routine, all: readonly Dancers[], index: number, { print }: Wording): readonly string[] {
  const section = routine.sections[index];
  if (section === undefined || section.canon.length === 0) return [];
  const [number = 1] = section.phrases[0]?.numbers ?? [];
  if (routine.groups.length === 0) return section.canon.map(({ after }) => print.ownCanon(after, number));
  const across = oppositeGroups(routine);
  const facingOf = (dancers: Dancers | undefined) =>
    dancers?.moves.find(({ section }) => section === index)?.before.facing;
  const first = facingOf(all[0]);
  return section.canon.map(({ group, after }) => {
    const facing = facingOf(all.find((one) => one.group === group));
    return print.canon(group, after, across.has(group), facing === first ? undefined : facing);
  });
}

/** Most counts that a sheet of paper has columns for. */
const mostColumns = 16;

/** A phrase longer than a sheet is wide takes several rows of about the same length. */
function rowRanges({ numbers }: DancedPhrase): readonly (readonly [from: number, to: number])[] {
  const rows = Math.ceil(numbers.length / mostColumns);
  const size = Math.ceil(numbers.length / rows);
  return Array.from({ length: rows }, (_, index) => [index * size, (index + 1) * size] as const);
}

/** What some dancers do in every phrase of the run. */
interface DancersChart {
  /** Absent where the row needs no name. */
  readonly group: string | undefined;
  readonly phrases: ReadonlyMap<DancedPhrase, ChartPhrase>;
}

/** A row for everybody, or one for each group whose counts differ; where only a canon is left, for the groups in it. */
function rowsApart(
  [first, ...others]: readonly DancersChart[],
  { canon, parts }: DancedSection,
  echo: boolean,
): readonly DancersChart[] {
  const names = echo ? canon.map(({ group }) => group) : parts;
  const apart = others.filter(({ group }) => group !== undefined && names.includes(group));
  if (echo && apart.length > 0) return apart;
  return first === undefined ? [] : [apart.length > 0 ? first : { ...first, group: undefined }, ...apart];
}

/** Who faces where on counts that all dance alike; empty where it is the same for all. Who follows in canon is elsewhere in the dance. */
function facingsApart(
  charts: readonly DancersChart[],
  section: DancedSection,
  phrase: DancedPhrase,
  from: number,
  to: number,
): readonly GroupFacing[] {
  const all = charts.flatMap(({ group, phrases }): readonly GroupFacing[] => {
    const charted = phrases.get(phrase);
    if (group === undefined || charted === undefined || section.canon.some((one) => one.group === group)) return [];
    return [{ group, facing: partOf(charted, section, from, to).stance.facing }];
  });
  return all.some(({ facing }) => facing !== all[0]?.facing) ? all : [];
}

function rowOf(
  routine: Routine,
  { phrase, start, stance, cells }: ChartPhrase,
  { group: dancers, facings }: { readonly group: string | undefined; readonly facings: readonly GroupFacing[] },
  wording: Wording,
): Row {
  const shared = { facing: stance.facing, facesApart: false, ...(facings.length > 0 && { facings }) };
  const named = definedOnly<Pick<Row, "time" | "dancers">>({ time: shownTrackTime(routine, start), dancers });
  if (phrase.echo && cells.every(({ move }) => move === undefined))
    return { ...emptyRow(routine, phrase, wording.print.othersFinish), ...shared, ...named };
  return {
    phrase,
    ...shared,
    ...columnsOf(phrase, Math.min(routine.music.phrase, mostColumns)),
    accents: phrase.numbers.flatMap((number, index) => (routine.music.accents.includes(number) ? [index] : [])),
    cells: cells.flatMap(({ move, begins, ends, ...cell }): readonly GridCell[] => {
      if (move === undefined) return [];
      const [from, to] = [cell.from.sub(phrase.at).valueOf(), cell.to.sub(phrase.at).valueOf()];
      const turns = ends && facings.length === 0 && move.after.facing !== move.before.facing;
      const turned = turns ? { turned: move.after.facing } : {};
      const music = musicSpan(move.on, phrase.numbers, { from, to, begins, ends });
      const text = cellText(move, { begins, ...turned, ...(music !== undefined && { music }) }, wording);
      return [{ move, from, to, begins, ends, ...turned, text }];
    }),
    ...named,
  };
}

/** A row with a text in place of counts. */
function emptyRow(
  { music }: Routine,
  phrase: DancedPhrase,
  uncounted: string,
): Pick<Row, "phrase" | "columns" | "offset" | "accents" | "cells"> & { readonly uncounted: string } {
  return {
    phrase: { ...phrase, numbers: [] },
    columns: Math.min(music.phrase, mostColumns),
    ...{ offset: 0, accents: [], cells: [] },
    uncounted,
  };
}

/** The one row of time without counts. */
function uncountedRow(routine: Routine, version: Version, section: DancedSection, { print }: Wording): Row {
  const before = version.moves.findLast(({ at }) => at.lt(section.at));
  const { place, at, feel, seconds = new Fraction(0) } = section;
  return {
    ...emptyRow(routine, { place, number: 1, at, numbers: [], feel, echo: false }, print.uncounted(seconds.valueOf())),
    facing: (before?.after ?? version.start).facing,
    facesApart: false,
    ...definedOnly<Pick<Row, "time">>({ time: shownTrackTime(routine, section.start) }),
  };
}

/** A short phrase keeps the columns of a whole one, a pick-up those that its numbers name; any other has its own. */
function columnsOf({ numbers }: DancedPhrase, whole: number): Pick<Row, "columns" | "offset"> {
  const before = (numbers[0] ?? 1) - 1;
  const running = numbers.every((number, index) => number === before + index + 1);
  if (running && before + numbers.length <= whole) return { columns: whole, offset: before };
  return { columns: Math.max(whole, numbers.length), offset: 0 };
}

/** Times that a margin has room to name. */
const fewTimes = 3;

/** "2 × in a row", "every wall", "again at 1:44.0", or nothing where it is danced once. */
function againText(routine: Routine, { section, danced }: SheetSection, wording: Wording): string {
  const row = danced.filter((index) => follows(routine, index, section));
  return [
    ...(row.length > 1 ? [wording.print.inARow(row.length)] : []),
    ...(routine.times > 1 ? [roundsText(routine, danced, wording)] : apartText(routine, danced, row, wording)),
  ].join(", ");
}

/** On which times through it is danced. */
function roundsText(routine: Routine, danced: readonly number[], { print }: Wording): string {
  const rounds = [...new Set(danced.map((index) => routine.sections[index]?.wall ?? 1))];
  return rounds.length === routine.times ? print.everyTime(routine.walls) : print.onlyTimes(routine.walls, rounds);
}

/** When else it is danced in the one time through. */
function apartText(
  routine: Routine,
  danced: readonly number[],
  row: readonly number[],
  { print, time }: Wording,
): readonly string[] {
  const apart = danced.filter((index) => !row.includes(index));
  if (apart.length > fewTimes) return [print.inAll(danced.length)];
  const starts = apart.flatMap((index) => {
    const start = routine.sections[index]?.start;
    const shown = start && shownTrackTime(routine, start);
    return shown === undefined ? [] : [time.track(shown)];
  });
  if (starts.length > 0) return [print.againAt(starts)];
  return apart.length > 0 ? [print.inAll(danced.length)] : [];
}

/** Whether a pass belongs to the same run of repeats as the printed one. */
function follows(routine: Routine, index: number, printed: number): boolean {
  const [one, other] = [routine.sections[index], routine.sections[printed]];
  return one?.wall === other?.wall && one?.written === other?.written;
}
