import type { Library, Workshop } from "../../routine/routine.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import { type Area, columnWidth, type Flowed, flow } from "../../typesetting/flow.js";
import { type Mark, type Position, papers, type StructureElement } from "../../typesetting/print.js";
import { line } from "../../typesetting/shape.js";
import { ascent, shortened, textWidth, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { Offered } from "../offered.js";
import { proseBlocks } from "../paper/markdown.js";
import { headingBlock, type NoteStyle } from "../paper/note-style.js";
import { margin, notesUnder } from "../paper/page.js";
import { cautionBlocks, gearBlocks } from "../paper/preparation.js";
import type { Sheet } from "../paper/sheet.js";
import { theirs } from "../paper/theirs.js";

/** An entry of the contents: what it is called, what else is said of it, and its page, counted from 0. */
export interface ContentsEntry {
  readonly title: string;
  readonly about?: string;
  readonly page: number;
}

/** What to try under the contents, so that a cover is one page wherever it can be; the sheets say too where a caution applies. */
const tries = [
  ...[11, 10.5, 10, 9.5, 9].map((size) => ({ size, places: true })),
  ...[10.5, 10, 9.5, 9].map((size) => ({ size, places: false })),
];

/**
 * The cover: what, when, where and for whom, what lies where in the pack, what to bring and what to take care of, and the
 * author's words.
 */
export function coverSheet(
  workshop: Workshop,
  dances: readonly Offered[],
  entries: readonly ContentsEntry[],
  library: Library,
  wording: Wording,
): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const page = {
    left: margin.side,
    width: pageWidth - 2 * margin.side,
    columns: 1,
    gutter: 0,
    top: margin.top,
    bottom: pageHeight - margin.bottom,
    tail: 0,
  };
  const head = flow(titleBlocks(workshop, library, page.width, wording), { page: 0, y: margin.top }, page);
  const contents = contentsAt(entries, { page: 0, x: page.left, y: head.y + 18 }, page, wording);
  const columns: Area = { ...page, columns: 2, gutter: 24 };
  const start = { page: contents.page, y: contents.y + 20 };
  let text: Flowed | undefined;
  for (const { size, places } of tries) {
    const style = { size, width: columnWidth(columns), wording };
    text = flow(textBlocks(workshop, dances, places, library, style), start, columns);
    if (text.page === start.page) break;
  }
  const last = { page: text?.page ?? start.page, y: text?.y ?? start.y };
  const own = notesUnder(last, page.bottom - 10, page.width, wording);
  return {
    elements: [...head.draw(), ...contents.elements, ...(text?.draw() ?? []), ...own.elements],
    decoration: [...contents.decoration, ...own.decoration],
    pages: last.page + 1,
    bookmarks: [{ title: wording.pack.cover, page: 0, y: 0, under: [] }],
  };
}

function titleBlocks(workshop: Workshop, library: Library, width: number, wording: Wording): readonly Block[] {
  const { dates, pack, versions } = wording;
  const { title, date, lessons, venue, starts, minutes, level } = workshop;
  const text = (words: string, before = 2) => textBlock([{ text: words }], { size: 13, width, before });
  return [
    textBlock([theirs(library.name, wording, { tone: "soft" })], { size: 11, width }),
    textBlock([theirs(title, wording, { style: "bold" })], { size: 32, width, tag: "H1", before: 2 }),
    ...(date === undefined ? [] : [text(dates.weekday(date), 8)]),
    ...(lessons === undefined ? [] : [text(pack.lessons(lessons, workshop.dates?.at(-1)))]),
    ...(venue === undefined ? [] : [textBlock([theirs(venue, wording)], { size: 13, width, before: 2 })]),
    text(pack.class(starts, minutes, versions.name(level))),
  ];
}

/** What to bring and to take care of stand before the author's words, which may be long. */
function textBlocks(
  { prose, lessons }: Workshop,
  dances: readonly Offered[],
  places: boolean,
  library: Library,
  style: NoteStyle,
): readonly Block[] {
  const { wording } = style;
  const base = library.url === undefined ? {} : { base: `${library.url}/` };
  const words = proseBlocks(prose, { ...style, level: 3, ...base });
  return [
    ...unbroken(gearBlocks(dances, style, places)),
    ...unbroken(cautionBlocks(dances, library, style, { where: places })),
    ...(words.length === 0 ? [] : [headingBlock(wording.pack.about(lessons !== undefined), style), ...words]),
  ];
}

/** A caution is read in one piece. */
const unbroken = (blocks: readonly Block[]): readonly Block[] => blocks.map((block) => ({ ...block, whole: true }));

interface Contents {
  readonly page: number;
  readonly y: number;
  readonly elements: readonly StructureElement[];
  readonly decoration: readonly Mark[];
}

const size = 12;
/** Between an entry's name and what else is said of it. */
const gap = 5;
const rowHeight = 19;

/** The contents, each entry a link to its page. */
function contentsAt(
  entries: readonly ContentsEntry[],
  start: Position,
  { width, top, bottom }: Area,
  wording: Wording,
): Contents {
  const [head] = wrap([{ text: wording.pack.contents, style: "bold" }], 14);
  const decoration: Mark[] = [];
  let { page, y } = start;
  const heading: readonly Mark[] = head === undefined ? [] : [{ ...start, line: head }];
  y += 24;
  const items = entries.map((entry): StructureElement => {
    if (y + rowHeight > bottom) {
      page += 1;
      y = top;
    }
    const row = entryAt(entry, { page, x: start.x, y }, width, wording);
    decoration.push(...row.leader);
    y += rowHeight;
    return { tag: "TOCI", content: [row.link] };
  });
  const elements: readonly StructureElement[] = [
    { tag: "H2", content: heading },
    { tag: "TOC", content: items },
  ];
  return { page, y, elements, decoration };
}

function entryAt(
  { title, about = "", page }: ContentsEntry,
  at: Position,
  width: number,
  { pack }: Wording,
): { readonly link: StructureElement; readonly leader: readonly Mark[] } {
  const number = String(page + 1);
  const [figure] = wrap([{ text: number, style: "bold" }], size);
  const room = width - 40;
  const named = shortened(title, (text) => textWidth(text, size, "bold") <= room);
  const rest = room - textWidth(named, size, "bold") - gap;
  const told = rest < 60 ? "" : shortened(about, (text) => textWidth(text, 10) <= rest);
  const [name] = wrap([{ text: named, style: "bold" }], size);
  const [more] = told === "" ? [] : wrap([{ text: told }], 10);
  const marks: Mark[] = [];
  let end = at.x;
  if (name !== undefined) {
    marks.push({ ...at, line: name });
    end += name.width;
  }
  if (more !== undefined) {
    end += gap;
    marks.push({ ...at, x: end, y: at.y + (size - 10) * ascent, line: more });
    end += more.width;
  }
  const right = at.x + width - (figure?.width ?? 0);
  if (figure !== undefined) marks.push({ ...at, x: right, line: figure });
  const leader = { ...at, x: 0, shapes: [line("line", 0.6, [end + 6, size * ascent], [right - 6, size * ascent])] };
  return {
    link: { tag: "Link", alt: pack.entry(title, number), target: { page }, content: marks },
    leader: end + 12 < right ? [leader] : [],
  };
}
