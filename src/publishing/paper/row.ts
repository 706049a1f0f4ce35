import type { Position, StructureElement } from "../../typesetting/print.js";
import type { Shape } from "../../typesetting/shape.js";
import { type Line, type Span, shortened, textWidth, widestWord, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { GridCell, Row } from "./bands.js";
import { type CellLayout, hitFigure, inset, layoutCell, linesHeight, smallest, stackLines } from "./cell.js";
import { type Box, type CountRange, countStripHeight, type RowContext, rowGround } from "./row-ground.js";

/** A row of the grid, or a continuation of one that is too tall to stay on one page. */
export interface RowLayout {
  readonly row: Row;
  readonly height: number;
  /** False of a continuation. */
  readonly opens: boolean;
  /** The cells of its table row, drawn from the row's top left corner. */
  readonly cells: (position: Position) => readonly StructureElement[];
  /** Grounds, rules and ticks for a row of this height, from the same corner. */
  readonly ground: (height: number) => readonly Shape[];
}

/** A range of counts whose cues take more lines than this is joined with the next, to be wider. */
const mostLines = 8;
/** Most lines of cues under a row that are kept on one page. */
const chunk = 12;
const callHeight = 11;

/** Sets a phrase in a grid `width` points wide, its cues in `size` points or, if that keeps them in their counts, in less. */
export function layoutRow(row: Row, width: number, size: number, wording: Wording): readonly RowLayout[] {
  if (row.uncounted !== undefined) return [uncountedRow(row, row.uncounted, width, size)];
  const column = width / row.columns;
  const calls = callsFit(row, column, wording);
  const top = headHeight(row) + (calls && row.phrase.say?.some(Boolean) ? callHeight : 0);
  let best: readonly Box[] | undefined;
  for (let type = size; type >= smallest; type -= 0.5) {
    const boxes = calls ? boxesOf({ wording, row, column, size: type, top }) : undefined;
    if (best === undefined || (boxes !== undefined && listedCounts(boxes) < listedCounts(best))) best = boxes;
    if (best !== undefined && listedCounts(best) === 0) break;
  }
  const [only] = best ?? [];
  if (best === undefined || (best.length === 1 && only?.listed === true))
    return listedRow({ wording, row, column, size, top: headHeight(row) });
  return [boxedRow({ wording, row, column, size, top }, best)];
}

/** Time without counts: what it is, across all columns. */
function uncountedRow(row: Row, text: string, width: number, size: number): RowLayout {
  const lines = wrap([{ text, style: "italic", tone: "soft" }], size, width - 2 * inset.left);
  return {
    row,
    height: linesHeight(lines) + inset.top + inset.bottom,
    opens: true,
    ground: () => [],
    cells: (position) => {
      const content = stackLines(lines, { ...position, x: position.x + inset.left, y: position.y + inset.top });
      return [{ tag: "TD", ...spanning(row.columns), content: [{ tag: "P", content }] }];
    },
  };
}

const listedCounts = (boxes: readonly Box[]): number =>
  boxes.reduce((sum, { listed, from, to }) => sum + (listed ? to - from : 0), 0);

function boxedRow(context: RowContext, boxes: readonly Box[]): RowLayout {
  const { wording, row, column, top } = context;
  const wide = row.phrase.numbers.length * column;
  return {
    row,
    height: Math.max(countStripHeight, ...boxes.map(({ height }) => height)) + top,
    opens: true,
    ground: (height) => rowGround(context, boxes, height),
    cells: (position) => {
      const calls = (row.phrase.say ?? []).map((text, count): readonly StructureElement[] => {
        // A move's own call stands with it, and comes before its phrase's.
        if (row.cells.some(({ move, from, to }) => move.say !== undefined && from <= count && count < to)) return [];
        if (text === "") return [];
        const x = position.x + (row.offset + count) * column + inset.left;
        return [callElement(wording.print.quoted(text), { ...position, x, y: position.y + headHeight(row) })];
      });
      return boxes.map(({ from, to, content }, index) => ({
        tag: "TD",
        ...spanning(to - from),
        content: [
          ...(index === 0 ? dancersLabel(row, wide, position) : []),
          ...calls.slice(from, to).flat(),
          ...content({ ...position, y: position.y + top }),
        ],
      }));
    },
  };
}

const spanning = (count: number) => (count > 1 ? { columns: count } : {});

/** A row's ranges as boxes, each as narrow as its words allow. */
function boxesOf(context: RowContext): readonly Box[] {
  const ranges = rangesOf(context.row);
  const boxes: Box[] = [];
  for (let index = 0; index < ranges.length; index++) {
    let range = ranges[index];
    if (range === undefined) break;
    let box = ownBox(context, range) ?? listedBox(context, range);
    while (box === undefined && index + 1 < ranges.length) {
      index += 1;
      range = joined(range, ranges[index] ?? range);
      box = listedBox(context, range);
    }
    while (box === undefined) {
      const before = boxes.pop();
      if (before === undefined) return [{ ...range, listed: true, height: 0, content: () => [] }];
      range = joined(before, range);
      box = listedBox(context, range);
    }
    boxes.push(box);
  }
  return boxes;
}

/** Counts that no move ties together are ranges of their own. */
function rangesOf({ phrase, cells }: Row): readonly CountRange[] {
  const ranges: CountRange[] = [];
  for (let from = 0, to = 1; from < phrase.numbers.length; from = to, to++) {
    while (to < phrase.numbers.length && cells.some((cell) => cell.from < to && to < cell.to)) to++;
    ranges.push({ from, to, cells: cells.filter((cell) => from <= cell.from && cell.from < to) });
  }
  return ranges;
}

function joined(one: CountRange, other: CountRange): CountRange {
  return { from: one.from, to: other.to, cells: [...one.cells, ...other.cells] };
}

/** Each move in its own counts; undefined where one does not fit. */
function ownBox({ wording, row, column, size }: RowContext, range: CountRange): Box | undefined {
  const set = range.cells.map((cell) => layoutCell(cell, (cell.to - cell.from) * column, size, wording));
  const fitting = set.filter((cell): cell is CellLayout => cell !== undefined && cell.lines <= mostLines);
  if (fitting.length < set.length) return undefined;
  return {
    ...range,
    listed: false,
    height: Math.max(0, ...fitting.map(({ height }) => height)),
    content: (position) =>
      range.cells.flatMap(({ from }, index): readonly StructureElement[] => {
        const element = fitting[index]?.place({ ...position, x: position.x + (row.offset + from) * column });
        return element === undefined ? [] : [element];
      }),
  };
}

/** The moves one under the other, each by its counts; undefined where that takes too many lines or a word is too wide. */
function listedBox(context: RowContext, range: CountRange): Box | undefined {
  const { row, column, size } = context;
  const width = (range.to - range.from) * column - inset.left - inset.right;
  const spans = range.cells.map(({ text }) => text.listed);
  if (spans.some((one) => widestWord(one, size) > width)) return undefined;
  const lines = spans.map((one) => wrap(one, size, width));
  if (lines.flat().length > mostLines) return undefined;
  return {
    ...range,
    listed: true,
    height: countStripHeight + linesHeight(lines.flat()) + 4,
    content: (position) => {
      const x = position.x + (row.offset + range.from) * column + inset.left;
      let y = position.y + countStripHeight;
      return range.cells.map((cell, index): StructureElement => {
        const own = lines[index] ?? [];
        const at = { ...position, x, y };
        y += linesHeight(own);
        return { tag: "P", content: [...stripHit(context, cell, position), ...stackLines(own, at)] };
      });
    },
  };
}

/** A hit in the strip over listed cues. */
function stripHit(
  { wording, row, column }: RowContext,
  cell: GridCell,
  position: Position,
): readonly StructureElement[] {
  const x = position.x + (row.offset + cell.from) * column;
  return cell.move.hit && cell.begins ? [hitFigure({ ...position, x }, wording)] : [];
}

/** The last resort, for cues that no range of the row can hold: they run on under an empty strip of counts. */
function listedRow(context: RowContext): readonly RowLayout[] {
  const { wording, row, column, size } = context;
  const width = row.columns * column - 2 * inset.left;
  const called = (row.phrase.say ?? []).filter(Boolean);
  const say: readonly Span[] = called.length === 0 ? [] : [{ text: wording.print.calledOver(called), style: "italic" }];
  const chunks = chunksOf(row.cells, (spans) => wrap(spans, size, width), say);
  const whole: Box = {
    from: 0,
    to: row.phrase.numbers.length,
    cells: row.cells,
    listed: true,
    height: 0,
    content: () => [],
  };
  return chunks.map((lines, index) => {
    const below = index === 0 ? context : { ...context, top: 0 };
    return listedLayout(below, whole, lines, { first: index === 0, last: index === chunks.length - 1 });
  });
}

/** Cues in lines, in chunks that a page break may separate; no cue is in two of them. */
function chunksOf(
  cells: readonly GridCell[],
  set: (spans: readonly Span[]) => readonly Line[],
  first: readonly Span[],
): readonly (readonly Line[])[] {
  const chunks: (readonly Line[])[] = [];
  let spans = first;
  for (const { text } of cells) {
    const more = [...spans, ...text.listed, { text: " " }];
    if (spans.length > 0 && set(more).length > chunk) {
      chunks.push(set(spans));
      spans = text.listed;
    } else spans = more;
  }
  return [...chunks, set(spans)];
}

function listedLayout(
  context: RowContext,
  whole: Box,
  lines: readonly Line[],
  { first, last }: { readonly first: boolean; readonly last: boolean },
): RowLayout {
  const { row } = context;
  const top = context.top + (first ? countStripHeight : 0);
  return {
    row,
    height: top + linesHeight(lines) + (last ? inset.left : 0),
    opens: first,
    ground: () => (first ? rowGround(context, [whole], top) : []),
    cells: (position) => {
      const strip = { ...position, y: position.y + context.top };
      const hits = first ? row.cells.flatMap((cell) => stripHit(context, cell, strip)) : [];
      const text = stackLines(lines, { ...position, x: position.x + inset.left, y: position.y + top });
      const cues: StructureElement = { tag: "P", content: [...hits, ...text] };
      return [
        {
          tag: "TD",
          ...spanning(whole.to),
          content: [...(first ? dancersLabel(row, whole.to * context.column, position) : []), cues],
        },
      ];
    },
  };
}

const headHeight = ({ dancers }: Row): number => (dancers === undefined ? 0 : callHeight);

/** The name of the group whose row it is. */
function dancersLabel({ dancers }: Row, width: number, position: Position): readonly StructureElement[] {
  const fits = (text: string) => textWidth(text, smallest, "bold") <= width - inset.left;
  const [set] = dancers === undefined ? [] : wrap([{ text: shortened(dancers, fits), style: "bold" }], smallest);
  return set === undefined
    ? []
    : [{ tag: "P", content: [{ ...position, x: position.x + inset.left, y: position.y + 2, line: set }] }];
}

function callsFit(row: Row, column: number, { print }: Wording): boolean {
  return (row.phrase.say ?? []).every(
    (text) => textWidth(print.quoted(text), smallest, "italic") <= column - inset.left,
  );
}

function callElement(text: string, position: Position): StructureElement {
  const [set] = wrap([{ text, style: "italic", tone: "soft" }], smallest);
  return { tag: "P", content: set === undefined ? [] : [{ ...position, y: position.y + 1.5, line: set }] };
}
