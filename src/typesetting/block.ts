import type { Mark, Part, Spot, Tag } from "./print.js";
import { type Line, leading, type Piece, type Span, textWidth, wrap } from "./text.js";

/** Something with a height that is drawn where the flow puts it. */
export interface Slice {
  readonly height: number;
  readonly place: (spot: Spot) => readonly (Part | Mark)[];
}

/** A paragraph, an entry of a list, a picture: slices that follow each other, and the part that they make up. */
export interface Block {
  /** Room above it, unless it is the first in its column. */
  readonly before: number;
  /** Never the last in its column. */
  readonly keepNext?: boolean;
  /** Never broken, unless no column can hold it. */
  readonly whole?: boolean;
  readonly slices: readonly Slice[];
  readonly build: (content: readonly (Part | Mark)[]) => Part;
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
}

/** A paragraph or a heading. */
export function textBlock(spans: readonly Span[], options: TextOptions): Block {
  const { size, width, tag = "P", before = size * 0.5, keepNext = false, indent = 0 } = options;
  const slices = wrap(spans, size, width - indent).map((line) => lineSlice(line, indent));
  return { before, keepNext, slices, build: (content) => ({ tag, content }) };
}

/** An entry of a list, its label (a bullet, a number, a count) hanging on the left. */
export function itemBlock(label: Span, spans: readonly Span[], options: TextOptions): Block {
  const { size, width, before = size * 0.3, indent = 0 } = options;
  const hang = indent + Math.max(size * 1.1, textWidth(label.text, size, label.style) + size * 0.5);
  const [head] = wrap([label], size);
  const slices = wrap(spans, size, width - hang).map((line) => lineSlice(line, hang));
  const whole = options.whole ?? false;
  const build = (content: readonly (Part | Mark)[]): Part => {
    const first = firstMark(content);
    const mark: Part = {
      tag: "Lbl",
      content:
        first === undefined || head === undefined ? [] : [{ ...spotOf(first), x: first.x - hang + indent, line: head }],
    };
    return { tag: "LI", content: [mark, { tag: "LBody", content }] };
  };
  return { before, whole, slices, build };
}

/** Something that is never broken: a picture, a table. */
export function wholeBlock(height: number, before: number, place: (spot: Spot) => Part): Block {
  const slices = [{ height, place: (spot: Spot) => [place(spot)] }];
  return { before, slices, build: (content) => (content[0] as Part | undefined) ?? { tag: "P", content } };
}

export function lineSlice(line: Line, indent = 0): Slice {
  return { height: line.size * leading, place: (spot) => lineParts(line, { ...spot, x: spot.x + indent }) };
}

/** A line as marks, its links as parts of their own. */
export function lineParts(line: Line, spot: Spot): readonly (Part | Mark)[] {
  if (!line.linked) return [{ ...spotOf(spot), line }];
  const groups: Piece[][] = [];
  for (const piece of line.pieces()) {
    const last = groups.at(-1);
    if (last !== undefined && last[0]?.href === piece.href) last.push(piece);
    else groups.push([piece]);
  }
  return groups.map((pieces): Part | Mark => {
    const x = pieces[0]?.x ?? 0;
    const width = (pieces.at(-1)?.x ?? 0) + (pieces.at(-1)?.width ?? 0) - x;
    const mark: Mark = {
      ...spotOf(spot),
      x: spot.x + x,
      line: {
        size: line.size,
        width,
        linked: false,
        pieces: () => pieces.map((piece) => ({ ...piece, x: piece.x - x })),
      },
    };
    const href = pieces[0]?.href;
    return href === undefined ? mark : { tag: "Link", alt: href, target: { href }, content: [mark] };
  });
}

function firstMark(content: readonly (Part | Mark)[]): Mark | undefined {
  const [first] = content;
  return first === undefined || !("tag" in first) ? first : firstMark(first.content);
}

const spotOf = ({ page, x, y }: Spot): Spot => ({ page, x, y });

/** Entries of lists that follow each other are one list. */
export function groupLists(parts: readonly Part[]): readonly Part[] {
  const grouped: Part[] = [];
  for (const part of parts) {
    const last = grouped.at(-1);
    if (part.tag !== "LI") grouped.push(part);
    else if (last?.tag === "L") grouped[grouped.length - 1] = { ...last, content: [...last.content, part] };
    else grouped.push({ tag: "L", content: [part] });
  }
  return grouped;
}
