import type { Library, Workshop } from "../../routine/routine.js";
import { later, laterBookmark, laterMark, type Print } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { feetOf, layoutFeet } from "./page.js";
import type { Sheet } from "./sheet.js";

/** Pages that belong together, and what stands at the foot of them. */
export interface BoundPart {
  readonly sheet: Sheet;
  readonly foot: readonly Span[];
  /** The mark of the counts on them. */
  readonly mark?: string;
  /** Whether its first page has that as content; where it only comes again it is decoration. */
  readonly read?: boolean;
}

/** Where each of some parts begins that follow each other, by the pages that they take. */
export const startsOf = (pages: readonly number[], first = 0): readonly number[] =>
  pages.map((_, index) => pages.slice(0, index).reduce((sum, one) => sum + one, first));

/** Parts as one document, its pages numbered through. */
export function bound(
  title: string,
  parts: readonly BoundPart[],
  { date }: Workshop,
  library: Library,
  wording: Wording,
): Print {
  const starts = startsOf(parts.map(({ sheet }) => sheet.pages));
  const shifted = parts.map(({ sheet }, index) => ({ sheet, start: starts[index] ?? 0 }));
  const feet = parts.flatMap(({ sheet, foot, mark, read = false }) =>
    feetOf(foot, sheet.pages, mark).map((one) => (read ? one : { ...one, read })),
  );
  return {
    title,
    ...(library.teacher === undefined ? {} : { author: library.teacher }),
    language: wording.language,
    ...(date === undefined ? {} : { date }),
    paper: library.paper,
    pages: feet.length,
    elements: shifted.map(({ sheet, start }) => ({
      tag: "Sect",
      content: sheet.elements.map((element) => later(element, start)),
    })),
    decoration: [
      ...shifted.flatMap(({ sheet, start }) => sheet.decoration.map((mark) => laterMark(mark, start))),
      ...layoutFeet(library.paper, feet, wording),
    ],
    bookmarks: shifted.flatMap(({ sheet, start }) => sheet.bookmarks.map((one) => laterBookmark(one, start))),
  };
}
