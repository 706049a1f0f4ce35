import type { Routine } from "../../routine/routine.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import type { Line } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { Band, Row } from "./bands.js";
import { linesHeight } from "./cell.js";
import { drawGrid } from "./grid-draw.js";
import { type Fragment, type GridFrame, type GridItem, type Numerals, numeralStripHeight } from "./grid-items.js";
import { layoutRow, type RowLayout } from "./row.js";
import { continuedLines, sideLines, sideNames, sideTimes } from "./side.js";

/** A grid on paper. */
export interface Grid {
  /** Where it ends. */
  readonly page: number;
  readonly y: number;
  /** Where each band begins, for bookmarks. */
  readonly bands: readonly (Pick<Position, "page" | "y"> & { readonly name: string })[];
  readonly draw: () => { readonly elements: readonly StructureElement[]; readonly decoration: readonly Mark[] };
}

const gap = 5;
/** A row with a facing beside it is at least this high. */
const facingRow = 23;

/** Rows of a band under the same numerals. */
interface RowGroup {
  readonly numerals: Numerals;
  readonly rows: readonly RowLayout[];
}

/** A band of the grid, set but not yet put on a page. */
export interface SetBand {
  readonly band: Band;
  readonly groups: readonly RowGroup[];
  readonly lines: readonly Line[];
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
}

/** Sets bands; what they take of the paper is for `placeGrid` to say. */
export function setGrid(routine: Routine, bands: readonly Band[], style: GridStyle): readonly SetBand[] {
  return bands.map((band) => ({
    band,
    groups: groupsOf(band, routine, style),
    lines: sideLines(band, routine, style.wording),
  }));
}

/** Puts a grid on paper: a row a phrase, a column a count, whole sections to a page wherever one fits. */
export function placeGrid(set: readonly SetBand[], frame: GridFrame): Grid {
  const cursor: GridCursor = { ...frame.start, items: [] };
  const bands = set.map((one) => placeBand(cursor, frame, one));
  return { page: cursor.page, y: cursor.y, bands, draw: () => drawGrid(cursor.items, frame) };
}

function groupsOf(band: Band, routine: Routine, { size, width, wording }: GridStyle): readonly RowGroup[] {
  const room = width - sideNames - sideTimes;
  const groups: { numerals: Numerals; rows: RowLayout[] }[] = [];
  for (const row of band.rows) {
    const last = groups.at(-1);
    const numerals = last !== undefined && serves(last.numerals, row) ? last.numerals : numeralsFor(row, routine);
    if (last?.numerals === numerals) last.rows.push(...layoutRow(row, room, size, wording));
    else groups.push({ numerals, rows: [...layoutRow(row, room, size, wording)] });
  }
  return groups;
}

function numeralsFor(row: Row, routine: Routine): Numerals {
  const numbers = Array.from({ length: row.columns }, (_, index) =>
    row.phrase.numbers[0] === row.offset + 1 && isRun(row) ? index + 1 : row.phrase.numbers[index - row.offset],
  );
  return {
    columns: row.columns,
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
  const whole = frame.bottom - frame.top;
  const fits = cursor.y + bandHeight(set, cursor.numerals) <= frame.bottom;
  if (!fits && (bandHeight(set, undefined) <= whole || !mayBegin(cursor, frame, set))) turnPage(cursor, frame);
  const begin = { page: cursor.page, y: cursor.y, name: set.band.section.name };
  let begun = false;
  for (const group of set.groups) {
    let rest = group.rows;
    while (rest.length > 0) {
      placeNumerals(cursor, group, begun ? 0 : gap);
      const atTop = cursor.items.at(-1)?.y === frame.top;
      const side = !begun ? "whole" : atTop ? "continued" : "none";
      const lines = side === "whole" ? set.lines : side === "continued" ? continuedLines(set.band, frame.wording) : [];
      const count = rowsThatFit(rest, frame.bottom - cursor.y, sideHeight(lines));
      placeFragment(cursor, side, lines, rest.slice(0, count));
      rest = rest.slice(count);
      begun = true;
      if (rest.length > 0) turnPage(cursor, frame);
    }
  }
  return begin;
}

function bandHeight({ groups, lines }: SetBand, numerals: Numerals | undefined): number {
  return groups.reduce((sum, { rows }, index) => {
    const strip = index > 0 || !serveAll(numerals, rows) ? numeralStripHeight : 0;
    return sum + strip + sumOf(heightsOf(rows, index === 0 ? sideHeight(lines) : 0));
  }, gap);
}

function serveAll(numerals: Numerals | undefined, rows: readonly RowLayout[]): boolean {
  return rows.every(({ row }) => serves(numerals, row));
}

/** Whether a band too tall for any page may begin here: its head and two of its rows fit. */
function mayBegin(cursor: GridCursor, frame: GridFrame, { groups, lines }: SetBand): boolean {
  const rows = (groups[0]?.rows ?? []).slice(0, 2);
  return cursor.y + gap + numeralStripHeight + sumOf(heightsOf(rows, sideHeight(lines))) <= frame.bottom;
}

function turnPage(cursor: GridCursor, frame: GridFrame): void {
  cursor.page += 1;
  cursor.y = frame.top;
  delete cursor.numerals;
}

/** Numerals, where those above do not serve. */
function placeNumerals(cursor: GridCursor, { numerals, rows }: RowGroup, above: number): void {
  const serve = serveAll(cursor.numerals, rows);
  cursor.y += cursor.numerals === undefined ? 0 : above;
  if (serve) return;
  cursor.items.push({ page: cursor.page, y: cursor.y, numerals });
  cursor.numerals = numerals;
  cursor.y += numeralStripHeight;
}

function placeFragment(
  cursor: GridCursor,
  side: Fragment["side"],
  lines: readonly Line[],
  rows: readonly RowLayout[],
): void {
  const heights = heightsOf(rows, sideHeight(lines));
  cursor.items.push({ page: cursor.page, y: cursor.y, fragment: { side, lines, rows, heights } });
  cursor.y += sumOf(heights);
}

/** Rows for this page; at least two are kept back for the next one. */
function rowsThatFit(rows: readonly RowLayout[], room: number, head: number): number {
  if (sumOf(heightsOf(rows, head)) <= room) return rows.length;
  let count = 0;
  while (count < rows.length && sumOf(heightsOf(rows.slice(0, count + 1), head)) <= room) count += 1;
  return Math.max(1, Math.min(count, rows.length - 2));
}

/** Heights of the rows beside a margin of so many points: the last one makes up what is missing. */
function heightsOf(rows: readonly RowLayout[], head: number): readonly number[] {
  const heights = rows.map(({ row, height, opens }, index) =>
    index === 0 || (opens && row.facesApart) ? Math.max(height, facingRow) : height,
  );
  const missing = Math.max(0, head - sumOf(heights));
  return heights.map((height, index) => (index === heights.length - 1 ? height + missing : height));
}

const sumOf = (numbers: readonly number[]): number => numbers.reduce((sum, number) => sum + number, 0);

const sideHeight = (lines: readonly Line[]): number => (lines.length === 0 ? 0 : linesHeight(lines) + 7);
