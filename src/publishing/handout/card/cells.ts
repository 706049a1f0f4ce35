import { aloud } from "../../../routine/calls.js";
import type { Cue } from "../../../routine/cue.js";
import { type Line, leading, type Span, textWidth, widestWord, wrap } from "../../../typesetting/text.js";
import type { Wording } from "../../../wording/wording.js";
import { theirs } from "../../paper/theirs.js";
import { type CardCell, type CardRow, countOf } from "./rows.js";

/** How large a card is set, and how much is said. */
export interface Setting {
  readonly size: number;
  /** Whether a move is cut down to the fewest words that say it, wherever it stands. */
  readonly short: boolean;
  /** Whether it is set close: moves that make their row tall stand together with their neighbours. */
  readonly close: boolean;
}

export interface CellFrame extends Setting {
  /** Of a column, in points. */
  readonly column: number;
  readonly wording: Wording;
}

/** A move set in its columns. */
export interface Entry {
  readonly cell: CardCell;
  readonly lines: readonly Line[];
  /** Where the sign of a caution stands: on which line, and how far from its start. */
  readonly sign: { readonly line: number; readonly x: number } | undefined;
}

/** Where it stands in its box: on which of its lines, and how far from the left. */
export interface PlacedEntry extends Entry {
  readonly at: { readonly line: number; readonly x: number };
}

/** Columns that are one cell of the table. */
export interface Box {
  readonly from: number;
  readonly to: number;
  readonly entries: readonly PlacedEntry[];
  /** Whether counts stand in it together that would have been a cell each. */
  readonly joined: boolean;
}

/** Nothing on a card is smaller. */
export const least = 12;
export const pad = { left: 5, right: 3 };
/** Over what stands in a row, and under it. */
export const padY = ({ close }: Pick<Setting, "close">): number => (close ? 1.5 : 3);
/** Most lines of a move where there are fewer words to say it in, and before it takes the room of its neighbours. */
const [easyLines, mostLines] = [2, 3];
/** A call of about so many letters on one count, so many more on each further one, and no more than two lines hold (common practice, no source). */
const letters = { first: 14, further: 24, most: 40 };

export const signRadius = (size: number): number => size * 0.48;
const signRoom = (size: number): number => signRadius(size) * 2 + 4;

/** Height of a row of so many lines. */
export const rowHeight = (setting: Setting, lines = 1): number => lines * setting.size * leading + 2 * padY(setting);

/** Height of what stands in a box. */
export const boxHeight = (box: Box, setting: Setting): number => rowHeight(setting, boxLines(box));

const boxLines = ({ entries }: Pick<Box, "entries">): number =>
  Math.max(0, ...entries.map((entry) => entry.at.line + linesOf(entry)));

/** One under the other; set close, beside each other as far as there is room. */
function placed(entries: readonly Entry[], beside: boolean, width: number, size: number): readonly PlacedEntry[] {
  let [line, x] = [0, 0];
  return entries.map((entry): PlacedEntry => {
    const own = Math.max(entry.lines[0]?.width ?? 0, entry.sign === undefined ? 0 : entry.sign.x + signRoom(size) - 4);
    const single = linesOf(entry) === 1;
    if (x > 0 && !(beside && single && x + own <= width)) [line, x] = [line + 1, 0];
    const at = { line, x };
    if (single) x += own + between;
    else [line, x] = [line + linesOf(entry), 0];
    return { ...entry, at };
  });
}

/** Between moves that stand beside each other. */
const between = 11;

/** Its lines, that of a sign alone included. */
export const linesOf = ({ lines, sign }: Entry): number => Math.max(lines.length, (sign?.line ?? 0) + 1);

/** A row's moves in the columns of their counts; those whose words are too long for that together with their neighbours. */
export function setBoxes(row: CardRow, columns: number, frame: CellFrame): readonly Box[] {
  const boxes = boxesOf(row, columns, frame);
  return frame.close ? lowered(boxes, columns, frame) : boxes;
}

/** Whether counts stand together that would not in the smallest type. */
export function isCrowded(
  row: CardRow,
  boxes: readonly Box[],
  frame: CellFrame & { readonly columns: number },
): boolean {
  const joined = (all: readonly Box[]) => all.filter((box) => box.joined).length;
  if (joined(boxes) === 0) return false;
  return joined(boxes) > joined(setBoxes(row, frame.columns, { ...frame, size: least, short: false, close: false }));
}

/** The tallest box takes the room of a neighbour as long as that makes the row lower. */
function lowered(boxes: readonly Box[], columns: number, frame: CellFrame): readonly Box[] {
  const tallest = Math.max(...boxes.map(boxLines));
  const at = boxes.findIndex((box) => boxLines(box) === tallest);
  const box = boxes[at];
  if (box === undefined || tallest < 2) return boxes;
  const [before, after] = [boxes[at - 1], boxes[at + 1]];
  const cells = box.entries.map(({ cell }) => cell);
  const right = after?.from ?? columns;
  const wider = (from: number, to: number, taken: number) => ({ from, to, taken });
  const tries = [
    ...(right > box.to ? [wider(box.from, right, 0)] : []),
    ...(after === undefined ? [] : [wider(box.from, after.to, 1)]),
    ...(before === undefined ? [] : [wider(before.from, box.to, -1)]),
  ].flatMap(({ from, to, taken }) => {
    const others = (taken === 0 ? [] : [taken > 0 ? after : before]).flatMap((one) => one?.entries ?? []);
    const more = others.map(({ cell }) => cell);
    const set = setBox(
      { from, to, cells: taken < 0 ? [...more, ...cells] : [...cells, ...more] },
      taken !== 0 || box.joined,
      frame,
    );
    if (set === undefined || boxLines(set) >= tallest) return [];
    const [first, last] = [taken < 0 ? at - 1 : at, taken > 0 ? at + 1 : at];
    return [{ lines: boxLines(set), boxes: [...boxes.slice(0, first), set, ...boxes.slice(last + 1)] }];
  });
  const [best] = [...tries].sort((one, other) => one.lines - other.lines);
  return best === undefined ? boxes : lowered(best.boxes, columns, frame);
}

function boxesOf(row: CardRow, columns: number, frame: CellFrame): readonly Box[] {
  const ranges = rangesOf(row.cells);
  const boxes: Box[] = [];
  for (let index = 0; index < ranges.length; index++) {
    let range = ranges[index] ?? { from: 0, to: columns, cells: [] };
    let box = setBox(range, false, frame);
    // First the empty counts after it, then its neighbours.
    while (box === undefined && (ranges[index + 1]?.from ?? columns) > range.to) {
      range = { ...range, to: range.to + 1 };
      box = setBox(range, false, frame);
    }
    while (box === undefined && index + 1 < ranges.length) {
      index += 1;
      range = joined(range, ranges[index] ?? range);
      box = setBox(range, true, frame);
    }
    while (box === undefined && boxes.length > 0) {
      range = joined(boxes.pop() ?? range, range);
      box = setBox(range, true, frame);
    }
    boxes.push(box ?? lastResort({ ...range, from: 0, to: columns }, frame));
  }
  return boxes;
}

interface Range {
  readonly from: number;
  readonly to: number;
  readonly cells: readonly CardCell[];
}

/** Whole columns that no move ties together. */
function rangesOf(cells: readonly CardCell[]): readonly Range[] {
  const ranges: Range[] = [];
  for (const cell of cells) {
    const [from, to] = [Math.floor(cell.from), Math.ceil(cell.to)];
    const last = ranges.at(-1);
    if (last !== undefined && from < last.to)
      ranges[ranges.length - 1] = { from: last.from, to: Math.max(to, last.to), cells: [...last.cells, cell] };
    else ranges.push({ from, to, cells: [cell] });
  }
  return ranges;
}

function joined(one: Range | Box, other: Range): Range {
  const cells = "cells" in one ? one.cells : one.entries.map(({ cell }) => cell);
  return { from: one.from, to: other.to, cells: [...cells, ...other.cells] };
}

/** Undefined where a word is too wide, or a move takes too many lines. */
function setBox(range: Range, isJoined: boolean, frame: CellFrame): Box | undefined {
  const width = (range.to - range.from) * frame.column - pad.left - pad.right;
  const alone = range.cells.length === 1;
  const entries = range.cells.flatMap((cell, index) => {
    const label = labelIn(range, cell, index);
    return setEntry(cell, label, { width, columns: range.to - range.from, alone }, frame) ?? [];
  });
  if (entries.length < range.cells.length) return undefined;
  const tall = Math.max(...entries.map(linesOf)) > mostLines && !isJoined;
  const set = placed(entries, isJoined && frame.close, width, frame.size);
  return tall ? undefined : { from: range.from, to: range.to, entries: set, joined: isJoined };
}

/** The count of a move that its column does not say; on a count that has been said, the part of it alone: "&". */
function labelIn({ from, cells }: Range, cell: CardCell, index: number): string | undefined {
  if (!cell.begins) return undefined;
  const label = cell.label ?? (cell.from === from ? undefined : countOf(cell.cell));
  const earlier = cells.slice(0, index).some((one) => Math.floor(one.from) === Math.floor(cell.from));
  if (label === undefined || !(earlier || Math.floor(cell.from) === from)) return label;
  const part = label.replace(/^\d+/, "");
  return part === "" || (cell.label !== undefined && Number.isInteger(cell.from)) ? label : part;
}

interface Room {
  readonly width: number;
  readonly columns: number;
  /** Whether nothing else is done there. */
  readonly alone: boolean;
}

/** The longest way of calling it that has room; else the one that takes the fewest lines. */
function setEntry(cell: CardCell, label: string | undefined, room: Room, frame: CellFrame): Entry | undefined {
  const { size, short, wording } = frame;
  const { width, alone } = room;
  const most = Math.min(letters.most, letters.first + letters.further * (room.columns - 1));
  const set: { readonly way: string; readonly entry: Entry }[] = [];
  for (const way of waysOf(cell, most, wording)) {
    const spans = spansOf(cell, label, way, wording);
    if (widestWord(spans, size) > width) continue;
    const entry = withSign(cell, wrap(spans, size, width), width, size);
    // Mostly the longest has room.
    if (alone && !short && way.length <= most && linesOf(entry) <= easyLines) return entry;
    set.push({ way, entry });
  }
  const fewest = Math.min(...set.map(({ entry }) => linesOf(entry)));
  const good = set.filter(({ way, entry }) => way.length <= most && linesOf(entry) <= Math.max(easyLines, fewest));
  const pick = alone && !short ? good : good.filter(({ entry }) => linesOf(entry) === fewest);
  return (pick.at(short ? -1 : 0) ?? set.find(({ entry }) => linesOf(entry) === fewest))?.entry;
}

/** Cues are set in several sizes, and stand on the cards of several versions: their words are worked out once. */
const waysKnown = new WeakMap<Cue, Map<number, readonly string[]>>();
const spansKnown = new WeakMap<Cue, Map<string, readonly Span[]>>();

function known<Key, Value>(all: WeakMap<Cue, Map<Key, Value>>, cue: Cue, key: Key, find: () => Value): Value {
  const own = all.get(cue) ?? new Map<Key, Value>();
  if (own.size === 0) all.set(cue, own);
  const before = own.get(key);
  if (before !== undefined) return before;
  const found = find();
  own.set(key, found);
  return found;
}

/** What may be called, the longest first: what the author says is called whole. */
function waysOf({ cell, begins }: CardCell, most: number, { card, print }: Wording): readonly string[] {
  const { say, hold, improvised, cue } = cell.move;
  if (!begins) return [card.goesOn];
  const calls = aloud(say);
  if (calls.length > 0) return [print.calls(calls.map((call) => call.cue.text))];
  if (improvised) return [card.own];
  if (hold) return [card.hold];
  return known(waysKnown, cue, most, () => {
    const forms = card.forms(cue.text);
    const shortest = forms.at(-1) ?? cue.text;
    return shortest.length <= most * 2 ? forms.map(together) : [...forms, card.cut(shortest, most)];
  });
}

/** A turn's size stays on the line of its side. */
const together = (text: string): string => text.replace(/ (?=\d?[¼½¾])/g, "\u00a0");

function spansOf({ cell, begins }: CardCell, label: string | undefined, way: string, wording: Wording) {
  const { say, hold, improvised, cue } = cell.move;
  const called = aloud(say).length > 0;
  const own = !begins || (!called && (hold || improvised));
  return known(spansKnown, cue, [label, own, called, way].join("\n"), (): readonly Span[] => [
    ...(label === undefined ? [] : [{ text: `${label}\u00a0`, style: "bold" } as const]),
    own ? { text: way } : theirs(way, wording, called ? { style: "bold" } : {}),
  ]);
}

/** The sign of a caution stands behind the words: on the last line that has room for it, or on one of its own. */
function withSign(cell: CardCell, lines: readonly Line[], width: number, size: number): Entry {
  if (!cell.begins || cell.cell.move.cautions.length === 0) return { cell, lines, sign: undefined };
  const line = lines.findLastIndex((one) => one.width + signRoom(size) <= width);
  const x = (lines[line]?.width ?? -4) + 4;
  return { cell, lines, sign: line < 0 ? { line: lines.length, x: 0 } : { line, x } };
}

/** What no columns can hold stands in all of them, and only there is a word ever broken. */
function lastResort(range: Range, { size, column, wording }: CellFrame): Box {
  const width = (range.to - range.from) * column - pad.left - pad.right;
  const entries = range.cells.map((cell, index): Entry => {
    const way = waysOf(cell, letters.most, wording).at(-1) ?? "";
    return withSign(cell, wrap(spansOf(cell, labelIn(range, cell, index), way, wording), size, width), width, size);
  });
  return { from: range.from, to: range.to, entries: placed(entries, false, width, size), joined: true };
}

/** Width of the column that names the groups, none where all dance the same. */
export function namesWidth(rows: readonly CardRow[], size: number): number {
  const names = rows.flatMap(({ dancers }) => (dancers === undefined ? [] : [textWidth(dancers, size, "bold") + 6]));
  return names.length === 0 ? 0 : Math.min(72, Math.max(...names));
}
