import { lineContent } from "../../typesetting/block.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import type { Shape } from "../../typesetting/shape.js";
import { type Line, leading, widestWord, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { cautionSign, facingSign, hitCorner } from "../drawing/signs.js";
import type { GridCell } from "./bands.js";

/** Smallest type on a sheet, and the size of everything beside the cues. */
export const smallest = 8;

/** Room for a sign and beside it. */
export const sign = { width: 9, gap: 3 };
/** Points between a cell's edges and what stands in it. */
export const inset = { left: 4.5, right: 2.5, top: 2.5, bottom: 3.5, hit: 6, open: 8 };
const labelHeight = 10.5;

/** A move set in its own span of the grid. */
export interface CellLayout {
  readonly height: number;
  readonly lines: number;
  readonly place: (position: Position) => StructureElement;
}

/** Sets a move in the width of its counts; undefined where a word is wider than that. */
export function layoutCell(cell: GridCell, width: number, size: number, wording: Wording): CellLayout | undefined {
  const { move, begins } = cell;
  const left = inset.left + (move.hit && begins ? inset.hit - 2 : 0);
  const right = cell.ends ? inset.right : inset.open;
  const room = width - left - right;
  const { label, spans, risk } = cell.text;
  const words = width - inset.left - right;
  if (Math.max(widestWord(spans, size), widestWord(risk, smallest)) > words || widestWord(label, smallest) > room)
    return undefined;
  const [head] = wrap(label, smallest);
  const signs = cellSigns(cell, wording);
  const signsWidth = signs.length * (sign.width + sign.gap);
  const beside = (head?.width ?? 0) + signsWidth <= room;
  if (!beside && signsWidth > words) return undefined;
  const top = inset.top + labelHeight * (beside ? 1 : 2);
  const lines = [...wrap(spans, size, words), ...wrap(risk, smallest, words)];
  const place = (position: Position): StructureElement => {
    const { page, x, y } = position;
    const labels: readonly Mark[] = head === undefined ? [] : [{ page, x: x + left, y: y + inset.top, line: head }];
    const signX = beside ? x + left + (head?.width ?? 0) + sign.gap : x + inset.left;
    const signY = y + top - labelHeight / 2;
    return {
      tag: "P",
      content: [
        ...labels,
        ...(move.hit && begins ? [hitFigure(position, wording)] : []),
        ...signs.map((one, index) => one({ page, x: signX + index * (sign.width + sign.gap), y: signY })),
        ...stackLines(lines, { page, x: x + inset.left, y: y + top }),
      ],
    };
  };
  return { height: top + linesHeight(lines) + inset.bottom, lines: lines.length, place };
}

/** What a cell shows beside its counts: the new facing, a caution. Each is placed by the middle of its left edge. */
function cellSigns(
  { move, begins, ends }: GridCell,
  { print }: Wording,
): readonly ((position: Position) => StructureElement)[] {
  const turned = ends && move.after.facing !== move.before.facing;
  const middle = sign.width / 2;
  return [
    ...(turned
      ? [
          (position: Position) =>
            signFigure(
              print.nowFacing(move.after.facing),
              [facingSign(move.after.facing, [middle, 0], middle)],
              position,
            ),
        ]
      : []),
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

export function stackLines(lines: readonly Line[], position: Position): readonly (StructureElement | Mark)[] {
  let y = position.y;
  return lines.flatMap((line) => {
    const elements = lineContent(line, { ...position, y });
    y += line.size * leading;
    return elements;
  });
}

export function linesHeight(lines: readonly Line[]): number {
  return lines.reduce((sum, { size }) => sum + size * leading, 0);
}
