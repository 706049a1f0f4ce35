import type { Position, StructureElement } from "../../typesetting/print.js";
import { line, moved, type Shape } from "../../typesetting/shape.js";
import { close, type Line, type Span, textWidth, widestWord, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { GridCell, Row } from "./bands.js";
import {
  type CellLayout,
  hitFigure,
  inset,
  labelStrip,
  layoutCell,
  linesHeight,
  smallest,
  stackLines,
} from "./cell.js";
import { type Columns, phraseColumn } from "./columns.js";
import { type CellOption, type OptionsOf, optionsText } from "./options.js";
import { type Box, type CountRange, listedStrip, type RowContext, rowGround } from "./row-ground.js";

/** A row of the grid, or a continuation of one that is too tall to stay on one page. */
export interface RowLayout {
  readonly row: Row;
  readonly height: number;
  /** False of a continuation. */
  readonly opens: boolean;
  /** How many counts have their moves in a list rather than each in its own place. */
  readonly listed: number;
  /** Height of what stands over the counts: a group's name, what is called. */
  readonly top: number;
  /** Whether what is called stands over the counts. */
  readonly calls: boolean;
  /** The cells of its table row, drawn from the row's top left corner. */
  readonly cells: (position: Position) => readonly StructureElement[];
  /** Grounds, rules and ticks for a row of this height, from the same corner. */
  readonly ground: (height: number) => readonly Shape[];
}

/** What a grid's rows are set in: cues in `size` points, all counts `width` points wide. */
export interface RowStyle {
  readonly size: number;
  readonly width: number;
  readonly columns: Columns;
  readonly wording: Wording;
  readonly optionsOf: OptionsOf;
}

/** A range of counts whose cues take more lines than this is joined with the next, to be wider. */
const mostLines = 8;
/** Most lines of cues under a row that are kept on one page. */
const chunk = 12;
export const callHeight = 11.5;

/** Sets a phrase. */
export function layoutRow(row: Row, { size, width, columns, wording, optionsOf }: RowStyle): readonly RowLayout[] {
  if (row.uncounted !== undefined) return [uncountedRow(row, row.uncounted, width, size)];
  const x = (count: number) => columns(row.offset + count);
  const calls = callsFit(row, x, wording);
  const name = row.dancers === undefined || namedBeside(row) ? 0 : callHeight;
  const top = name + (calls && row.phrase.say?.some(Boolean) ? callHeight : 0);
  const context: RowContext = { wording, row, x, width, size, top, name, optionsOf };
  const boxes = calls ? boxesOf(context) : [];
  const [only] = boxes;
  if (only === undefined || (boxes.length === 1 && only.listed)) return listedRow({ ...context, top: name });
  return [boxedRow(context, boxes)];
}

/** Whether the column before the counts holds a group's name and the number of its phrase in one line. */
export function namedBeside({ dancers, facesApart, phrase }: Row): boolean {
  return (
    dancers !== undefined &&
    !facesApart &&
    textWidth(`${dancers} ${phrase.number}`, smallest, "bold") <= phraseColumn - 2
  );
}

/** Time without counts: what it is, across all columns. */
function uncountedRow(row: Row, text: string, width: number, size: number): RowLayout {
  const lines = wrap([{ text, style: "italic", tone: "soft" }], size, width - 2 * inset.left);
  return {
    row,
    height: linesHeight(lines) + inset.top + inset.bottom,
    opens: true,
    listed: 0,
    top: 0,
    calls: false,
    ground: () => [],
    cells: (position) => {
      const content = stackLines(lines, { ...position, x: position.x + inset.left, y: position.y + inset.top });
      return [{ tag: "TD", ...spanning(row.columns), content: [{ tag: "P", content }] }];
    },
  };
}

const listedCounts = (boxes: readonly Box[]): number =>
  boxes.reduce((sum, { listed, from, to }) => sum + (listed ? to - from : 0), 0);

/** What other levels dance in a row, under all of it. */
interface Strip {
  readonly lines: readonly Line[];
  readonly height: number;
}

function stripOf(options: readonly CellOption[], width: number, wording: Wording): Strip {
  const lines = wrap(optionsText(options, wording), smallest, width - 2 * inset.left);
  return { lines, height: lines.length === 0 ? 0 : linesHeight(lines, close) + 4 };
}

function boxedRow(context: RowContext, boxes: readonly Box[]): RowLayout {
  const { wording, row, x, top } = context;
  const wide = x(row.phrase.numbers.length) - x(0);
  const all = optionsIn(context, row.cells, () => true);
  const left = boxes.flatMap((box) =>
    optionsIn(context, box.cells, (one, cell) => !standsInside(context, box, cell, one)),
  );
  const tallest = (heights: readonly number[]) => Math.max(labelStrip, ...heights) + top;
  // In their cells they are found at once; where that would make the row taller than lines under it do, they stand there.
  const [inside, under] = [stripOf(left, wide, wording), stripOf(all, wide, wording)];
  const [own, plain] = [tallest(boxes.map(({ whole }) => whole)), tallest(boxes.map(({ height }) => height))];
  const withOptions = own + inside.height <= plain + under.height;
  const strip = withOptions ? inside : under;
  return {
    row,
    height: (withOptions ? own : plain) + strip.height,
    opens: true,
    listed: listedCounts(boxes),
    top,
    calls: top > context.name,
    ground: (height) => [
      ...rowGround(context, boxes, height - strip.height, withOptions),
      ...(strip.height === 0 ? [] : stripRules(context, height - strip.height, height)),
    ],
    cells: (position) => {
      const cells = boxes.map(
        ({ from, to, content }): StructureElement => ({
          tag: "TD",
          ...spanning(to - from),
          content: [
            ...callsOver(context, from, to, position),
            ...content({ ...position, y: position.y + top }, withOptions),
          ],
        }),
      );
      const last = cells.at(-1);
      if (last === undefined || strip.height === 0) return cells;
      const at = { ...position, x: position.x + x(0) + inset.left };
      const y = position.y + (withOptions ? own : plain) + 1.5;
      const options: StructureElement = { tag: "P", content: stackLines(strip.lines, { ...at, y }, close) };
      return [...cells.slice(0, -1), { ...last, content: [...last.content, options] }];
    },
  };
}

/** A thin rule over what other levels dance, and the edges of the row beside it. */
function stripRules({ row, x }: RowContext, from: number, to: number): readonly Shape[] {
  const [left, right] = [x(0), x(row.phrase.numbers.length)];
  return [
    line("line", 0.6, [left, from], [right, from]),
    ...[left, right].map((at) => line("line", 0.5, [at, from], [at, to])),
  ];
}

function optionsIn(
  { optionsOf }: RowContext,
  cells: readonly GridCell[],
  keep: (option: CellOption, cell: GridCell) => boolean,
): readonly CellOption[] {
  return cells.flatMap((cell) => (cell.begins ? optionsOf(cell).filter((one) => keep(one, cell)) : []));
}

/** Whether an option can stand in the cell of its move: it is for these counts, and no word of it is wider. */
function standsInside({ x }: RowContext, { listed }: Pick<Box, "listed">, cell: GridCell, option: CellOption): boolean {
  const room = x(cell.to) - x(cell.from) - inset.left - (cell.ends ? inset.right : inset.open);
  return !listed && option.same && widestWord(option.text, smallest) <= room;
}

/** What is called on the counts of a box. A move's own call stands with it, and comes before its phrase's. */
function callsOver(
  { wording, row, x, name }: RowContext,
  first: number,
  after: number,
  position: Position,
): readonly StructureElement[] {
  return (row.phrase.say ?? []).slice(first, after).flatMap((text, index): readonly StructureElement[] => {
    const count = first + index;
    if (text === "" || row.cells.some(({ move, from, to }) => move.say !== undefined && from <= count && count < to))
      return [];
    const at = { ...position, x: position.x + x(count) + inset.left, y: position.y + name };
    return [callElement(wording.print.quoted(text), at)];
  });
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
      if (before === undefined) return [];
      range = joined(before, range);
      box = listedBox(context, range);
    }
    boxes.push(box);
  }
  return boxes;
}

/** Counts that no move ties together are ranges of their own; those that nobody wrote are one hold. */
function rangesOf({ phrase, cells }: Row): readonly CountRange[] {
  const ranges: CountRange[] = [];
  for (let from = 0, to = 1; from < phrase.numbers.length; from = to, to++) {
    while (to < phrase.numbers.length && cells.some((cell) => cell.from < to && to < cell.to)) to++;
    const own = cells.filter((cell) => from <= cell.from && cell.from < to);
    const before = ranges.at(-1);
    if (own.length === 0 && before?.cells.length === 0) ranges.splice(-1, 1, { ...before, to });
    else ranges.push({ from, to, cells: own });
  }
  return ranges;
}

function joined(one: CountRange, other: CountRange): CountRange {
  return { from: one.from, to: other.to, cells: [...one.cells, ...other.cells] };
}

/** Each move in its own counts; undefined where one does not fit. */
function ownBox(context: RowContext, range: CountRange): Box | undefined {
  const { wording, x, size } = context;
  if (range.cells.length === 0) return heldBox(context, range);
  const set = range.cells.map((cell) => {
    const options = optionsIn(context, [cell], (one) => standsInside(context, { listed: false }, cell, one));
    return layoutCell(
      cell,
      x(cell.to) - x(cell.from),
      size,
      wording,
      options.map(({ text }) => text),
    );
  });
  const fitting = set.filter((cell): cell is CellLayout => cell !== undefined && cell.lines <= mostLines);
  if (fitting.length < set.length) return undefined;
  const left = (index: number) => x(range.cells[index]?.from ?? 0);
  return {
    ...range,
    listed: false,
    height: Math.max(0, ...fitting.map(({ height }) => height)),
    whole: Math.max(0, ...fitting.map(({ height, more }) => height + more)),
    content: (position, withOptions) =>
      fitting.flatMap(({ height, place, placeMore }, index): readonly StructureElement[] => {
        const at = { ...position, x: position.x + left(index) };
        return [place(at), ...(withOptions ? placeMore(at, height) : [])];
      }),
    rules: () => fitting.flatMap(({ height, rules }, index) => moved(rules(height), left(index), 0)),
  };
}

/** Counts that nobody wrote: a hold, as on the page. */
function heldBox({ wording, row, x, size }: RowContext, range: CountRange): Box {
  const { from, to } = range;
  const [first, last] = [row.phrase.numbers[from], row.phrase.numbers[to - 1]];
  const on = wording.counts.span(first === last ? `${first}` : `${first}-${last}`);
  const label = wrap([{ text: on, style: "bold" }], smallest);
  const hold = wrap([{ text: wording.counts.hold, style: "italic", tone: "soft" }], size);
  const fits = Math.max(...[...label, ...hold].map(({ width }) => width)) <= x(to) - x(from) - inset.left - inset.right;
  const height = fits ? labelStrip + 0.5 + linesHeight(hold, close) + inset.bottom : 0;
  return {
    ...range,
    listed: false,
    height,
    whole: height,
    rules: () => [],
    content: (position) => {
      const at = { ...position, x: position.x + x(from) + inset.left };
      const content = [
        ...stackLines(label, { ...at, y: position.y + inset.top }),
        ...stackLines(hold, { ...at, y: position.y + labelStrip + 0.5 }, close),
      ];
      return fits ? [{ tag: "P", content }] : [];
    },
  };
}

/** The moves one under the other, each by its counts; undefined where that takes too many lines or a word is too wide. */
function listedBox({ wording, row, x, size }: RowContext, range: CountRange): Box | undefined {
  const width = x(range.to) - x(range.from) - inset.left - inset.right;
  const hang = range.cells.some(lands) ? inset.hit + 1 : 0;
  const spans = range.cells.map(({ text }) => text.listed);
  if (spans.some((one) => widestWord(one, size) > width - hang)) return undefined;
  const lines = spans.map((one) => wrap(one, size, width - hang));
  if (lines.flat().length > mostLines) return undefined;
  const strip = listedStrip(row, range);
  const height = strip + linesHeight(lines.flat(), close) + 4;
  return {
    ...range,
    listed: true,
    height,
    whole: height,
    rules: () => [],
    content: (position) => {
      const left = position.x + x(range.from) + inset.left;
      let y = position.y + strip;
      return range.cells.map((cell, index): StructureElement => {
        const own = lines[index] ?? [];
        const at = { ...position, x: left, y };
        y += linesHeight(own, close);
        const hit = lands(cell) ? [hitFigure({ ...at, y: at.y + 2 }, wording)] : [];
        return { tag: "P", content: [...hit, ...stackLines(own, { ...at, x: left + hang }, close)] };
      });
    },
  };
}

const lands = ({ move, begins }: GridCell): boolean => move.hit && begins;

/** The last resort, for cues that no range of the row can hold: they run on under an empty strip of counts. */
function listedRow(context: RowContext): readonly RowLayout[] {
  const { wording, row, size } = context;
  const width = context.width - 2 * inset.left;
  const called = (row.phrase.say ?? []).filter(Boolean);
  const say: readonly Span[] = called.length === 0 ? [] : [{ text: wording.print.calledOver(called), style: "italic" }];
  const others = optionsText(
    optionsIn(context, row.cells, () => true),
    wording,
  );
  const chunks = [
    ...chunksOf(row.cells, (spans) => wrap(spans, size, width), say),
    ...(others.length === 0 ? [] : [wrap(others, smallest, width)]),
  ];
  const whole: Box = {
    from: 0,
    to: row.phrase.numbers.length,
    cells: row.cells,
    listed: true,
    height: 0,
    whole: 0,
    content: () => [],
    rules: () => [],
  };
  return chunks.map((lines, index) => {
    const below = index === 0 ? context : { ...context, top: 0, name: 0 };
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
  const { wording, row, x } = context;
  const hits = first ? row.cells.filter(lands) : [];
  const top = context.top + (first ? (hits.length > 0 ? inset.hit * 1.5 : listedStrip(row, whole)) : 0);
  return {
    row,
    height: top + linesHeight(lines) + (last ? inset.left : 0),
    opens: first,
    listed: first ? whole.to : 0,
    top: context.top,
    calls: false,
    ground: () => (first ? rowGround(context, [whole], top, false) : []),
    cells: (position) => {
      const strip = { ...position, y: position.y + context.top };
      const signs = hits.map(({ from }) => hitFigure({ ...strip, x: position.x + x(from) }, wording));
      const text = stackLines(lines, { ...position, x: position.x + inset.left, y: position.y + top });
      return [{ tag: "TD", ...spanning(whole.to), content: [{ tag: "P", content: [...signs, ...text] }] }];
    },
  };
}

function callsFit(row: Row, x: RowContext["x"], { print }: Wording): boolean {
  return (row.phrase.say ?? []).every(
    (text, count) => textWidth(print.quoted(text), smallest, "italic") <= x(count + 1) - x(count) - inset.left,
  );
}

function callElement(text: string, position: Position): StructureElement {
  const [set] = wrap([{ text, style: "italic", tone: "soft" }], smallest);
  return { tag: "P", content: set === undefined ? [] : [{ ...position, y: position.y + 1, line: set }] };
}
