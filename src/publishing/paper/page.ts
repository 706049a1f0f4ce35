import { type Mark, type Position, type Print, papers, type StructureElement } from "../../typesetting/print.js";
import { line } from "../../typesetting/shape.js";
import { type Line, leading, type Span, shortened, textWidth, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { smallest, stackLines } from "./cell.js";
import type { Dance } from "./dance.js";
import { danceLine } from "./head.js";

export const margin = { side: 30, top: 24, bottom: 42 };

/** Ruled lines down to the foot of the page. */
export function layoutOwnNotes(
  position: Position,
  width: number,
  bottom: number,
  { print }: Wording,
  size = 10,
): { element: StructureElement; decoration: readonly Mark[] } {
  const [head] = wrap([{ text: print.ownNotes, style: "bold" }], size);
  const [first, step] = [size + 20, size + 10];
  const count = Math.max(1, Math.floor((bottom - position.y - first) / step) + 1);
  const shapes = Array.from({ length: count }, (_, index) =>
    line("line", 0.5, [0, first + index * step], [width, first + index * step]),
  );
  const content: readonly Mark[] = head === undefined ? [] : [{ ...position, line: head }];
  return { element: { tag: "H2", content }, decoration: [{ ...position, shapes }] };
}

/** A page that would be half empty has lines to write on; one that is nearly full has none. */
const worthLines = 160;

/** Lines to write on under what ends there, where there is much room. */
export function notesUnder(
  { page, y }: Pick<Position, "page" | "y">,
  bottom: number,
  width: number,
  wording: Wording,
): { readonly elements: readonly StructureElement[]; readonly decoration: readonly Mark[] } {
  if (bottom - y < worthLines) return { elements: [], decoration: [] };
  const { element, decoration } = layoutOwnNotes({ page, x: margin.side, y: y + 20 }, width, bottom, wording);
  return { elements: [element], decoration };
}

/** The name of the dance at the top of every page but the first. */
export function layoutRunningHeads(
  dance: Dance,
  pages: number,
  width: number,
  size: number,
  wording: Wording,
): readonly Mark[] {
  const level: Span = { text: danceLine(dance, wording, (text) => textWidth(text, size) <= width / 2) };
  const spans = (title: string): readonly Span[] => [{ text: `${title} `, style: "bold" }, level];
  const title = shortened(dance.routine.title, (text) => wrap(spans(text), size, width).length === 1);
  const [set] = wrap(spans(title), size, width);
  return Array.from({ length: pages - 1 }, (_, index): readonly Mark[] => {
    const position = { page: index + 1, x: margin.side, y: margin.top };
    return [
      ...(set === undefined ? [] : [{ ...position, line: set }]),
      { ...position, shapes: [line("ink", 0.6, [0, size * 1.6], [width, size * 1.6])] },
    ];
  }).flat();
}

/** What stands at the foot of a page beside its number. */
export interface Foot {
  readonly spans: readonly Span[];
  /** The mark of the counts on the page, beside its number. */
  readonly mark?: string;
  /** Whether it is laid out as content there; where it only comes again it is decoration. */
  readonly read?: boolean;
}

/** Feet stay so far from the edge that every printer prints them: 6 mm. */
const edge = 17.01;
/** Most lines of a foot; an address that is longer takes more. */
const footLines = 2;

/** The lines of a foot: of a long text its beginning, and the whole address. */
function setFoot(spans: readonly Span[], paper: Print["paper"], size: number, { print }: Wording): readonly Line[] {
  const number = textWidth(print.pageNumber(88, 88, "MMMM"), size);
  const room = papers[paper][0] - 2 * margin.side - number - 10;
  const address = spans.filter(({ href }) => href !== undefined).map((span): Span => ({ ...span, tone: "soft" }));
  const [own] = spans.filter(({ href }) => href === undefined);
  const text = own?.text.trim() ?? "";
  const set = (start: string) =>
    wrap([...(start === "" ? [] : [{ ...own, text: `${start} `, tone: "soft" } as const]), ...address], size, room);
  return set(shortened(text, (start) => set(start).length <= footLines));
}

/** Where the first line of a foot stands; the page number is one. */
function footTop(paper: Print["paper"], lines: number, size: number): number {
  const height = papers[paper][1];
  return Math.min(height - margin.bottom + 14 - (size - smallest), height - edge - Math.max(1, lines) * size * leading);
}

/** What stands at the foot of a first page, as content: the credit and the address are read once. */
export function footElement(spans: readonly Span[], paper: Print["paper"], wording: Wording): StructureElement {
  const lines = setFoot(spans, paper, smallest, wording);
  const y = footTop(paper, lines.length, smallest);
  return { tag: "P", content: stackLines(lines, { page: 0, x: margin.side, y }) };
}

/** Page numbers, and on each page what else stands at its foot, unless it is content there. */
export function layoutFeet(
  paper: Print["paper"],
  feet: readonly Foot[],
  wording: Wording,
  size = smallest,
): readonly Mark[] {
  const [pageWidth] = papers[paper];
  const set = new Map(
    [...new Set(feet.map(({ spans }) => spans))].map((spans) => [spans, setFoot(spans, paper, size, wording)]),
  );
  return feet.flatMap(({ spans, mark, read = false }, page): readonly Mark[] => {
    const lines = set.get(spans) ?? [];
    const y = footTop(paper, lines.length, size);
    const [number] = wrap([{ text: wording.print.pageNumber(page + 1, feet.length, mark), tone: "soft" }], size);
    const marks = lines.map((one, index): Mark => ({ page, x: margin.side, y: y + index * size * leading, line: one }));
    return [
      ...(read ? [] : marks),
      ...(number === undefined ? [] : [{ page, x: pageWidth - margin.side - number.width, y, line: number }]),
    ];
  });
}

/** The same foot on so many pages, on the first of them as content. */
export function feetOf(spans: readonly Span[], pages: number, mark?: string): readonly Foot[] {
  return Array.from(
    { length: pages },
    (_, page): Foot => ({ spans, read: page === 0, ...(mark !== undefined && { mark }) }),
  );
}
