import type { Library, Workshop } from "../../routine/routine.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import { type Area, flow } from "../../typesetting/flow.js";
import { type Mark, papers, type StructureElement } from "../../typesetting/print.js";
import { line } from "../../typesetting/shape.js";
import { shortened, textWidth, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { Dance } from "../paper/dance.js";
import { proseBlocks } from "../paper/markdown.js";
import { margin } from "../paper/page.js";
import type { Sheet } from "../paper/sheet.js";
import { theirs } from "../paper/theirs.js";

/** A leaf of the pack: pages with a name in the contents. */
export interface Leaf {
  readonly title: string;
  readonly sheet: Sheet;
}

/** Width of a pack's text. */
export function textArea(library: Library): Area {
  const [width, height] = papers[library.paper];
  return {
    left: margin.side,
    width: width - 2 * margin.side,
    columns: 1,
    gutter: 0,
    top: margin.top,
    bottom: height - margin.bottom,
    tail: 0,
  };
}

/** Blocks on pages of their own. */
export function textLeaf(title: string, blocks: readonly Block[], library: Library, top = margin.top): Leaf {
  const { draw, page } = flow(blocks, { page: 0, y: top }, textArea(library));
  const bookmarks = [{ title, page: 0, y: 0, under: [] }];
  return { title, sheet: { elements: draw(), decoration: [], pages: page + 1, bookmarks } };
}

/** The cover: what, when, where, for whom, by whom, and the author's words. */
export function coverLeaf(workshop: Workshop, dances: readonly Dance[], library: Library, wording: Wording): Leaf {
  const { dates, pack, versions } = wording;
  const { width } = textArea(library);
  const text = (words: string, size: number, before: number) => textBlock([{ text: words }], { size, width, before });
  const blocks: readonly Block[] = [
    textBlock([theirs(library.name, wording, { tone: "soft" })], { size: 11, width }),
    textBlock([theirs(workshop.title, wording, { style: "bold" })], { size: 34, width, tag: "H1", before: 4 }),
    ...(workshop.date === undefined ? [] : [text(dates.weekday(workshop.date), 15, 14)]),
    ...(workshop.lessons === undefined ? [] : [text(pack.lessons(workshop.lessons, workshop.dates?.at(-1)), 15, 3)]),
    ...(workshop.venue === undefined
      ? []
      : [textBlock([theirs(workshop.venue, wording)], { size: 15, width, before: 3 })]),
    text(pack.class(workshop.starts, workshop.minutes, versions.name(workshop.level)), 15, 3),
    ...dances.map(({ routine, version }, index) =>
      textBlock(
        [
          theirs(routine.title, wording, { style: "bold" }),
          { text: pack.routine(routine.choreographer, versions.name(version.id), routine.counts) },
        ],
        { size: 12, width, before: index === 0 ? 28 : 4 },
      ),
    ),
    ...spaced(proseBlocks(workshop.prose, { size: 11, width: width * 0.8, level: 2, wording, ...base(library) }), 28),
  ];
  return textLeaf(pack.cover, blocks, library, 150);
}

const base = ({ url }: Library): { base?: string } => (url === undefined ? {} : { base: `${url}/` });

function spaced(blocks: readonly Block[], before: number): readonly Block[] {
  return blocks.map((block, index) => (index === 0 ? { ...block, before } : block));
}

/** Where each leaf begins, counted from 0. */
export interface ContentsEntry {
  readonly title: string;
  readonly page: number;
}

const rowHeight = 24;

/** Contents with page numbers that are links; the entries are few enough for one page in every pack that a class can dance. */
export function contentsLeaf(entries: readonly ContentsEntry[], library: Library, { pack }: Wording): Leaf {
  const { left, width, top, bottom } = textArea(library);
  const [head] = wrap([{ text: pack.contents, style: "bold" }], 20);
  const first = top + 44;
  const aPage = Math.floor((bottom - first) / rowHeight);
  const decoration: Mark[] = [];
  const items = entries.map(({ title, page }, index): StructureElement => {
    const at = { page: Math.floor(index / aPage), y: first + (index % aPage) * rowHeight };
    const number = String(page + 1);
    const right = left + width - textWidth(number, 12);
    const said = shortened(title, (text) => textWidth(text, 12) <= width - 60);
    const [line1] = wrap([{ text: said }], 12);
    const [line2] = wrap([{ text: number, style: "bold" }], 12);
    if (line1 === undefined || line2 === undefined) return { tag: "TOCI", content: [] };
    const from = left + line1.width + 6;
    decoration.push({ ...at, x: 0, shapes: [line("line", 0.6, [from, 11], [right - 6, 11])] });
    const marks: readonly Mark[] = [
      { ...at, x: left, line: line1 },
      { ...at, x: right, line: line2 },
    ];
    return {
      tag: "TOCI",
      content: [{ tag: "Link", alt: pack.entry(title, number), target: { page }, content: marks }],
    };
  });
  const elements: readonly StructureElement[] = [
    { tag: "H1", content: head === undefined ? [] : [{ page: 0, x: left, y: top, line: head }] },
    { tag: "TOC", content: items },
  ];
  const pages = Math.max(1, Math.ceil(entries.length / aPage));
  return {
    title: pack.contents,
    sheet: { elements, decoration, pages, bookmarks: [{ title: pack.contents, page: 0, y: 0, under: [] }] },
  };
}
