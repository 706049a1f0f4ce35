import type { Position, StructureElement } from "../../typesetting/print.js";
import { line, moved, type Shape } from "../../typesetting/shape.js";
import type { Wording } from "../../wording/wording.js";
import type { GridCell, Row } from "./bands.js";
import { inset, labelStrip } from "./cell.js";
import type { OptionsOf } from "./options.js";

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
  /** Its height where what other levels dance stands in its cells. */
  readonly whole: number;
  /** What its table cell holds, drawn from the row's corner; with what other levels dance there or without. */
  readonly content: (position: Position, withOptions: boolean) => readonly StructureElement[];
  /** Rules over what other levels dance, from the same corner. */
  readonly rules: () => readonly Shape[];
}

/** What setting and drawing a row's boxes takes. */
export interface RowContext {
  readonly wording: Wording;
  readonly row: Row;
  /** Points from the row's left edge to where a count of the phrase begins. */
  readonly x: (count: number) => number;
  /** Of all counts. */
  readonly width: number;
  readonly size: number;
  /** Height of what stands over the counts: a group's name, what is called. */
  readonly top: number;
  /** Height of the group's name alone. */
  readonly name: number;
  readonly optionsOf: OptionsOf;
}

/** Height of the strip over cues that stand under each other: nothing but the first line's own room, or the grey of an accent. */
export function listedStrip({ accents }: Row, { from, to }: Pick<CountRange, "from" | "to">): number {
  return accents.some((index) => from <= index && index < to) ? 5.5 : inset.top;
}

/** The grid under a row: the strip of an accent's cell in grey, counts as ticks, moves between full lines. */
export function rowGround(
  context: RowContext,
  boxes: readonly Box[],
  height: number,
  withOptions: boolean,
): readonly Shape[] {
  const { row, x, top } = context;
  const held = boxes.filter(({ cells }) => cells.length === 0);
  const starts = new Set([...row.cells.filter(({ begins }) => begins), ...held].map(({ from }) => from));
  const foot = (at: number) => (boxes.some(({ listed, from, to }) => listed && from < at && at < to) ? top : height);
  const inside = (at: number) => [...row.cells, ...held].some(({ from, to }) => from < at && at < to);
  const lines = Array.from({ length: row.phrase.numbers.length + 1 }, (_, at) => at)
    .filter((at) => !starts.has(at))
    .map((at) => line("line", 0.5, [x(at), 0], [x(at), inside(at) ? 3.5 : foot(at)]));
  const edges = [...starts].map((from) => line("ink", 0.9, [x(from), 0], [x(from), foot(from)]));
  return [
    ...row.accents.flatMap((index) => accentStrip(context, boxes, index)),
    ...lines,
    ...edges,
    ...(withOptions ? boxes.flatMap((box) => moved(box.rules(), 0, top)) : []),
    ...row.cells.flatMap((cell) => openEnd(cell, x, foot(cell.to - 0.01))),
  ];
}

/** The ground of the counts of the cell that an accent is in: all of its strip, so that no text is half on it. */
function accentStrip({ row, x, top, name }: RowContext, boxes: readonly Box[], index: number): readonly Shape[] {
  const box = boxes.find(({ from, to }) => from <= index && index < to);
  if (box === undefined) return [];
  const { from, to } = box.listed
    ? box
    : (box.cells.find((cell) => cell.from <= index && index < cell.to) ?? held(box, index));
  const strip = top + (box.listed ? listedStrip(row, box) : labelStrip) - name;
  return [{ kind: "box", at: [x(from), name], width: x(to) - x(from), height: strip, fill: "tint" }];
}

/** Counts that nobody wrote, or one of them up to where a move begins within it. */
function held({ from, to, cells }: CountRange, index: number): { readonly from: number; readonly to: number } {
  if (cells.length === 0) return { from, to };
  return { from: index, to: Math.min(index + 1, ...cells.flatMap(({ from }) => (from > index ? [from] : []))) };
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
