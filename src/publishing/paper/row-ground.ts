import type { Position, StructureElement } from "../../typesetting/print.js";
import { line, type Shape } from "../../typesetting/shape.js";
import { textWidth } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { GridCell, Row } from "./bands.js";
import { inset, smallest } from "./cell.js";

/** Counts from `from` up to, not including, `to`, and the moves in them: no move crosses the edge. */
export interface CountRange {
  readonly from: number;
  readonly to: number;
  readonly cells: readonly GridCell[];
}

/** A range as it is set: each move in its own counts or, where they are too narrow, the moves listed under each other by their counts. */
export interface Box extends CountRange {
  readonly listed: boolean;
  readonly height: number;
  /** What its table cell holds, drawn from the row's corner. */
  readonly content: (position: Position) => readonly StructureElement[];
}

/** What setting and drawing a row's boxes takes. */
export interface RowContext {
  readonly wording: Wording;
  readonly row: Row;
  /** Width of a count. */
  readonly column: number;
  readonly size: number;
  /** Height of what is called over the counts. */
  readonly top: number;
}

/** Height of the strip of counts over cues that stand under each other. */
export const countStripHeight = 15;

/** The grid under a row: accents as heavy rules over a light ground, counts as ticks, moves between full lines. */
export function rowGround(context: RowContext, boxes: readonly Box[], height: number): readonly Shape[] {
  const { row, column } = context;
  const x = (count: number) => (row.offset + count) * column;
  const starts = new Set(row.cells.filter(({ begins }) => begins).map(({ from }) => from));
  const foot = (at: number) =>
    boxes.some(({ listed, from, to }) => listed && from < at && at < to) ? context.top + countStripHeight : height;
  const accents = row.accents.flatMap((index): readonly Shape[] => {
    const under = boxes.some(({ listed, from, to }) => listed && from <= index && index < to && to - from > 1);
    return [
      {
        kind: "box",
        at: [x(index), 0],
        width: column,
        height: under ? context.top + countStripHeight : height,
        fill: "tint",
      },
      { kind: "box", at: [x(index), 0], width: column, height: 1.8, fill: "ink" },
    ];
  });
  const inside = (at: number) => row.cells.some(({ from, to }) => from < at && at < to);
  const lines = Array.from({ length: row.phrase.numbers.length + 1 }, (_, at) => at)
    .filter((at) => !starts.has(at))
    .map((at) => line("line", 0.5, [x(at), 0], [x(at), inside(at) ? 3.5 : foot(at)]));
  const edges = [...starts].map((from) => line("ink", 0.9, [x(from), 0], [x(from), foot(from)]));
  const labels = boxes.flatMap((box) => (box.listed ? stripLabels(context, box) : []));
  return [
    ...accents,
    ...lines,
    ...edges,
    ...labels,
    ...row.cells.flatMap((cell) => openEnd(cell, x, foot(cell.to - 0.01))),
  ];
}

/** An arrow head at the right end of a move that runs on into the next row. */
function openEnd(cell: GridCell, x: (count: number) => number, height: number): readonly Shape[] {
  if (cell.ends) return [];
  const [end, middle] = [x(cell.to), height / 2];
  const points = [
    [end - 5, middle - 4],
    [end - 1, middle],
    [end - 5, middle + 4],
  ] as const;
  return [{ kind: "path", points, stroke: { tone: "ink", width: 1.2 } }];
}

/** Counts in the strip over listed cues, as far as they have room. */
function stripLabels({ row, column, top }: RowContext, { cells }: Box): readonly Shape[] {
  return cells.flatMap((cell): readonly Shape[] => {
    const text = cell.text.label.map((span) => span.text).join("");
    const left = cell.move.hit && cell.begins ? inset.left + 4 : 3;
    if (textWidth(text, smallest, "bold") > (cell.to - cell.from) * column - left - 1) return [];
    const at = [(row.offset + cell.from) * column + left, top + 10.5] as const;
    return [{ kind: "text", at, text, size: smallest, anchor: "start", bold: true, tone: "ink" }];
  });
}
