import type { Library } from "../../../routine/routine.js";
import { type Mark, type Position, papers, type StructureElement } from "../../../typesetting/print.js";
import { line } from "../../../typesetting/shape.js";
import { leading, type Span, shortened, textWidth, wrap } from "../../../typesetting/text.js";
import type { Wording } from "../../../wording/wording.js";
import { accentDisc, cautionSign, hitCorner } from "../../drawing/signs.js";
import { stackLines } from "../../paper/cell.js";
import type { Dance } from "../../paper/dance.js";
import type { Sheet } from "../../paper/sheet.js";
import { theirs } from "../../paper/theirs.js";
import { namesWidth, type Setting, signRadius } from "./cells.js";
import { type CardContent, cardContent } from "./content.js";
import { denseShape, plainShape } from "./rows.js";
import { numeralSlab, type Slab, type SlabFrame, sectionSlabs } from "./slabs.js";

/** Nothing on a card is smaller. */
const least = 12;
/** No printer prints nearer to the edge than 6 mm, and the cut goes through the middle of the sheet. */
const margin = 20;
/** A card has two sides; a third only where nothing else holds it. */
const mostSides = 2;
const titleSize = 17;
/** Narrower columns hold no words. */
const mostNarrow = 16;

const wide = { lines: 2, short: false, close: false };
const terse = { lines: 2, short: true, close: false };
/** One side as large as can be read from afar, or else two; a long dance loses words first, then size, then air. */
const tries: readonly (Setting & { readonly sides: number; readonly dense: boolean })[] = [
  ...[18, 16, 14, 13].map((size) => ({ ...wide, size, sides: 1, dense: false })),
  ...[18, 16, 14, 13, 12].map((size) => ({ ...wide, size, sides: mostSides, dense: false })),
  ...[14, 13, 12].map((size) => ({ ...terse, size, sides: mostSides, dense: false })),
  ...[14, 13, 12].map((size) => ({ ...terse, size, close: true, sides: mostSides, dense: false })),
  ...[14, 12].map((size) => ({ ...terse, size, close: true, sides: mostSides, dense: true })),
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
  const plain = cardContent(dance, plainShape(phrase), wording);
  const longest = Math.max(...plain.sections.map(({ rows }) => rows.length));
  const dense = () => cardContent(dance, denseShape(Math.min(phrase, mostNarrow), longest), wording);
  const placed = best(plain, dense, room, wording);
  const sides = placed.draw();
  const title = wording.print.bookmark(dance.routine.title, plain.version, "card");
  return {
    pages: sides.length,
    elements: sides.flatMap(({ elements }) => elements),
    decoration: sides.flatMap(({ elements, decoration }, page) => [
      ...decoration,
      ...[...decoration, ...elements.flatMap(marksIn)].map((mark) => ({ ...mark, y: mark.y + height / 2 })),
      { page, x: 0, y: height / 2, shapes: dashes(width) },
    ]),
    bookmarks: [{ title, page: 0, y: 0, under: [] }],
  };
}

interface Placed {
  readonly sides: number;
  /** Cells that hold the counts of more than one. */
  readonly joined: number;
  readonly draw: () => readonly Side[];
}

interface Room {
  readonly width: number;
  readonly height: number;
}

/** The first setting that fits in which no words need the room of others, as far as any size spares them that. */
function best(plain: CardContent, denseContent: () => CardContent, room: Room, wording: Wording): Placed {
  let found: Placed | undefined;
  const smallest = place(plain, { ...wide, size: least }, room, wording).joined;
  for (const { sides, dense, ...setting } of tries) {
    const placed = place(dense ? denseContent() : plain, setting, room, wording);
    const fits = placed.sides <= sides;
    if (fits && (placed.joined <= smallest || (sides === mostSides && setting.size === least))) return placed;
    if (found === undefined || placed.sides < found.sides) found = placed;
  }
  if (found === undefined) throw new Error("There is no setting to lay a card out in.");
  return found;
}

function place(content: CardContent, setting: Setting, room: Room, wording: Wording): Placed {
  const rows = content.sections.flatMap((section) => section.rows);
  const names = namesWidth(rows, least);
  const columns = content.numbers.length;
  const frame: SlabFrame = { ...setting, columns, names, column: (room.width - names) / columns, wording };
  const head = cardHead(content, room.width, wording);
  const numerals = numeralSlab(content, frame);
  const slabs = content.sections.flatMap((section) => sectionSlabs(section, frame));
  const sides = flowSlabs(
    slabs,
    [head.height, furtherHead].map((taken) => room.height - 2 * margin - taken - numerals.height),
  );
  return {
    sides: sides.length,
    joined: slabs.reduce((sum, slab) => sum + (slab.joined ?? 0), 0),
    draw: () =>
      sides.map((list, page): Side => {
        const top = { page, x: margin, y: margin };
        const running =
          page === 0
            ? legendMarks(content, room.width, { ...top, y: margin + head.facts }, wording)
            : furtherMarks(content, room.width, top);
        const number = sides.length > 1 ? sideMarks(page, sides.length, room.width, top, wording) : [];
        const start = { ...top, y: margin + (page === 0 ? head.height : furtherHead) };
        const table = drawTable([numerals, ...list], start, room.width);
        return {
          elements: [...(page === 0 ? head.draw(top) : []), ...table.elements],
          decoration: [...running, ...number, ...table.decoration],
        };
      }),
  };
}

/** Shares rows out over sides: `first` is the room of the first side, `further` that of any other. */
function flowSlabs(slabs: readonly Slab[], [first = 0, further = 0]: readonly number[]): readonly (readonly Slab[])[] {
  const sides: Slab[][] = [[]];
  let left = first;
  for (let index = 0; index < slabs.length; index++) {
    const slab = slabs[index];
    if (slab === undefined) break;
    const next = slab.keepNext ? (slabs[index + 1]?.height ?? 0) : 0;
    const side = sides.at(-1) ?? [];
    if (slab.height + next > left && side.length > 0) {
      sides.push(slab.over === undefined ? [slab] : [slab.over, slab]);
      left = further - (slab.over?.height ?? 0) - slab.height;
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
const dashes = (width: number) =>
  Array.from({ length: Math.ceil(width / 9) }, (_, index) => line("soft", 0.8, [index * 9, 0], [index * 9 + 5, 0]));

function marksIn({ content }: StructureElement): readonly Mark[] {
  return content.flatMap((inner) => ("tag" in inner ? marksIn(inner) : [inner]));
}
