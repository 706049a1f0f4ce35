import Fraction from "fraction.js";
import type { DancedPhrase, DancedSection, Move, Routine, Version } from "../../routine/routine.js";
import { type SheetSection, sheetSections } from "../../routine/sheet.js";
import type { Facing } from "../../routine/words.js";
import { trackText, trackTime } from "../figures.js";

/** A move, or the part of it that lies in one phrase, in counts from the phrase's first. */
export interface Cell {
  readonly move: Move;
  readonly from: number;
  readonly to: number;
  /** False where it goes on from the phrase before. */
  readonly begins: boolean;
  /** False where it runs on into the next phrase. */
  readonly ends: boolean;
}

/** A phrase as a row of the grid. */
export interface Row {
  readonly phrase: DancedPhrase;
  /** Seconds into the track. */
  readonly time: Fraction;
  /** Facing at its first count. */
  readonly facing: Facing;
  /** Columns of the grid in this row, and how many of them stay empty on the left (before a pick-up). */
  readonly columns: number;
  readonly offset: number;
  /** Which of its counts, from 0, are accents. */
  readonly accents: readonly number[];
  readonly cells: readonly Cell[];
}

/** A section as the sheet prints it: once, with word of when it is danced again. */
export interface Band {
  /** From 1, in the order of the sheet. */
  readonly number: number;
  readonly entry: SheetSection;
  readonly section: DancedSection;
  readonly again: string;
  readonly rows: readonly Row[];
}

/** Everything that the count grid of a version shows, in order. */
export function sheetBands(routine: Routine, version: Version): readonly Band[] {
  return sheetSections(routine).flatMap((entry, index): readonly Band[] => {
    const section = routine.sections[entry.section];
    if (section === undefined) return [];
    const rows = section.phrases.flatMap(rowPhrases).map((phrase) => rowOf(routine, version, section, phrase));
    return [{ number: index + 1, entry, section, again: againText(routine, entry), rows }];
  });
}

/** Most counts that a sheet of paper has columns for. */
const mostColumns = 16;

/** A phrase longer than a sheet is wide takes several rows of about the same length. */
function rowPhrases(phrase: DancedPhrase): readonly DancedPhrase[] {
  const rows = Math.ceil(phrase.numbers.length / mostColumns);
  const size = Math.ceil(phrase.numbers.length / rows);
  return Array.from({ length: rows }, (_, index): DancedPhrase => {
    const [from, to] = [index * size, (index + 1) * size];
    const { say: called, ...rest } = phrase;
    const say = called?.slice(from, to);
    return {
      ...rest,
      at: phrase.at + from,
      numbers: phrase.numbers.slice(from, to),
      ...(say === undefined || say.length === 0 ? {} : { say }),
    };
  });
}

function rowOf(routine: Routine, version: Version, section: DancedSection, phrase: DancedPhrase): Row {
  const time = section.start.add(new Fraction(phrase.at - section.at).mul(60).div(section.countsPerMinute));
  const next = version.moves.find((move) => move.at.add(move.length).compare(phrase.at) > 0);
  return {
    phrase,
    time: trackTime(routine, time),
    facing: (next?.before ?? version.end).facing,
    ...columnsOf(phrase, Math.min(routine.music.phrase, mostColumns)),
    accents: phrase.numbers.flatMap((number, index) => (routine.music.accents.includes(number) ? [index] : [])),
    cells: cellsOf(version, phrase),
  };
}

/** A short phrase keeps the columns of a whole one, a pick-up those that its numbers name; any other has its own. */
function columnsOf({ numbers }: DancedPhrase, whole: number): Pick<Row, "columns" | "offset"> {
  const before = (numbers[0] ?? 1) - 1;
  const running = numbers.every((number, index) => number === before + index + 1);
  if (running && before + numbers.length <= whole) return { columns: whole, offset: before };
  return { columns: Math.max(whole, numbers.length), offset: 0 };
}

function cellsOf(version: Version, phrase: DancedPhrase): readonly Cell[] {
  const [first, last] = [phrase.at, phrase.at + phrase.numbers.length];
  return version.moves.flatMap((move): readonly Cell[] => {
    const [from, to] = [move.at.valueOf(), move.at.add(move.length).valueOf()];
    if (to <= first || from >= last) return [];
    return [
      {
        move,
        from: Math.max(from, first) - first,
        to: Math.min(to, last) - first,
        begins: from >= first,
        ends: to <= last,
      },
    ];
  });
}

/** Times that a margin has room to name. */
const fewTimes = 3;

/** "danced twice, again at 1:44.0, wall 2", or nothing where it is danced once. */
function againText(routine: Routine, { section, danced }: SheetSection): string {
  const others = danced.filter((index) => index !== section);
  if (others.length === 0) return "";
  const row = danced.filter((index) => follows(routine, index, section));
  const apart = others.filter((index) => !row.includes(index));
  const times = row.length > 1 ? [`${row.length} × in a row`] : [];
  if (apart.length > fewTimes) return [...times, `danced ${danced.length} × in all`].join(", ");
  const places = apart.map((index) => placeText(routine, index));
  return [...times, ...(places.length > 0 ? [`again ${places.join(", ")}`] : [])].join(", ");
}

/** Whether a pass belongs to the same run of repeats as the printed one. */
function follows(routine: Routine, index: number, printed: number): boolean {
  const [one, other] = [routine.sections[index], routine.sections[printed]];
  return one?.wall === other?.wall && one?.written === other?.written;
}

function placeText(routine: Routine, index: number): string {
  const section = routine.sections[index];
  if (section === undefined) return "";
  const time = trackText(trackTime(routine, section.start));
  return routine.times > 1 ? `${time} (${timeThrough(routine, section.wall)})` : time;
}

/** A time through as dancers name it: a wall where the routine turns to another, otherwise a time. */
export function timeThrough(routine: Routine, number: number): string {
  return routine.walls > 1 ? `wall ${number}` : `time ${number}`;
}
