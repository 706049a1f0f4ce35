import { line, type Shape } from "../drawing/shape.js";
import type { Cell, Row } from "./bands.js";
import { type CellLayout, countsLabel, heightOf, keyedSpans, layoutCell, smallest, stackLines } from "./cell.js";
import type { Part, Spot } from "./print.js";
import { type Span, textWidth, wrap } from "./text.js";

/** A row of the grid, or a further part of one that is taller than a page likes. */
export interface RowLayout {
  readonly row: Row;
  readonly height: number;
  /** False of a further part. */
  readonly opens: boolean;
  /** The cells of its table row, drawn from the row's top left corner. */
  readonly cells: (spot: Spot) => readonly Part[];
  /** Grounds, rules and ticks for a row of this height, from the same corner. */
  readonly ground: (height: number) => readonly Shape[];
}

/** A cell with more lines than this asks its row to put the cues under it. */
const mostLines = 8;
/** Lines of cues under a row that stay on one page. */
const chunk = 12;
const callHeight = 11;
const stripHeight = 15;
const inset = 4.5;

/** Sets a phrase in a grid `width` points wide, its cues in `size` points. */
export function layoutRow(row: Row, width: number, size: number): readonly RowLayout[] {
  const column = width / row.columns;
  const set = row.cells.map((cell) => layoutCell(cell, (cell.to - cell.from) * column, size));
  const cells = set.filter((cell): cell is CellLayout => cell !== undefined && cell.lines <= mostLines);
  if (cells.length < set.length || !callsFit(row, column)) return keyedRow(row, width, size);
  const top = row.phrase.say === undefined ? 0 : callHeight;
  return [
    {
      row,
      height: top + Math.max(stripHeight, ...cells.map(({ height }) => height)),
      opens: true,
      ground: (height) => rowGround(row, column, height),
      cells: (spot) => {
        const x = (count: number) => spot.x + (row.offset + count) * column;
        const moves = row.cells.map(({ from }, index) => cells[index]?.place({ ...spot, x: x(from), y: spot.y + top }));
        const calls = (row.phrase.say ?? []).map((text, count) => callPart(text, { ...spot, x: x(count) + inset }));
        return countCells(row, calls, moves);
      },
    },
  ];
}

/** The row of a phrase with a cue that its columns cannot hold: a strip of counts, and under it the cues by their counts. */
function keyedRow(row: Row, width: number, size: number): readonly RowLayout[] {
  const column = width / row.columns;
  const say: readonly Span[] =
    row.phrase.say === undefined ? [] : [{ text: `Called: “${row.phrase.say.join(" · ")}” `, style: "italic" }];
  const lines = wrap([...say, ...row.cells.flatMap(keyedSpans)], size, width - 2 * inset);
  const parts = Math.max(1, Math.ceil(lines.length / chunk));
  return Array.from({ length: parts }, (_, index): RowLayout => {
    const some = lines.slice(index * chunk, (index + 1) * chunk);
    const top = index === 0 ? stripHeight : 0;
    return {
      row,
      height: top + heightOf(some) + (index === parts - 1 ? inset : 0),
      opens: index === 0,
      ground: () => (index === 0 ? [...rowGround(row, column, stripHeight), ...stripLabels(row, column)] : []),
      cells: (spot) => {
        const content = stackLines(some, { ...spot, x: spot.x + inset, y: spot.y + top });
        return [{ tag: "TD", ...columnsOf(row.phrase.numbers.length), content: [{ tag: "P", content }] }];
      },
    };
  });
}

function callsFit(row: Row, column: number): boolean {
  return (row.phrase.say ?? []).every((text) => textWidth(`“${text}”`, smallest, "italic") <= column - inset);
}

function callPart(text: string, spot: Spot): Part {
  const [line] = wrap([{ text: `“${text}”`, style: "italic", tone: "soft" }], smallest);
  return { tag: "P", content: line === undefined ? [] : [{ ...spot, y: spot.y + 1.5, line }] };
}

const columnsOf = (count: number) => (count > 1 ? { columns: count } : {});

/** Table cells of whole counts: moves that share a count, or reach from one into the next, share a cell. */
function countCells(row: Row, calls: readonly Part[], moves: readonly (Part | undefined)[]): readonly Part[] {
  const count = row.phrase.numbers.length;
  const cells: Part[] = [];
  for (let from = 0, to = 1; from < count; from = to, to++) {
    while (to < count && row.cells.some((cell) => cell.from < to && to < cell.to)) to++;
    const content = [
      ...calls.slice(from, to),
      ...row.cells.flatMap((cell, index) => (from <= cell.from && cell.from < to ? (moves[index] ?? []) : [])),
    ];
    cells.push({ tag: "TD", ...columnsOf(to - from), content });
  }
  return cells;
}

/** The grid under a row: accents as heavy rules over a light ground, counts as ticks, moves between full lines. */
function rowGround(row: Row, column: number, height: number): readonly Shape[] {
  const x = (count: number) => (row.offset + count) * column;
  const count = row.phrase.numbers.length;
  const inside = (at: number) => row.cells.some(({ from, to }) => from < at && at < to);
  const starts = new Set(row.cells.filter(({ begins }) => begins).map(({ from }) => from));
  const accents = row.accents.flatMap((index): readonly Shape[] => [
    { kind: "box", at: [x(index), 0], width: column, height, fill: "tint" },
    { kind: "box", at: [x(index), 0], width: column, height: 1.8, fill: "ink" },
  ]);
  const lines = Array.from({ length: count + 1 }, (_, at) => at)
    .filter((at) => !starts.has(at))
    .map((at) => line("line", 0.5, [x(at), 0], [x(at), inside(at) ? 3.5 : height]));
  const edges = [...starts].map((from) => line("ink", 0.9, [x(from), 0], [x(from), height]));
  return [...accents, ...lines, ...edges, ...row.cells.flatMap((cell) => openEnd(cell, x, height))];
}

/** A move that runs on points out of its row. */
function openEnd(cell: Cell, x: (count: number) => number, height: number): readonly Shape[] {
  if (cell.ends) return [];
  const [end, middle] = [x(cell.to), height / 2];
  const points = [
    [end - 3, middle - 4],
    [end + 1.5, middle],
    [end - 3, middle + 4],
  ] as const;
  return [{ kind: "path", points, stroke: { tone: "ink", width: 1.2 } }];
}

/** Counts in the strip of a keyed row, as far as they have room. */
function stripLabels(row: Row, column: number): readonly Shape[] {
  return row.cells.flatMap((cell): readonly Shape[] => {
    const text = countsLabel(cell);
    if (textWidth(text, smallest, "bold") > (cell.to - cell.from) * column - inset) return [];
    const at = [(row.offset + cell.from) * column + inset - 1.5, 10.5] as const;
    return [{ kind: "text", at, text, size: smallest, anchor: "start", bold: true, tone: "ink" }];
  });
}
