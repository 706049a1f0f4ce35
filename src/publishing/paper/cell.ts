import { lineContent } from "../../typesetting/block.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { line, type Shape } from "../../typesetting/shape.js";
import { close, type Line, leading, type Span, widestWord, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { cautionSign, facingSign, hitCorner } from "../drawing/signs.js";
import type { GridCell } from "./bands.js";

/** Smallest type on a sheet, and the size of everything beside the cues. */
export const smallest = 9;

/** Room for a sign and beside it. */
export const sign = { width: 9, gap: 3 };
/** Points between a cell's edges and what stands in it. */
export const inset = { left: 4, right: 2, top: 1, bottom: 2.5, hit: 6, open: 8 };
/** Height of the line of counts at the top of a cell, which an accent makes grey. */
export const labelStrip = 12;
/** Between a cue and the easier or harder way under it: room, a rule, room. */
const optionGap = 5;

/** A move set in its own span of the grid. */
export interface CellLayout {
  /** Without what other levels dance. */
  readonly height: number;
  readonly lines: number;
  /** What other levels dance adds to it. */
  readonly more: number;
  readonly place: (position: Position) => StructureElement;
  /** What other levels dance, under a cell that ends `height` points down, each under a rule; drawn from the cell's corner. */
  readonly placeMore: (position: Position, height: number) => readonly StructureElement[];
  readonly rules: (height: number) => readonly Shape[];
}

/**
 * Sets a move in the width of its counts; undefined where a word is wider than that.
 *
 * @param options what other levels dance in its place, a text each
 */
export function layoutCell(
  cell: GridCell,
  width: number,
  size: number,
  wording: Wording,
  options: readonly (readonly Span[])[] = [],
): CellLayout | undefined {
  const { move, begins } = cell;
  const left = inset.left + (move.hit && begins ? inset.hit - 2 : 0);
  const right = cell.ends ? inset.right : inset.open;
  const room = width - left - right;
  const { shown } = cell.text;
  const words = width - inset.left - right;
  const label = labelIn(cell, room);
  if (label === undefined || widestWord(shown, size) > words) return undefined;
  const [head] = wrap(label, smallest);
  const signs = cellSigns(cell, wording);
  const signsWidth = signs.length * (sign.width + sign.gap);
  const beside = (head?.width ?? 0) + signsWidth <= room;
  if (!beside && signsWidth > words) return undefined;
  const top = labelStrip + (beside ? 0 : labelStrip - 2);
  const lines = wrap(shown, size, words);
  const place = (position: Position): StructureElement => {
    const { page, x, y } = position;
    const labels: readonly Mark[] = head === undefined ? [] : [{ page, x: x + left, y: y + inset.top, line: head }];
    const signX = beside ? x + left + (head?.width ?? 0) + sign.gap : x + inset.left;
    const signY = y + top - labelStrip / 2;
    return {
      tag: "P",
      content: [
        ...labels,
        ...(move.hit && begins ? [hitFigure(position, wording)] : []),
        ...signs.map((one, index) => one({ page, x: signX + index * (sign.width + sign.gap), y: signY })),
        ...stackLines(lines, { page, x: x + inset.left, y: y + top + 0.5 }, close),
      ],
    };
  };
  return {
    height: top + 0.5 + linesHeight(lines, close) + inset.bottom,
    lines: lines.length,
    place,
    ...layoutOptions(options, words),
  };
}

/** Its counts; of a group that began later those of the music, with its own where there is room; undefined where there is none for either. */
function labelIn({ text: { label, late = label } }: GridCell, room: number): readonly Span[] | undefined {
  const fits = (spans: readonly Span[]) =>
    wrap(spans, smallest, room).length === 1 && widestWord(spans, smallest) <= room;
  return [late, late.slice(0, 1)].find(fits);
}

/** What other levels dance, one under the other, each under a short rule: another voice than the cue's. */
function layoutOptions(
  options: readonly (readonly Span[])[],
  width: number,
): Pick<CellLayout, "more" | "placeMore" | "rules"> {
  const set = options.map((spans) => wrap(spans, smallest, width));
  const heights = set.map((lines) => linesHeight(lines, close) + optionGap);
  const down = (index: number) => heights.slice(0, index).reduce((sum, one) => sum + one, 0);
  return {
    more: down(set.length),
    placeMore: ({ page, x, y }, height) =>
      set.map((lines, index) => {
        const top = y + height - inset.bottom + down(index) + optionGap;
        return { tag: "P", content: stackLines(lines, { page, x: x + inset.left, y: top }, close) };
      }),
    rules: (height) =>
      set.map((_, index) => {
        const y = height - inset.bottom + down(index) + optionGap / 2;
        return line("line", 0.6, [inset.left, y], [inset.left + Math.min(width, 40), y]);
      }),
  };
}

/** What a cell shows beside its counts: the new facing, a caution. Each is placed by the middle of its left edge. */
function cellSigns(
  { move, begins, turned }: GridCell,
  { print }: Wording,
): readonly ((position: Position) => StructureElement)[] {
  const middle = sign.width / 2;
  return [
    ...(turned === undefined
      ? []
      : [
          (position: Position) =>
            signFigure(print.nowFacing(turned), [facingSign(turned, [middle, 0], middle)], position),
        ]),
    ...(begins && move.cautions.length > 0
      ? [(position: Position) => signFigure(print.caution, cautionSign([middle, 0], middle), position)]
      : []),
  ];
}

/** A small sign as a figure with its meaning in words, placed by the middle of its left edge. */
export function signFigure(alt: string, shapes: readonly Shape[], position: Position): StructureElement {
  const half = sign.width / 2;
  const box = [position.x, position.y - half, position.x + sign.width, position.y + half] as const;
  return { tag: "Figure", alt, box, content: [{ ...position, shapes }] };
}

export function hitFigure(position: Position, { print }: Wording): StructureElement {
  const box = [position.x, position.y, position.x + inset.hit, position.y + inset.hit * 1.3] as const;
  return { tag: "Figure", alt: print.hit, box, content: [{ ...position, shapes: [hitCorner([0, 0], inset.hit)] }] };
}

/** @param step from one line to the next, in type sizes */
export function stackLines(
  lines: readonly Line[],
  position: Position,
  step = leading,
): readonly (StructureElement | Mark)[] {
  let y = position.y;
  return lines.flatMap((one) => {
    const elements = lineContent(one, { ...position, y });
    y += one.size * step;
    return elements;
  });
}

export function linesHeight(lines: readonly Line[], step = leading): number {
  return lines.reduce((sum, { size }) => sum + size * step, 0);
}
