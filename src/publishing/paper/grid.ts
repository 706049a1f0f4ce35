import type { Routine, Version } from "../../routine/routine.js";
import { line, type Shape } from "../drawing/shape.js";
import { facingDart } from "../drawing/signs.js";
import { tempoText, trackText } from "../figures.js";
import { type Band, type Row, sheetBands } from "./bands.js";
import { heightOf, signFigure, smallest, stackLines } from "./cell.js";
import type { Mark, Part, Spot } from "./print.js";
import { layoutRow, type RowLayout } from "./row.js";
import { ascent, type Line, type Span, textWidth, wrap } from "./text.js";

/** Where a grid may stand: from `start` on the first page, and between `top` and `bottom` on every further one. */
export interface GridFrame {
  readonly left: number;
  readonly width: number;
  readonly start: Pick<Spot, "page" | "y">;
  readonly top: number;
  readonly bottom: number;
}

export interface Grid {
  readonly parts: readonly Part[];
  readonly decoration: readonly Mark[];
  /** Where it ends. */
  readonly page: number;
  readonly y: number;
  /** Where each band begins, for bookmarks. */
  readonly bands: readonly (Pick<Spot, "page" | "y"> & { readonly name: string })[];
}

/** Column of section names and landing words, and column of track times. */
const side = { names: 84, times: 32 };
const strip = { height: 20, size: 13 };
const gap = 5;
/** A row with a facing dart beside it is at least this high. */
const dartRow = 23;

/** The numerals over the columns. */
interface Numerals {
  readonly columns: number;
  readonly labels: readonly string[];
  readonly accents: readonly boolean[];
}

/** Rows of a band under the same numerals. */
interface Group {
  readonly numerals: Numerals;
  readonly rows: readonly RowLayout[];
}

/** A stretch of a band that stays together: on one page, under the same numerals. */
interface Fragment {
  readonly side: "whole" | "continued" | "none";
  readonly rows: readonly RowLayout[];
  readonly heights: readonly number[];
}

/** Where a grid has got to. */
interface Pen {
  page: number;
  y: number;
  numerals?: Numerals;
  readonly tables: { head: Part; rows: Part[] }[];
  readonly decoration: Mark[];
  readonly bands: (Pick<Spot, "page" | "y"> & { name: string })[];
}

/** The count grid of a version: a row a phrase, a column a count, whole sections to a page wherever one fits. */
export function layoutGrid(routine: Routine, version: Version, size: number, frame: GridFrame): Grid {
  const pen: Pen = { ...frame.start, tables: [], decoration: [], bands: [] };
  const width = frame.width - side.names - side.times;
  for (const band of sheetBands(routine, version)) {
    const groups = groupsOf(band, routine, width, size);
    placeBand(pen, frame, band, groups, sideLines(band, routine));
  }
  const parts = pen.tables.map(({ head, rows }): Part => ({ tag: "Table", content: [head, ...rows] }));
  return { parts, decoration: pen.decoration, page: pen.page, y: pen.y, bands: pen.bands };
}

function groupsOf(band: Band, routine: Routine, width: number, size: number): readonly Group[] {
  const groups: { numerals: Numerals; rows: RowLayout[] }[] = [];
  for (const row of band.rows) {
    const last = groups.at(-1);
    const numerals = last !== undefined && serves(last.numerals, row) ? last.numerals : numeralsFor(row, routine);
    if (last?.numerals === numerals) last.rows.push(...layoutRow(row, width, size));
    else groups.push({ numerals, rows: [...layoutRow(row, width, size)] });
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

function placeBand(pen: Pen, frame: GridFrame, band: Band, groups: readonly Group[], lines: readonly Line[]): void {
  const head = sideHeight(lines);
  const height = (numerals: Numerals | undefined) => {
    const rows = groups.reduce((sum, group) => sum + group.rows.reduce((all, row) => all + row.height, 0), 0);
    const strips = groups.filter((group, index) => index > 0 || !sameNumerals(numerals, group)).length;
    return Math.max(rows, head) + strips * strip.height + gap;
  };
  const whole = frame.bottom - frame.top;
  if (pen.y + height(pen.numerals) > frame.bottom && (height(undefined) <= whole || !opens(pen, frame, groups, head)))
    turnPage(pen, frame);
  placeGroups(pen, frame, band, groups, lines);
}

function sameNumerals(numerals: Numerals | undefined, group: Group): boolean {
  return group.rows.every(({ row }) => serves(numerals, row));
}

/** Whether a band too tall for any page may begin here: its head and two of its rows fit. */
function opens(pen: Pen, frame: GridFrame, groups: readonly Group[], head: number): boolean {
  const rows = (groups[0]?.rows ?? []).slice(0, 2).reduce((sum, row) => sum + row.height, 0);
  return pen.y + gap + strip.height + Math.max(rows, head) <= frame.bottom;
}

function turnPage(pen: Pen, frame: GridFrame): void {
  pen.page += 1;
  pen.y = frame.top;
  delete pen.numerals;
}

function placeGroups(pen: Pen, frame: GridFrame, band: Band, groups: readonly Group[], lines: readonly Line[]): void {
  let begun = false;
  const continued = wrap(continuedSpans(band), smallest + 1, side.names - 8);
  for (const group of groups) {
    let rest = group.rows;
    while (rest.length > 0) {
      if (!sameNumerals(pen.numerals, { ...group, rows: rest }))
        drawNumerals(pen, frame, group.numerals, begun ? 0 : gap);
      else if (!begun) pen.y += gap;
      const fresh = !begun || pen.y === frame.top + strip.height;
      const head = begun ? continued : lines;
      const count = rowsThatFit(rest, frame.bottom - pen.y, sideHeight(head));
      const rows = rest.slice(0, count);
      rest = rest.slice(count);
      const side = !begun ? "whole" : fresh ? "continued" : "none";
      if (!begun) pen.bands.push({ page: pen.page, y: pen.y, name: band.section.name });
      drawFragment(pen, frame, { side, rows, heights: heightsOf(rows, side === "none" ? 0 : sideHeight(head)) }, head);
      begun = true;
      if (rest.length > 0) turnPage(pen, frame);
    }
  }
}

/** Rows for this page; at least two are kept back for the next one. */
function rowsThatFit(rows: readonly RowLayout[], room: number, head: number): number {
  let [count, used] = [0, 0];
  for (const row of rows) {
    if (used + row.height > room) break;
    used += row.height;
    count += 1;
  }
  if (count >= rows.length && Math.max(used, head) <= room) return rows.length;
  const kept = Math.min(count, rows.length - 2);
  return Math.max(1, kept);
}

/** Heights of the rows beside a margin of so many points: the last one makes up what is missing. */
function heightsOf(rows: readonly RowLayout[], head: number): readonly number[] {
  const heights = rows.map(({ height }, index) => (index === 0 ? Math.max(height, dartRow) : height));
  const missing = Math.max(0, head - heights.reduce((sum, height) => sum + height, 0));
  return heights.map((height, index) => (index === heights.length - 1 ? height + missing : height));
}

/** Draws the numerals, and begins a table under them. */
function drawNumerals(pen: Pen, frame: GridFrame, numerals: Numerals, above: number): void {
  pen.y += above;
  const { page, y } = pen;
  const x = frame.left + side.names + side.times;
  const column = (frame.width - side.names - side.times) / numerals.columns;
  const size = Math.min(strip.size, column * 0.55);
  const heads = numerals.labels.map((label, index): Part => {
    const accent = numerals.accents[index] === true;
    return numeralCell(label, accent, size, { page, x: x + index * column, y });
  });
  const small = (text: string, at: number): Part => {
    const [label] = wrap([{ text, tone: "soft" }], smallest);
    const content =
      label === undefined ? [] : [{ page, x: at, y: y + strip.height - smallest * 1.22 - 3, line: label }];
    return { tag: "TH", scope: "Column", content };
  };
  const head: Part = {
    tag: "TR",
    content: [small("section", frame.left), small("track", x - 5 - textWidth("track", smallest)), ...heads],
  };
  pen.tables.push({ head, rows: [] });
  pen.numerals = numerals;
  pen.y += strip.height;
}

/** A numeral stands where its count begins; an accent is white on a dark disc. */
function numeralCell(label: string, accent: boolean, size: number, spot: Spot): Part {
  const [set] = wrap([{ text: label, style: "bold", tone: accent ? "paper" : "ink" }], size);
  if (set === undefined) return { tag: "TD", content: [] };
  const middle = spot.x + Math.max(set.width / 2, size * 0.62) + 1;
  const base = spot.y + strip.height - 5;
  const mark: Mark = {
    page: spot.page,
    x: accent ? middle - set.width / 2 : spot.x + 3.5,
    y: base - size * ascent,
    line: set,
  };
  if (!accent) return { tag: "TH", scope: "Column", content: [mark] };
  const disc: Shape = { kind: "disc", at: [0, 0], radius: size * 0.66, fill: "ink" };
  const at = { page: spot.page, x: middle, y: base - size * 0.34 };
  const box = [at.x - size * 0.66, at.y - size * 0.66, at.x + size * 0.66, at.y + size * 0.66] as const;
  const figure: Part = { tag: "Figure", alt: "accent", box, content: [{ ...at, shapes: [disc] }] };
  return { tag: "TH", scope: "Column", content: [figure, mark] };
}

function drawFragment(pen: Pen, frame: GridFrame, fragment: Fragment, lines: readonly Line[]): void {
  const { rows, heights } = fragment;
  const x = frame.left + side.names + side.times;
  const rule: Shape =
    fragment.side === "whole"
      ? line("ink", 1.3, [0, 0], [frame.width, 0])
      : line("line", 0.6, [side.names, 0], [frame.width, 0]);
  pen.decoration.push({ page: pen.page, x: frame.left, y: pen.y, shapes: [rule] });
  rows.forEach((row, index) => {
    const height = heights[index] ?? row.height;
    const { page, y } = pen;
    const inner =
      row.opens && index > 0 ? [line("line", 0.6, [-side.times, 0], [frame.width - side.names - side.times, 0])] : [];
    pen.decoration.push({ page, x, y, shapes: [...row.ground(height), ...inner] });
    const heads: Part[] = [];
    if (index === 0) heads.push(sideCell(fragment, lines, { page, x: frame.left, y }));
    heads.push(timeCell(row, index === 0, { page, x: x - side.times, y }));
    const { columns, offset, phrase } = row.row;
    const cells = [
      ...blanks(offset),
      ...row.cells({ page, x, y }),
      ...blanks(columns - offset - phrase.numbers.length),
    ];
    pen.tables.at(-1)?.rows.push({ tag: "TR", content: [...heads, ...cells] });
    pen.y += height;
  });
}

/** Empty columns before a pick-up, and after a short phrase. */
function blanks(columns: number): readonly Part[] {
  return columns === 0 ? [] : [{ tag: "TD", ...(columns > 1 ? { columns } : {}), content: [] }];
}

function sideCell({ side: kind, rows }: Fragment, lines: readonly Line[], spot: Spot): Part {
  const span = rows.length > 1 ? { rows: rows.length } : {};
  if (kind === "none") return { tag: "TD", ...span, content: [] };
  const name = lines.filter(({ size }) => size > smallest);
  const rest = lines.filter(({ size }) => size <= smallest);
  const heading: Part = { tag: kind === "whole" ? "H2" : "P", content: stackLines(name, { ...spot, y: spot.y + 3 }) };
  const below = { ...spot, y: spot.y + 4 + heightOf(name) };
  const words: readonly Part[] = rest.length > 0 ? [{ tag: "P", content: stackLines(rest, below) }] : [];
  return { tag: "TH", scope: "Row", ...span, content: [heading, ...words] };
}

function timeCell({ row, opens }: RowLayout, first: boolean, spot: Spot): Part {
  if (!opens) return { tag: "TD", content: [] };
  const [time] = wrap(
    [{ text: trackText(row.time), tone: first ? "ink" : "soft", style: first ? "bold" : "regular" }],
    smallest,
  );
  const right = spot.x + side.times - 5;
  const content: (Part | Mark)[] =
    time === undefined ? [] : [{ ...spot, x: right - time.width, y: spot.y + 2.5, line: time }];
  const dart = signFigure(`facing ${row.facing}`, [facingDart(row.facing, [4.5, 0], 4.5)], {
    ...spot,
    x: right - 9.5,
    y: spot.y + 17.5,
  });
  return { tag: "TH", scope: "Row", content: first ? [...content, dart] : content };
}

function sideLines(band: Band, routine: Routine): readonly Line[] {
  const { section, again } = band;
  const width = side.names - 8;
  const other = section.countsPerMinute.equals(routine.music.countsPerMinute)
    ? []
    : [`${tempoText(section.countsPerMinute)} counts a minute`];
  const facts = [...(section.mirrored ? ["on the other side"] : []), ...other, ...(again === "" ? [] : [again])];
  const words: readonly Span[] = section.words === undefined ? [] : [{ text: `“${section.words}”`, style: "italic" }];
  return [
    ...wrap([{ text: `${band.number} ${section.name}`, style: "bold" }], smallest + 1.5, width),
    ...wrap(words, smallest, width),
    ...facts.flatMap((text) => wrap([{ text, tone: "soft" }], smallest, width)),
  ];
}

function continuedSpans(band: Band): readonly Span[] {
  return [{ text: `${band.number} ${band.section.name} `, style: "bold" }, { text: "(continued)" }];
}

const sideHeight = (lines: readonly Line[]): number => heightOf(lines) + 7;
