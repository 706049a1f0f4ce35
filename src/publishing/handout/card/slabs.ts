import type { Mark, Position, StructureElement } from "../../../typesetting/print.js";
import { line, type Shape } from "../../../typesetting/shape.js";
import { leading, type Span, shortened, textWidth, wrap } from "../../../typesetting/text.js";
import type { Wording } from "../../../wording/wording.js";
import { accentDisc, cautionSign, hitCorner } from "../../drawing/signs.js";
import { stackLines } from "../../paper/cell.js";
import { theirs } from "../../paper/theirs.js";
import {
  type Box,
  boxHeight,
  type CellFrame,
  type Entry,
  isCrowded,
  pad,
  padY,
  rowHeight,
  setBoxes,
  signRadius,
} from "./cells.js";
import type { CardContent, CardSection } from "./content.js";
import type { CardRow } from "./rows.js";

/** A row of the card's table that is never broken. */
export interface Slab {
  readonly height: number;
  /** Whether counts stand together that smaller type would part. */
  readonly isCrowded?: () => boolean;
  /** Stays with the next one. */
  readonly keepNext: boolean;
  /** What stands over it where it is the first of a side, so that it is known whose it is. */
  readonly over?: () => Slab;
  readonly draw: (position: Position) => { readonly row: StructureElement; readonly ground: readonly Mark[] };
}

export interface SlabFrame extends CellFrame {
  readonly columns: number;
  /** Of the column that names the groups, before the counts. */
  readonly names: number;
}

const numeralSize = 15;
export const numeralHeight = 25;
const nameSizes = { close: 12, open: 13 };
const hitSize = 7;

const widthOf = ({ columns, column, names }: SlabFrame): number => columns * column + names;

/** The counts over their columns; what the music lands on is white on a black disc. */
export function numeralSlab({ numbers, accents }: CardContent, frame: SlabFrame): Slab {
  const { print } = frame.wording;
  return {
    height: numeralHeight,
    keepNext: true,
    draw: (position) => {
      const heads = numbers.map((number, index): StructureElement => {
        const accent = accents.includes(index);
        const [set] = wrap([{ text: `${number}`, style: "bold", tone: accent ? "paper" : "ink" }], numeralSize);
        const radius = numeralSize * 0.72;
        const x = position.x + frame.names + index * frame.column;
        const half = accent ? radius : (set?.width ?? 0) / 2;
        const middle = { ...position, x: x + pad.left + half, y: position.y + numeralHeight / 2 };
        const content: (StructureElement | Mark)[] = [];
        if (accent) {
          const box = [middle.x - radius, middle.y - radius, middle.x + radius, middle.y + radius] as const;
          content.push({
            tag: "Figure",
            alt: print.accent,
            box,
            content: [{ ...middle, shapes: [accentDisc([0, 0], radius)] }],
          });
        }
        if (set !== undefined)
          content.push({ ...middle, x: middle.x - set.width / 2, y: middle.y - numeralSize * 0.61, line: set });
        return { tag: "TH", scope: "Column", content };
      });
      const corner: readonly StructureElement[] = frame.names > 0 ? [{ tag: "TD", content: [] }] : [];
      return { row: { tag: "TR", content: [...corner, ...heads] }, ground: [] };
    },
  };
}

/** A section's name over its rows, or all that there is of one that is danced as another. */
export function sectionSlabs(section: CardSection, frame: SlabFrame): readonly Slab[] {
  const { card } = frame.wording;
  const over = () =>
    nameSlab([{ text: `${section.name} `, style: "bold" }, { text: card.continued }], section, false, frame);
  return [
    nameSlab(nameSpans(section, frame.wording), section, true, frame),
    ...section.rows.map((row, index) => ({ ...rowSlab(row, frame), ...(index === 0 ? {} : { over }) })),
  ];
}

function nameSpans({ name, same, times, asides }: CardSection, wording: Wording): readonly Span[] {
  const { card } = wording;
  // "Along the wall, other side" need not be told to be that.
  const own = same !== undefined && name.startsWith(same.name) ? [] : [theirs(name, wording, { style: "bold" })];
  const equal = same === undefined ? [] : [theirs(card.same(same.name, same.otherSide), wording, { style: "bold" })];
  const [first, second] = [...own, ...equal];
  const rest = asides.map((text): Span => {
    return { text: ` · ${text}`, style: text === card.otherSide ? "bold" : "regular" };
  });
  return [
    ...(first === undefined ? [] : [first]),
    ...(second === undefined ? [] : [{ text: " " }, second]),
    ...(times > 1 ? [{ text: ` ${card.repeated(times)}` }] : []),
    ...rest,
  ];
}

function nameSlab(spans: readonly Span[], section: CardSection, heading: boolean, frame: SlabFrame): Slab {
  const { wording, close } = frame;
  const nameSize = close ? nameSizes.close : nameSizes.open;
  const labels = section.cautions.map(wording.risks.label);
  const radius = signRadius(nameSize);
  const room = widthOf(frame) - 4;
  const lines = wrap(spans, nameSize, room);
  const last = lines.at(-1)?.width ?? 0;
  const warned = heading && section.same !== undefined && labels.length > 0;
  const [care] = warned ? wrap([{ text: labels.join(", ") }], 12) : [];
  const beside = care === undefined || last + radius * 2 + 14 + care.width <= room;
  const cares = care === undefined || beside ? [] : wrap([{ text: labels.join(", ") }], 12, room - radius * 2 - 6);
  const height = (lines.length + cares.length) * nameSize * leading + (close ? 2 : 5);
  const draw = (position: Position) => {
    const top = position.y + (close ? 1 : 3);
    const text = stackLines(lines, { ...position, x: position.x + 2, y: top });
    const y = top + (lines.length - (beside ? 1 : 0)) * nameSize * leading;
    const x = position.x + 2 + (beside ? last + 10 : 0);
    const sign: readonly (StructureElement | Mark)[] =
      care === undefined
        ? []
        : [
            signAt(wording.print.caution, radius, { ...position, x: x + radius, y: y + nameSize * 0.62 }),
            ...stackLines(beside ? [care] : cares, { ...position, x: x + radius * 2 + 5, y }),
          ];
    const content: readonly StructureElement[] = heading
      ? [{ tag: "H2", content: text }, ...(sign.length > 0 ? [{ tag: "P", content: sign } as const] : [])]
      : [{ tag: "P", content: text }];
    const columns = frame.columns + (frame.names > 0 ? 1 : 0);
    const cell: StructureElement = { tag: "TH", scope: "Row", ...(columns > 1 ? { columns } : {}), content };
    const rule = line("ink", 1.4, [0, 0], [widthOf(frame), 0]);
    return { row: { tag: "TR", content: [cell] } as const, ground: [{ ...position, shapes: [rule] }] };
  };
  return { height, keepNext: section.rows.length > 0 || !heading, draw };
}

function signAt(alt: string, radius: number, middle: Position): StructureElement {
  const box = [middle.x - radius, middle.y - radius, middle.x + radius, middle.y + radius] as const;
  return { tag: "Figure", alt, box, content: [{ ...middle, shapes: cautionSign([0, 0], radius) }] };
}

function rowSlab(row: CardRow, frame: SlabFrame): Slab {
  if (row.uncounted !== undefined) return uncountedSlab(row.uncounted, frame);
  const boxes = setBoxes(row, frame.columns, frame);
  const { names, column, columns } = frame;
  const height = Math.max(rowHeight(frame), ...boxes.map((box) => boxHeight(box, frame)));
  const draw = (position: Position) => {
    const x = position.x + names;
    const cells: StructureElement[] = [];
    const ground: Shape[] = [line("line", 0.8, [0, 0], [widthOf(frame), 0])];
    let next = 0;
    for (const box of boxes) {
      cells.push(...blank(box.from - next));
      const span = box.to - box.from;
      const at = { ...position, x: x + box.from * column };
      cells.push({ tag: "TD", ...(span > 1 ? { columns: span } : {}), content: boxContent(box, at, frame) });
      const left = names + box.from * column;
      if (left > 0) ground.push(line("line", 0.8, [left, 0], [left, height]));
      ground.push(...ticks(box, left, frame, height));
      next = box.to;
    }
    cells.push(...blank(columns - next));
    if (next < columns && next > 0)
      ground.push(line("line", 0.8, [names + next * column, 0], [names + next * column, height]));
    const content = [...namesCell(row, position, frame), ...cells];
    return { row: { tag: "TR", content } as const, ground: [{ ...position, shapes: ground }] };
  };
  return { height, keepNext: false, isCrowded: () => isCrowded(row, boxes, frame), draw };
}

/** A short stroke at the foot of each further count of a long move, under its words. */
function ticks({ from, to }: Box, left: number, frame: SlabFrame, height: number): readonly Shape[] {
  return Array.from({ length: to - from - 1 }, (_, index) => {
    const x = left + (index + 1) * frame.column;
    return line("line", 0.8, [x, height - padY(frame)], [x, height]);
  });
}

const blank = (columns: number): readonly StructureElement[] =>
  columns <= 0 ? [] : [{ tag: "TD", ...(columns > 1 ? { columns } : {}), content: [] }];

function namesCell({ dancers }: CardRow, position: Position, frame: SlabFrame): readonly StructureElement[] {
  const { names } = frame;
  if (names === 0) return [];
  if (dancers === undefined) return [{ tag: "TD", content: [] }];
  const text = shortened(dancers, (one) => textWidth(one, 12, "bold") <= names - 4);
  const content = stackLines(wrap([{ text, style: "bold" }], 12), { ...position, y: position.y + padY(frame) });
  return [{ tag: "TH", scope: "Row", content }];
}

function uncountedSlab(text: string, frame: SlabFrame): Slab {
  const lines = wrap([{ text }], frame.size, widthOf(frame) - pad.left);
  const draw = (position: Position) => {
    const content = stackLines(lines, {
      ...position,
      x: position.x + frame.names + pad.left,
      y: position.y + padY(frame),
    });
    const cell: StructureElement = { tag: "TD", ...(frame.columns > 1 ? { columns: frame.columns } : {}), content };
    const corner: readonly StructureElement[] = frame.names > 0 ? [{ tag: "TD", content: [] }] : [];
    return { row: { tag: "TR", content: [...corner, cell] } as const, ground: [] };
  };
  return { height: rowHeight(frame, lines.length), keepNext: false, draw };
}

/** The moves of a box, each with its signs: several are told apart. */
function boxContent({ entries }: Box, position: Position, frame: SlabFrame): StructureElement["content"] {
  const contents = entries.map((entry) => {
    const { line: row, x } = entry.at;
    const y = position.y + padY(frame) + row * frame.size * leading;
    return entryContent(entry, { ...position, x: position.x + x, y }, row === 0, frame);
  });
  return contents.length === 1 ? contents.flat() : contents.map((content) => ({ tag: "P", content }));
}

function entryContent(
  { cell, lines, sign }: Entry,
  position: Position,
  isFirst: boolean,
  frame: SlabFrame,
): readonly (StructureElement | Mark)[] {
  const { size, wording } = frame;
  const { move } = cell.cell;
  const corner = isFirst ? { ...position, y: position.y - padY(frame) } : position;
  const box = [corner.x, corner.y, corner.x + hitSize, corner.y + hitSize * 1.3] as const;
  const hit: readonly StructureElement[] =
    move.hit && cell.begins
      ? [{ tag: "Figure", alt: wording.print.hit, box, content: [{ ...corner, shapes: [hitCorner([0, 0], hitSize)] }] }]
      : [];
  const text = position.x + pad.left;
  const caution =
    sign === undefined
      ? []
      : [
          signAt(wording.card.caution(move.cautions.map(wording.risks.label)), signRadius(size), {
            ...position,
            x: text + sign.x + signRadius(size),
            y: position.y + sign.line * size * leading + size * 0.62,
          }),
        ];
  return [...hit, ...stackLines(lines, { ...position, x: text }), ...caution];
}
