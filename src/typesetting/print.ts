import type { Drawing, Shape } from "./shape.js";
import type { Line } from "./text.js";

/** Points of a page: ISO 216 A4 (210 × 297 mm) and ANSI Letter (8.5 × 11 in) at 72 points an inch. */
export const papers = { A4: [595.28, 841.89], Letter: [612, 792] } as const;

/** A place on paper: pages count from 0, points from the top left corner. */
export interface Position {
  readonly page: number;
  readonly x: number;
  readonly y: number;
}

/** Something visible: a line of text whose box has its top left corner there, or shapes drawn from there. */
export type Mark = Position & ({ readonly line: Line } | { readonly shapes: readonly Shape[] });

/** Structure types of ISO 32000-1, 14.8.4, as far as they are used here. */
export type Tag =
  | "Document"
  | "Sect"
  | "H1"
  | "H2"
  | "H3"
  | "H4"
  | "P"
  | "L"
  | "LI"
  | "Lbl"
  | "LBody"
  | "Table"
  | "TR"
  | "TH"
  | "TD"
  | "Figure"
  | "Link"
  | "Span"
  | "TOC"
  | "TOCI"
  | "BlockQuote"
  | "Code";

/** Where a link leads: a web address, or a page of the same document. */
export type Target = { readonly href: string } | { readonly page: number };

/** An element of a document as an assistive reader meets it: in reading order, and named for what it is. */
export interface StructureElement {
  readonly tag: Tag;
  /** Text alternative; of a link, where it leads in words. */
  readonly alt?: string;
  /** BCP 47 tag, where it is not in the document's language. */
  readonly lang?: string;
  /** Of a header cell: what it is the head of. */
  readonly scope?: "Row" | "Column";
  /** Of a cell: columns and rows that it covers, where more than one. */
  readonly columns?: number;
  readonly rows?: number;
  /** Of a link. */
  readonly target?: Target;
  /** Bounding box on its page, for a figure: left, top, right, bottom. */
  readonly box?: readonly [left: number, top: number, right: number, bottom: number];
  readonly content: readonly (StructureElement | Mark)[];
}

export interface Bookmark {
  readonly title: string;
  readonly page: number;
  /** How far down the page. */
  readonly y: number;
  readonly under: readonly Bookmark[];
}

/** A whole document, laid out: nothing is left to decide. */
export interface Print {
  readonly title: string;
  readonly author?: string;
  /** BCP 47 language tag. */
  readonly language: string;
  /** ISO 8601 calendar date. */
  readonly date?: string;
  readonly paper: keyof typeof papers;
  readonly pages: number;
  readonly elements: readonly StructureElement[];
  /** Lines, grounds and page numbers: seen, never read out. They lie under the elements. */
  readonly decoration: readonly Mark[];
  /** Where each page has all of this twice: how far down it is seen again, read by nobody, and what is drawn once between. */
  readonly again?: { readonly down: number; readonly between: readonly Mark[] };
  readonly bookmarks: readonly Bookmark[];
}

/** A drawing as a figure on paper. */
export function figure(drawing: Drawing, at: Position): StructureElement {
  const box = [at.x, at.y, at.x + drawing.width, at.y + drawing.height] as const;
  return { tag: "Figure", alt: drawing.description, box, content: [{ ...at, shapes: drawing.shapes }] };
}

/** The same element, so many pages later; where its links lead stays as it is. */
export function later(element: StructureElement, pages: number): StructureElement {
  const content = element.content.map((inner) => ("tag" in inner ? later(inner, pages) : laterMark(inner, pages)));
  return { ...element, content };
}

export function laterMark(mark: Mark, pages: number): Mark {
  return { ...mark, page: mark.page + pages };
}

export function laterBookmark(bookmark: Bookmark, pages: number): Bookmark {
  return { ...bookmark, page: bookmark.page + pages, under: bookmark.under.map((one) => laterBookmark(one, pages)) };
}
