import type { Routine } from "../../routine/routine.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import type { Wording } from "../../wording/wording.js";
import type { Band, Row } from "./bands.js";
import { smallest } from "./cell.js";
import { type Columns, evenColumns, fittedColumns, phraseColumn } from "./columns.js";
import { drawGrid } from "./grid-draw.js";
import { type GridFrame, type GridItem, type Numerals, numeralStripHeight } from "./grid-items.js";
import type { OptionsOf } from "./options.js";
import { layoutRow, namedBeside, type RowLayout } from "./row.js";
import { continuedBar, type SectionBar, sectionBar } from "./section-bar.js";

/** A grid on paper. */
export interface Grid {
  /** Where it ends. */
  readonly page: number;
  readonly y: number;
  /** Where each band begins, for bookmarks. */
  readonly bands: readonly (Pick<Position, "page" | "y"> & { readonly name: string })[];
  readonly draw: () => { readonly elements: readonly StructureElement[]; readonly decoration: readonly Mark[] };
}

const gap = 3;

/** Rows of a band under the same numerals. */
interface RowGroup {
  readonly numerals: Numerals;
  readonly rows: readonly RowLayout[];
}

/** A band of the grid, set but not yet put on a page. */
export interface SetBand {
  readonly band: Band;
  readonly groups: readonly RowGroup[];
  readonly bar: SectionBar;
  readonly continued: SectionBar;
  readonly numbered: boolean;
}

/** Where a grid has got to. */
interface GridCursor {
  page: number;
  y: number;
  numerals?: Numerals;
  readonly items: GridItem[];
}

/** What a grid is set in: cues in `size` points, all of it `width` points wide. */
interface GridStyle {
  readonly size: number;
  readonly width: number;
  readonly wording: Wording;
  readonly optionsOf: OptionsOf;
  /** Whether counts with more to say are wider. */
  readonly fitted: boolean;
}

/** Sets bands; what they take of the paper is for `placeGrid` to say. */
export function setGrid(routine: Routine, bands: readonly Band[], style: GridStyle): readonly SetBand[] {
  const columnsOf = columnsFor(bands, style);
  return bands.map((band) => ({
    band,
    groups: groupsOf(band, routine, style, columnsOf),
    bar: sectionBar(band, routine, style.width, style.wording),
    continued: continuedBar(band, style.width, style.wording),
    numbered: band.rows.some(({ phrase }) => phrase.number > 1),
  }));
}

/** Where the columns lie, for rows of so many. */
function columnsFor(bands: readonly Band[], { width, fitted }: GridStyle): (columns: number) => Columns {
  const room = width - phraseColumn;
  const known = new Map<number, Columns>();
  return (columns) => {
    const before = known.get(columns);
    if (before !== undefined) return before;
    const rows = fitted ? bands.flatMap((band) => band.rows.filter((row) => row.columns === columns)) : [];
    const made = fitted ? fittedColumns(rows, columns, room) : evenColumns(columns, room);
    known.set(columns, made);
    return made;
  };
}

/** How many counts have their moves in a list rather than each in its own place. */
export function listedIn(set: readonly SetBand[]): number {
  return set
    .flatMap(({ groups }) => groups.flatMap(({ rows }) => rows.map(({ listed }) => listed)))
    .reduce((sum, one) => sum + one, 0);
}

/** Puts a grid on paper: a row a phrase, a column a count, pages broken between phrases. */
export function placeGrid(set: readonly SetBand[], frame: GridFrame): Grid {
  const cursor: GridCursor = { ...frame.start, items: [] };
  const bands = set.map((one) => placeBand(cursor, frame, one));
  return { page: cursor.page, y: cursor.y, bands, draw: () => drawGrid(cursor.items, frame) };
}

function groupsOf(
  band: Band,
  routine: Routine,
  { width, ...style }: GridStyle,
  columnsOf: (columns: number) => Columns,
): readonly RowGroup[] {
  const groups: { numerals: Numerals; rows: RowLayout[] }[] = [];
  for (const row of band.rows) {
    const last = groups.at(-1);
    const columns = columnsOf(row.columns);
    const numerals =
      last !== undefined && serves(last.numerals, row) ? last.numerals : numeralsFor(row, routine, columns);
    const rows = layoutRow(row, { ...style, columns, width: width - phraseColumn });
    if (last?.numerals === numerals) last.rows.push(...rows);
    else groups.push({ numerals, rows: [...rows] });
  }
  return groups;
}

function numeralsFor(row: Row, routine: Routine, x: Columns): Numerals {
  const numbers = Array.from({ length: row.columns }, (_, index) =>
    row.phrase.numbers[0] === row.offset + 1 && isRun(row) ? index + 1 : row.phrase.numbers[index - row.offset],
  );
  return {
    columns: row.columns,
    x,
    labels: numbers.map((number) => (number === undefined ? "" : String(number))),
    accents: numbers.map((number) => number !== undefined && routine.music.accents.includes(number)),
  };
}

const isRun = ({ phrase, offset }: Row): boolean =>
  phrase.numbers.every((number, index) => number === offset + index + 1);

/** Whether a row can stand under numerals that are there already. */
function serves(numerals: Numerals | undefined, row: Row): numerals is Numerals {
  return (
    numerals !== undefined &&
    numerals.columns === row.columns &&
    row.phrase.numbers.every((number, index) => numerals.labels[row.offset + index] === String(number))
  );
}

/** @returns where the band begins */
function placeBand(cursor: GridCursor, frame: GridFrame, set: SetBand): Grid["bands"][number] {
  if (mustTurn(cursor, frame, set)) turnPage(cursor, frame);
  const begin = { page: cursor.page, y: cursor.y, name: set.band.section.name };
  let { bar } = set;
  for (const group of set.groups) {
    let rest = group.rows;
    while (rest.length > 0) {
      const strip = serveAll(cursor.numerals, group.rows) ? 0 : numeralStripHeight;
      const above = (cursor.numerals === undefined ? 0 : gap) + strip + bar.height;
      const count = rowsThatFit(rest, frame.bottom - cursor.y - above, cursor.numerals === undefined);
      if (count === 0) {
        turnPage(cursor, frame);
        continue;
      }
      placeNumerals(cursor, group);
      placeFragment(cursor, set, bar, rest.slice(0, count));
      rest = rest.slice(count);
      bar = set.continued;
      if (rest.length > 0) turnPage(cursor, frame);
    }
  }
  return begin;
}

/** Whether a band begins on a new page: its line and its first phrase do not fit here, or little of the page is left and it fits there whole. */
function mustTurn(cursor: GridCursor, frame: GridFrame, set: SetBand): boolean {
  if (cursor.items.length === 0 && cursor.y === frame.start.y) {
    // Under a head that leaves no room for a phrase.
    const [first] = set.groups;
    const unit = first === undefined ? 0 : sumOf(heightsOf(first.rows.slice(0, unitEnd(first.rows, 0)), set.numbered));
    return cursor.y + numeralStripHeight + set.bar.height + unit > frame.bottom && cursor.y > frame.top;
  }
  const height = bandHeight(set, cursor.numerals);
  if (cursor.y + height <= frame.bottom) return false;
  return cursor.y >= frame.full && bandHeight(set, undefined) <= frame.bottom - frame.top;
}

function bandHeight({ groups, bar, continued, numbered }: SetBand, numerals: Numerals | undefined): number {
  return groups.reduce((sum, { rows }, index) => {
    const strip = index > 0 || !serveAll(numerals, rows) ? numeralStripHeight : 0;
    return sum + gap + strip + (index === 0 ? bar : continued).height + sumOf(heightsOf(rows, numbered));
  }, 0);
}

function serveAll(numerals: Numerals | undefined, rows: readonly RowLayout[]): boolean {
  return rows.every(({ row }) => serves(numerals, row));
}

function turnPage(cursor: GridCursor, frame: GridFrame): void {
  cursor.page += 1;
  cursor.y = frame.top;
  delete cursor.numerals;
}

/** Numerals, where those above do not serve. */
function placeNumerals(cursor: GridCursor, { numerals, rows }: RowGroup): void {
  cursor.y += cursor.numerals === undefined ? 0 : gap;
  if (serveAll(cursor.numerals, rows)) return;
  cursor.items.push({ page: cursor.page, y: cursor.y, numerals });
  cursor.numerals = numerals;
  cursor.y += numeralStripHeight;
}

function placeFragment(cursor: GridCursor, { numbered }: SetBand, bar: SectionBar, rows: readonly RowLayout[]): void {
  const heights = heightsOf(rows, numbered);
  cursor.items.push({ page: cursor.page, y: cursor.y, fragment: { bar, rows, heights, numbered } });
  cursor.y += bar.height + sumOf(heights);
}

/**
 * Rows for this page, as many as have room, up to the end of a phrase; the rows of all groups in a phrase stay together.
 *
 * @param force on a page of its own at least one row is put, however tall it is
 */
function rowsThatFit(rows: readonly RowLayout[], room: number, force: boolean): number {
  const heights = heightsOf(rows, true);
  let [used, count, whole] = [0, 0, 0];
  while (count < rows.length && used + (heights[count] ?? 0) <= room) {
    used += heights[count] ?? 0;
    count += 1;
    if (unitEnd(rows, count - 1) === count) whole = count;
  }
  if (whole > 0) return whole;
  return force ? Math.max(1, count) : 0;
}

/** The index after the last row that must stay with a row: the other groups' in the same phrase. */
function unitEnd(rows: readonly RowLayout[], index: number): number {
  const at = rows[index]?.row.phrase.at;
  let end = index + 1;
  while (rows[end]?.opens === true && rows[end]?.row.phrase.at === at) end += 1;
  return end;
}

/** Heights of rows: each has room for what stands beside it. */
function heightsOf(rows: readonly RowLayout[], numbered: boolean): readonly number[] {
  return rows.map(({ row, height, opens, top }) => {
    const lines = (numbered || row.facesApart || namedBeside(row) ? 1 : 0) + (row.time === undefined ? 0 : 1);
    return opens ? Math.max(height, top + lines * smallest * 1.22 + 3) : height;
  });
}

const sumOf = (numbers: readonly number[]): number => numbers.reduce((sum, number) => sum + number, 0);
