import type { Mark, Position, StructureElement, Tag } from "./print.js";
import { close, type Line, leading, type Piece, type Span, textWidth, wrap } from "./text.js";

/** Something with a height that is drawn where the flow puts it. */
export interface Slice {
  readonly height: number;
  readonly place: (position: Position) => readonly (StructureElement | Mark)[];
}

/** A paragraph, an entry of a list, a picture: slices that follow each other, and the element that they make up. */
export interface Block {
  /** Room above it, unless it is the first in its column. */
  readonly before: number;
  /** Never the last in its column. */
  readonly keepNext?: boolean;
  /** Never broken, unless no column can hold it. */
  readonly whole?: boolean;
  readonly slices: readonly Slice[];
  readonly build: (content: readonly (StructureElement | Mark)[]) => StructureElement;
}

export interface TextOptions {
  readonly size: number;
  readonly width: number;
  readonly tag?: Tag;
  readonly before?: number;
  readonly keepNext?: boolean;
  /** Points from the left. */
  readonly indent?: number;
  readonly whole?: boolean;
  /** Lines closer to each other. */
  readonly tight?: boolean;
}

/** A paragraph or a heading. */
export function textBlock(spans: readonly Span[], options: TextOptions): Block {
  const { size, width, tag = "P", before = size * 0.5, keepNext = false, indent = 0, tight } = options;
  const slices = wrap(spans, size, width - indent).map((line) => lineSlice(line, indent, tight));
  return { before, keepNext, slices, build: (content) => ({ tag, content }) };
}

/** An entry of a list, its label (a bullet, a number, a count) hanging on the left. */
export function itemBlock(label: Span, spans: readonly Span[], options: TextOptions): Block {
  const { size, width, before = size * 0.3, indent = 0, tight } = options;
  const hang = indent + Math.max(size * 1.1, textWidth(label.text, size, label.style) + size * 0.5);
  const [head] = wrap([label], size);
  const slices = wrap(spans, size, width - hang).map((line) => lineSlice(line, hang, tight));
  const whole = options.whole ?? false;
  const build = (content: readonly (StructureElement | Mark)[]): StructureElement => {
    const first = firstMark(content);
    const mark: StructureElement = {
      tag: "Lbl",
      content:
        first === undefined || head === undefined
          ? []
          : [{ ...positionOf(first), x: first.x - hang + indent, line: head }],
    };
    return { tag: "LI", content: [mark, { tag: "LBody", content }] };
  };
  return { before, whole, slices, build };
}

/** Something that is never broken: a picture, a table. */
export function wholeBlock(height: number, before: number, place: (position: Position) => StructureElement): Block {
  const slices = [{ height, place: (position: Position) => [place(position)] }];
  return { before, slices, build: (content) => (content[0] as StructureElement | undefined) ?? { tag: "P", content } };
}

/** Blocks beside others, `step` points to the right, that are never parted from them. */
export function besideBlock(left: readonly Block[], right: readonly Block[], step: number, before: number): Block {
  const columns = [stacked(left), stacked(right)];
  const height = Math.max(...columns.map((column) => column.height));
  return wholeBlock(height, before, (position) => ({
    tag: "Sect",
    content: columns.flatMap(({ place }, index) => place({ ...position, x: position.x + index * step })),
  }));
}

/** Blocks under each other, none of them broken. */
function stacked(blocks: readonly Block[]): {
  readonly height: number;
  readonly place: (position: Position) => readonly StructureElement[];
} {
  let height = 0;
  const slices = blocks.map((block, index) => {
    if (index > 0) height += block.before;
    const tops = block.slices.map((slice) => {
      const top = height;
      height += slice.height;
      return { slice, top };
    });
    return { block, tops };
  });
  const place = (position: Position) =>
    slices.map(({ block, tops }) =>
      block.build(tops.flatMap(({ slice, top }) => slice.place({ ...position, y: position.y + top }))),
    );
  return { height, place };
}

export function lineSlice(line: Line, indent = 0, tight = false): Slice {
  return {
    height: line.size * (tight ? close : leading),
    place: (position) => lineContent(line, { ...position, x: position.x + indent }),
  };
}

/** A line as marks, its links and what is in another language as elements of their own. */
export function lineContent(line: Line, position: Position): readonly (StructureElement | Mark)[] {
  if (!line.parted) return [{ ...positionOf(position), line }];
  const groups: Piece[][] = [];
  for (const piece of line.pieces()) {
    const last = groups.at(-1);
    const [first] = last ?? [];
    if (first?.href === piece.href && first?.lang === piece.lang && last !== undefined) last.push(piece);
    else groups.push([piece]);
  }
  return groups.map((pieces, index): StructureElement | Mark => {
    const x = pieces[0]?.x ?? 0;
    const width = (pieces.at(-1)?.x ?? 0) + (pieces.at(-1)?.width ?? 0) - x;
    const mark: Mark = {
      ...positionOf(position),
      x: position.x + x,
      line: {
        size: line.size,
        width,
        parted: false,
        goesOn: line.goesOn || index < groups.length - 1,
        pieces: () => pieces.map((piece) => ({ ...piece, x: piece.x - x })),
      },
    };
    const { href, lang } = pieces[0] ?? {};
    const said = lang === undefined ? {} : { lang };
    if (href !== undefined) return { tag: "Link", ...said, alt: href, target: { href }, content: [mark] };
    return lang === undefined ? mark : { tag: "Span", lang, content: [mark] };
  });
}

function firstMark(content: readonly (StructureElement | Mark)[]): Mark | undefined {
  const [first] = content;
  return first === undefined || !("tag" in first) ? first : firstMark(first.content);
}

const positionOf = ({ page, x, y }: Position): Position => ({ page, x, y });

/** Entries of lists that follow each other are one list. */
export function groupLists(elements: readonly StructureElement[]): readonly StructureElement[] {
  const grouped: StructureElement[] = [];
  for (const element of elements) {
    const last = grouped.at(-1);
    if (element.tag !== "LI") grouped.push(element);
    else if (last?.tag === "L") grouped[grouped.length - 1] = { ...last, content: [...last.content, element] };
    else grouped.push({ tag: "L", content: [element] });
  }
  return grouped;
}
