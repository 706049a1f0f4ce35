import { aloud } from "../../routine/calls.js";
import type { Library } from "../../routine/routine.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import { type Area, type Flowed, flow } from "../../typesetting/flow.js";
import { papers } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { type Band, type GridCell, type Row, sheetBands } from "../paper/bands.js";
import type { Dance } from "../paper/dance.js";
import { versionLine } from "../paper/head.js";
import { feetOf, footElement, layoutFeet, margin } from "../paper/page.js";
import type { Sheet } from "../paper/sheet.js";
import { theirs } from "../paper/theirs.js";

/**
 * Type that reads from two metres: a capital is a three-hundredth of the distance high (from memory), which is 28 points
 * here. A long routine loses words before it loses size, and only then goes down to `least`.
 */
const easy = 28;
const least = 16;
const roomy = [44, 40, 36, 32, easy];
const tight = [26, 24, 22, 20, 18, least];
/** Sizes, and the words of a cue that is not called otherwise, in the order in which they are tried. */
const tries: readonly Setting[] = [
  ...roomy.map((size) => ({ size, words: 3 })),
  ...[36, 32, easy].map((size) => ({ size, words: 2 })),
  ...tight.map((size) => ({ size, words: 2 })),
];

interface Setting {
  readonly size: number;
  readonly words: number;
}

/** The cue card: nothing but counts, the shortest words and what to take care of, as large as one page allows. */
export function layoutCard(dance: Dance, library: Library, wording: Wording): Sheet {
  const bands = sheetBands(dance.routine, dance.version, wording);
  const version = versionLine(dance.routine, dance.version, wording);
  const content: CardContent = { title: dance.routine.title, version, bands };
  let placed: Flowed | undefined;
  for (const setting of tries) {
    placed = placeCard(content, library, setting, wording);
    if (placed.page === 0) break;
  }
  // What no page can hold in any size takes as many as it needs, but is read from two metres.
  if (placed === undefined || placed.page > 0) placed = placeCard(content, library, { size: easy, words: 3 }, wording);
  const pages = placed.page + 1;
  const title = wording.print.bookmark(dance.routine.title, version, "card");
  const foot: readonly Span[] = [theirs(library.name, wording)];
  return {
    pages,
    elements: [...placed.draw(), footElement(foot, library.paper, wording)],
    decoration: layoutFeet(library.paper, feetOf(foot, pages), wording),
    bookmarks: [{ title, page: 0, y: 0, under: [] }],
  };
}

/** What a card says, in whatever size. */
interface CardContent {
  readonly title: string;
  readonly version: string;
  readonly bands: readonly Band[];
}

function placeCard(
  { title, version, bands }: CardContent,
  library: Library,
  setting: Setting,
  wording: Wording,
): Flowed {
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const bottom = pageHeight - margin.bottom;
  const area: Area = { left: margin.side, width, columns: 1, gutter: 0, top: margin.top, bottom, tail: 0 };
  const heading: readonly Span[] = [theirs(`${title} `, wording, { style: "bold" }), { text: version }];
  const blocks: readonly Block[] = [
    textBlock(heading, { size: 20, width, tag: "H1" }),
    ...bands.flatMap((band) => bandBlocks(band, setting, width, wording)),
  ];
  return flow(blocks, { page: 0, y: margin.top }, area);
}

function bandBlocks(
  { section, again, rows }: Band,
  { size, words }: Setting,
  width: number,
  wording: Wording,
): readonly Block[] {
  const { print } = wording;
  const side = section.mirrored ? [print.card.otherSide] : [];
  const name: readonly Span[] = [
    theirs(section.name, wording, { style: "bold" }),
    { text: [...side, ...(again === "" ? [] : [again])].map((text) => ` · ${text}`).join("") },
  ];
  return [
    textBlock(name, { size: Math.max(14, size * 0.6), width, tag: "H2", before: size * 0.4, keepNext: true }),
    ...rows.map((row) => textBlock(rowSpans(row, words, wording), { size, width, before: size * 0.12 })),
  ];
}

function rowSpans(row: Row, words: number, wording: Wording): readonly Span[] {
  const { print } = wording;
  const who: readonly Span[] = row.dancers === undefined ? [] : [{ text: print.card.dancers(row.dancers) }];
  if (row.uncounted !== undefined) return [{ text: row.uncounted }];
  const moves = row.cells.filter(({ begins }) => begins);
  return [...who, ...moves.flatMap((cell) => [...countSpans(cell, print), ...calledSpans(cell, words, wording)])];
}

/** The count that a move begins on; a hit is shouted. */
function countSpans({ text, move }: GridCell, print: Wording["print"]): readonly Span[] {
  const first =
    text.label
      .map((span) => span.text)
      .join("")
      .split("–")[0] ?? "";
  return [{ text: `${move.hit ? print.card.hit(first) : first}\u00a0`, style: "bold" }];
}

/** What is called, and what to take care of: a caution is left out for no size. */
function calledSpans(cell: GridCell, words: number, wording: Wording): readonly Span[] {
  const { improvised, say = [], cautions } = cell.move;
  const { card, aside } = wording.print;
  const call =
    improvised && say.length === 0 ? { text: card.own } : theirs(shortWords(cell, words, wording.print), wording);
  const care = cautions.length === 0 ? "" : aside(cautions.map(wording.risks.label));
  return [call, { text: `${care} `, style: "italic" }];
}

/** What is called: `say`, or else, and where nothing is, the first words of the cue, up to its first comma. */
function shortWords({ move }: GridCell, most: number, print: Wording["print"]): string {
  if (move.say !== undefined && move.say.length > 0) return print.calls(aloud(move.say).map((call) => call.cue.text));
  const words = (move.cue.text.split(/[,;:.(]/)[0] ?? "").trim().split(/\s+/).slice(0, most);
  while (words.length > 1 && print.card.trailing.has((words.at(-1) ?? "").toLowerCase())) words.pop();
  return words.join(" ");
}
