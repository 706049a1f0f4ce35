import type { Part, Spot } from "../../typesetting/print.js";
import type { Shape } from "../../typesetting/shape.js";
import { type Line, type Span, textWidth, widestWord, wrap } from "../../typesetting/text.js";
import type { Cell, Row } from "./bands.js";
import { type CellLayout, heightOf, hitFigure, layoutCell, smallest, stackLines } from "./cell.js";
import { type Bed, type Box, countStripHeight, inset, rowGround, type Stretch } from "./row-ground.js";

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

/** More lines than this, and a stretch looks for more room. */
const mostLines = 8;
/** Lines of a whole row of cues that stay on one page. */
const chunk = 12;
const callHeight = 11;

/** Sets a phrase in a grid `width` points wide, its cues in `size` points or, if that keeps them in their counts, in less. */
export function layoutRow(row: Row, width: number, size: number): readonly RowLayout[] {
  const column = width / row.columns;
  const calls = callsFit(row, column);
  const top = headHeight(row) + (calls && row.phrase.say !== undefined ? callHeight : 0);
  let best: readonly Box[] | undefined;
  for (let type = size; type >= smallest; type -= 0.5) {
    const boxes = calls ? boxesOf({ row, column, size: type, top }) : undefined;
    if (best === undefined || (boxes !== undefined && keyedCounts(boxes) < keyedCounts(best))) best = boxes;
    if (best !== undefined && keyedCounts(best) === 0) break;
  }
  const [only] = best ?? [];
  if (best === undefined || (best.length === 1 && only?.keyed === true)) return keyedRow(row, column, size);
  return [boxedRow({ row, column, size, top }, best)];
}

const keyedCounts = (boxes: readonly Box[]): number =>
  boxes.reduce((sum, { keyed, from, to }) => sum + (keyed ? to - from : 0), 0);

function boxedRow(bed: Bed, boxes: readonly Box[]): RowLayout {
  const { row, column, top } = bed;
  return {
    row,
    height: Math.max(countStripHeight, ...boxes.map(({ height }) => height)) + top,
    opens: true,
    ground: (height) => rowGround(bed, boxes, height),
    cells: (spot) => {
      const calls = (row.phrase.say ?? []).map((text, count) =>
        callPart(text, {
          ...spot,
          x: spot.x + (row.offset + count) * column + inset.left,
          y: spot.y + headHeight(row),
        }),
      );
      return boxes.map(({ from, to, content }, index) => ({
        tag: "TD",
        ...spanning(to - from),
        content: [
          ...(index === 0 ? dancersPart(row, spot) : []),
          ...calls.slice(from, to),
          ...content({ ...spot, y: spot.y + top }),
        ],
      }));
    },
  };
}

const spanning = (count: number) => (count > 1 ? { columns: count } : {});

/** A row's stretches as boxes, each as narrow as its words allow. */
function boxesOf(bed: Bed): readonly Box[] {
  const stretches = stretchesOf(bed.row);
  const boxes: Box[] = [];
  for (let index = 0; index < stretches.length; index++) {
    let stretch = stretches[index];
    if (stretch === undefined) break;
    let box = ownBox(bed, stretch) ?? keyedBox(bed, stretch);
    while (box === undefined && index + 1 < stretches.length) {
      index += 1;
      stretch = joined(stretch, stretches[index] ?? stretch);
      box = keyedBox(bed, stretch);
    }
    while (box === undefined) {
      const before = boxes.pop();
      if (before === undefined) return [{ ...stretch, keyed: true, height: 0, content: () => [] }];
      stretch = joined(before, stretch);
      box = keyedBox(bed, stretch);
    }
    boxes.push(box);
  }
  return boxes;
}

/** Counts that no move ties together are stretches of their own. */
function stretchesOf({ phrase, cells }: Row): readonly Stretch[] {
  const stretches: Stretch[] = [];
  for (let from = 0, to = 1; from < phrase.numbers.length; from = to, to++) {
    while (to < phrase.numbers.length && cells.some((cell) => cell.from < to && to < cell.to)) to++;
    stretches.push({ from, to, cells: cells.filter((cell) => from <= cell.from && cell.from < to) });
  }
  return stretches;
}

function joined(one: Stretch, other: Stretch): Stretch {
  return { from: one.from, to: other.to, cells: [...one.cells, ...other.cells] };
}

/** Each move in its own counts; undefined where one does not fit. */
function ownBox({ row, column, size }: Bed, stretch: Stretch): Box | undefined {
  const set = stretch.cells.map((cell) => layoutCell(cell, (cell.to - cell.from) * column, size));
  const fitting = set.filter((cell): cell is CellLayout => cell !== undefined && cell.lines <= mostLines);
  if (fitting.length < set.length) return undefined;
  return {
    ...stretch,
    keyed: false,
    height: Math.max(0, ...fitting.map(({ height }) => height)),
    content: (spot) =>
      stretch.cells.flatMap(({ from }, index): readonly Part[] => {
        const part = fitting[index]?.place({ ...spot, x: spot.x + (row.offset + from) * column });
        return part === undefined ? [] : [part];
      }),
  };
}

/** The moves one under the other, each by its counts; undefined where that takes too many lines or a word is too wide. */
function keyedBox({ row, column, size }: Bed, stretch: Stretch): Box | undefined {
  const width = (stretch.to - stretch.from) * column - inset.left - inset.right;
  const spans = stretch.cells.map(({ text }) => text.keyed);
  if (spans.some((one) => widestWord(one, size) > width)) return undefined;
  const lines = spans.map((one) => wrap(one, size, width));
  if (lines.flat().length > mostLines) return undefined;
  return {
    ...stretch,
    keyed: true,
    height: countStripHeight + heightOf(lines.flat()) + 4,
    content: (spot) => {
      const x = spot.x + (row.offset + stretch.from) * column + inset.left;
      let y = spot.y + countStripHeight;
      return stretch.cells.map((cell, index): Part => {
        const own = lines[index] ?? [];
        const at = { ...spot, x, y };
        y += heightOf(own);
        return { tag: "P", content: [...stripHit(row, cell, column, spot), ...stackLines(own, at)] };
      });
    },
  };
}

/** A hit in the strip over keyed cues. */
function stripHit(row: Row, cell: Cell, column: number, spot: Spot): readonly Part[] {
  const x = spot.x + (row.offset + cell.from) * column;
  return cell.move.hit && cell.begins ? [hitFigure({ ...spot, x })] : [];
}

/** The last resort, for cues that no stretch of the row can hold: they run on under an empty strip of counts. */
function keyedRow(row: Row, column: number, size: number): readonly RowLayout[] {
  const width = row.columns * column - 2 * inset.left;
  const say: readonly Span[] =
    row.phrase.say === undefined ? [] : [{ text: `Called: “${row.phrase.say.join(" · ")}” `, style: "italic" }];
  const chunks = chunksOf(row.cells, (spans) => wrap(spans, size, width), say);
  const whole: Box = {
    from: 0,
    to: row.phrase.numbers.length,
    cells: row.cells,
    keyed: true,
    height: 0,
    content: () => [],
  };
  return chunks.map((lines, index) => {
    const bed: Bed = { row, column, size, top: index === 0 ? headHeight(row) : 0 };
    return keyedPart(bed, whole, lines, { first: index === 0, last: index === chunks.length - 1 });
  });
}

/** Cues in lines, in chunks that a page break may part; no cue is in two of them. */
function chunksOf(
  cells: readonly Cell[],
  set: (spans: readonly Span[]) => readonly Line[],
  first: readonly Span[],
): readonly (readonly Line[])[] {
  const chunks: (readonly Line[])[] = [];
  let spans = first;
  for (const { text } of cells) {
    const more = [...spans, ...text.keyed, { text: " " }];
    if (spans.length > 0 && set(more).length > chunk) {
      chunks.push(set(spans));
      spans = text.keyed;
    } else spans = more;
  }
  return [...chunks, set(spans)];
}

function keyedPart(
  bed: Bed,
  whole: Box,
  lines: readonly Line[],
  { first, last }: { readonly first: boolean; readonly last: boolean },
): RowLayout {
  const { row, column } = bed;
  const top = bed.top + (first ? countStripHeight : 0);
  return {
    row,
    height: top + heightOf(lines) + (last ? inset.left : 0),
    opens: first,
    ground: () => (first ? rowGround(bed, [whole], top) : []),
    cells: (spot) => {
      const strip = { ...spot, y: spot.y + bed.top };
      const hits = first ? row.cells.flatMap((cell) => stripHit(row, cell, column, strip)) : [];
      const text = stackLines(lines, { ...spot, x: spot.x + inset.left, y: spot.y + top });
      const cues: Part = { tag: "P", content: [...hits, ...text] };
      return [{ tag: "TD", ...spanning(whole.to), content: [...(first ? dancersPart(row, spot) : []), cues] }];
    },
  };
}

const headHeight = ({ dancers }: Row): number => (dancers === undefined ? 0 : callHeight);

/** The name of the group whose row it is. */
function dancersPart({ dancers }: Row, spot: Spot): readonly Part[] {
  const [set] = dancers === undefined ? [] : wrap([{ text: dancers, style: "bold" }], smallest);
  return set === undefined
    ? []
    : [{ tag: "P", content: [{ ...spot, x: spot.x + inset.left, y: spot.y + 2, line: set }] }];
}

function callsFit(row: Row, column: number): boolean {
  return (row.phrase.say ?? []).every((text) => textWidth(`“${text}”`, smallest, "italic") <= column - inset.left);
}

function callPart(text: string, spot: Spot): Part {
  const [set] = wrap([{ text: `“${text}”`, style: "italic", tone: "soft" }], smallest);
  return { tag: "P", content: set === undefined ? [] : [{ ...spot, y: spot.y + 1.5, line: set }] };
}
