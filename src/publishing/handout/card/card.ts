import type { Library } from "../../../routine/routine.js";
import { type Mark, type Position, papers, type StructureElement } from "../../../typesetting/print.js";
import { line, type Shape } from "../../../typesetting/shape.js";
import { leading, type Span, shortened, textWidth, wrap } from "../../../typesetting/text.js";
import type { Wording } from "../../../wording/wording.js";
import { accentDisc, cautionSign, hitCorner } from "../../drawing/signs.js";
import { stackLines } from "../../paper/cell.js";
import type { Dance } from "../../paper/dance.js";
import type { Sheet } from "../../paper/sheet.js";
import { theirs } from "../../paper/theirs.js";
import { least, namesWidth, rowHeight, type Setting, signRadius } from "./cells.js";
import { type CardContent, cardContent } from "./content.js";
import { denseShape, plainShape } from "./rows.js";
import { numeralHeight, numeralSlab, type Slab, type SlabFrame, sectionSlabs } from "./slabs.js";

/** No printer prints nearer to the edge than 6 mm, and the cut goes through the middle of the sheet. */
const margin = 20;
/** A card has two sides; a third only where nothing else holds it. */
const mostSides = 2;
const titleSize = 17;
/** Narrower columns hold no words. */
const mostNarrow = 16;

interface Try extends Setting {
  /** Whether one side is looked for in smaller type before a card of two is taken. */
  readonly single: boolean;
  readonly dense: boolean;
}

const triesIn = (sizes: readonly number[], set: Omit<Try, "size">): readonly Try[] =>
  sizes.map((size) => ({ ...set, size }));

const plainly = { single: false, short: false, close: false, dense: false };
/** One side as large as can be read from afar, or else two; a long dance loses words first, then size, then air. */
const tries: readonly Try[] = [
  ...triesIn([18, 16, 14, 13], { ...plainly, single: true }),
  ...triesIn([least], plainly),
  ...triesIn([14, 13, least], { ...plainly, short: true }),
  ...triesIn([14, 13, least], { ...plainly, short: true, close: true }),
  ...triesIn([14, least], { ...plainly, short: true, close: true, dense: true }),
];

/** A side of the card: what is read on it, and what lies under that. */
interface Side {
  readonly elements: readonly StructureElement[];
  readonly decoration: readonly Mark[];
}

/**
 * The cue card: the counts with the shortest words that call them, on half a sheet that lies on the floor. The sheet has the card
 * twice, one above the other, and a second sheet page its other side twice, so that either way of turning the paper backs each
 * card with its own.
 */
export function layoutCard(dance: Dance, library: Library, wording: Wording): Sheet {
  const [width, height] = papers[library.paper];
  const room = { width: width - 2 * margin, height: height / 2 };
  const { phrase } = dance.routine.music;
  const frame = (content: CardContent) => frameOf(content, room, wording);
  const plain = frame(cardContent(dance, plainShape(phrase), wording));
  const longest = Math.max(...plain.content.sections.map(({ rows }) => rows.length));
  const dense = () => frame(cardContent(dance, denseShape(Math.min(phrase, mostNarrow), longest), wording));
  const sides = best(plain, dense).draw();
  const title = wording.print.bookmark(dance.routine.title, plain.content.version, "card");
  return {
    pages: sides.length,
    elements: sides.flatMap(({ elements }) => elements),
    decoration: sides.flatMap(({ decoration }) => decoration),
    again: {
      down: height / 2,
      between: sides.map((_, page) => ({ page, x: 0, y: height / 2, shapes: [cutLine(width)] })),
    },
    bookmarks: [{ title, page: 0, y: 0, under: [] }],
  };
}

interface Placed {
  readonly sides: number;
  readonly draw: () => readonly Side[];
}

interface Room {
  readonly width: number;
  readonly height: number;
}

/** What of a card is the same in whatever size. */
interface CardFrame extends Omit<SlabFrame, keyof Setting> {
  readonly content: CardContent;
  readonly head: CardHead;
  readonly width: number;
  /** Points for rows on the first side, and on any other. */
  readonly rooms: readonly [first: number, further: number];
}

function frameOf(content: CardContent, { width, height }: Room, wording: Wording): CardFrame {
  const rows = content.sections.flatMap((section) => section.rows);
  const names = namesWidth(rows, least);
  const columns = content.numbers.length;
  const head = cardHead(content, width, wording);
  const below = height - 2 * margin - numeralHeight;
  const rooms = [below - head.height, below - furtherHead] as const;
  return { content, head, width, rooms, columns, names, column: (width - names) / columns, wording };
}

/** The first setting that fits in which no words need the room of others, as far as any size spares them that. */
function best(plain: CardFrame, dense: () => CardFrame): Placed {
  let turned: Placed | undefined;
  for (const { single, ...setting } of tries) {
    if (turned !== undefined && !single) break;
    const limits = { sides: turned === undefined ? mostSides : 1, crowded: setting.size === least };
    const placed = place(setting.dense ? dense() : plain, setting, limits);
    if (placed?.sides === 1) return placed;
    turned ??= placed;
  }
  return turned ?? fewest(plain, dense);
}

/** What fits on no two sides takes as many as it has to. */
function fewest(plain: CardFrame, dense: () => CardFrame): Placed {
  const all = tries.flatMap((setting) => place(setting.dense ? dense() : plain, setting) ?? []);
  const [first] = [...all].sort((one, other) => one.sides - other.sides);
  if (first === undefined) throw new Error("There is no setting to lay a card out in.");
  return first;
}

/** How far a card may go: one that goes beyond is looked at no further. */
interface Limits {
  readonly sides: number;
  /** Whether counts may stand together that smaller type would part. */
  readonly crowded: boolean;
}

const unlimited: Limits = { sides: Number.POSITIVE_INFINITY, crowded: true };

function place(card: CardFrame, setting: Setting, limits = unlimited): Placed | undefined {
  const { sections } = card.content;
  const [first, further] = card.rooms;
  const frame = { ...card, ...setting };
  const slabs: Slab[] = [];
  // What is not set yet is a line a row at the least.
  const row = rowHeight(frame);
  let left = first + (limits.sides - 1) * further - row * sections.reduce((sum, { rows }) => sum + rows.length, 0);
  for (const section of sections) {
    const set = left < 0 ? [] : sectionSlabs(section, frame);
    left += row * section.rows.length - set.reduce((sum, { height }) => sum + height, 0);
    if (left < 0 || (!limits.crowded && set.some(({ isCrowded }) => isCrowded?.()))) return undefined;
    slabs.push(...set);
  }
  const sides = flowSlabs(slabs, card.rooms);
  return sides.length > limits.sides ? undefined : { sides: sides.length, draw: () => drawSides(sides, frame) };
}

function drawSides(sides: readonly (readonly Slab[])[], frame: CardFrame & SlabFrame): readonly Side[] {
  const { content, head, width, wording } = frame;
  const numerals = numeralSlab(content, frame);
  return sides.map((slabs, page): Side => {
    const top = { page, x: margin, y: margin };
    const running =
      page === 0
        ? legendMarks(content, width, { ...top, y: margin + head.facts }, wording)
        : furtherMarks(content, width, top);
    const number = sides.length > 1 ? sideMarks(page, sides.length, width, top, wording) : [];
    const start = { ...top, y: margin + (page === 0 ? head.height : furtherHead) };
    const table = drawTable([numerals, ...slabs], start, width);
    return {
      elements: [...(page === 0 ? head.draw(top) : []), ...table.elements],
      decoration: [...running, ...number, ...table.decoration],
    };
  });
}

/** Shares rows out over sides: `first` is the room of the first side, `further` that of any other. */
function flowSlabs(slabs: readonly Slab[], [first, further]: CardFrame["rooms"]): readonly (readonly Slab[])[] {
  const sides: Slab[][] = [[]];
  let left = first;
  for (let index = 0; index < slabs.length; index++) {
    const slab = slabs[index];
    if (slab === undefined) break;
    const next = slab.keepNext ? (slabs[index + 1]?.height ?? 0) : 0;
    const side = sides.at(-1) ?? [];
    if (slab.height + next > left && side.length > 0) {
      const over = slab.over?.();
      sides.push(over === undefined ? [slab] : [over, slab]);
      left = further - (over?.height ?? 0) - slab.height;
    } else {
      side.push(slab);
      left -= slab.height;
    }
  }
  return sides;
}

function drawTable(slabs: readonly Slab[], start: Position, width: number): Side {
  const decoration: Mark[] = [];
  const rows: StructureElement[] = [];
  let { y } = start;
  for (const slab of slabs) {
    const { row, ground } = slab.draw({ ...start, y });
    rows.push(row);
    decoration.push(...ground);
    y += slab.height;
  }
  decoration.push({ ...start, y, shapes: [line("ink", 1.4, [0, 0], [width, 0])] });
  return { elements: [{ tag: "Table", content: rows }], decoration };
}

interface CardHead {
  readonly height: number;
  /** How far down its figures stand. */
  readonly facts: number;
  readonly draw: (position: Position) => readonly StructureElement[];
}

/** What it is, its figures, and what to take care of. */
function cardHead(content: CardContent, width: number, wording: Wording): CardHead {
  const { card } = wording;
  const title = wrap(
    [theirs(`${content.title} `, wording, { style: "bold" }), { text: content.version }],
    titleSize,
    width - sideRoom,
  );
  const facts = wrap([{ text: content.facts.join(" · ") }], least, width);
  const indent = signRadius(least + 2) * 2 + 5;
  const { cautions } = content;
  const care =
    cautions.length === 0
      ? []
      : wrap([{ text: card.takeCare, style: "bold" }, { text: cautions.join(", ") }], least + 0.5, width - indent);
  const heights = [title, facts, care].map((lines) => lines.reduce((sum, { size }) => sum + size * leading, 0));
  const [titleHeight = 0, factsHeight = 0, careHeight = 0] = heights;
  const draw = (position: Position): readonly StructureElement[] => {
    const y = position.y + titleHeight;
    const at = { ...position, y: y + factsHeight };
    const radius = signRadius(least + 2);
    const sign: Mark = { ...at, x: at.x + radius, y: at.y + least * 0.66, shapes: cautionSign([0, 0], radius) };
    const box = [at.x, at.y, at.x + 2 * radius, at.y + 2 * radius] as const;
    return [
      { tag: "H1", content: stackLines(title, position) },
      { tag: "P", content: stackLines(facts, { ...position, y }) },
      ...(care.length === 0
        ? []
        : [
            {
              tag: "P",
              content: [
                { tag: "Figure", alt: wording.print.caution, box, content: [sign] },
                ...stackLines(care, { ...at, x: at.x + indent }),
              ],
            } as const,
          ]),
    ];
  };
  return { height: titleHeight + factsHeight + careHeight + 2, facts: titleHeight, draw };
}

/** What the signs mean, at the right of the figures where they leave room. */
function legendMarks(content: CardContent, width: number, position: Position, wording: Wording): readonly Mark[] {
  const { print } = wording;
  const hits = content.sections.some(({ rows }) => rows.some(({ cells }) => cells.some(({ cell }) => cell.move.hit)));
  const signs = [
    ...(content.accents.length > 0 ? [{ text: print.accent, shape: accentDisc([4, 7.5], 4) }] : []),
    ...(hits ? [{ text: print.hit, shape: hitCorner([1, 4], 7) }] : []),
  ];
  const set = signs.map(({ text, shape }) => ({ shape, line: wrap([{ text }], least)[0] }));
  const all = set.reduce((sum, { line: one }) => sum + (one?.width ?? 0) + 24, 0);
  if (textWidth(content.facts.join(" · "), least) + all > width) return [];
  let x = position.x + width - all + 12;
  return set.flatMap(({ shape, line: one }): readonly Mark[] => {
    const at = { ...position, x };
    x += (one?.width ?? 0) + 24;
    return [{ ...at, shapes: [shape] }, ...(one === undefined ? [] : [{ ...at, x: at.x + 12, line: one }])];
  });
}

/** For "side 1 of 2" at the right. */
const sideRoom = 70;
const furtherHead = least * leading + 2;

function sideMarks(page: number, sides: number, width: number, position: Position, { card }: Wording): readonly Mark[] {
  const [set] = wrap([{ text: card.side(page + 1, sides) }], least);
  return set === undefined ? [] : [{ ...position, x: position.x + width - set.width, line: set }];
}

/** What it is, on the other side. */
function furtherMarks({ title, version }: CardContent, width: number, position: Position): readonly Mark[] {
  const spans = (text: string): readonly Span[] => [{ text: `${text} `, style: "bold" }, { text: version }];
  const fits = (text: string) => wrap(spans(text), least, width - sideRoom).length === 1;
  const [set] = wrap(spans(shortened(title, fits)), least, width - sideRoom);
  return set === undefined ? [] : [{ ...position, line: set }];
}

/** Where the sheet is cut. */
const cutLine = (width: number): Shape => ({
  kind: "path",
  points: [
    [0, 0],
    [width, 0],
  ],
  stroke: { tone: "soft", width: 0.8, dashes: [5, 4] },
});
