import type { Position } from "../../typesetting/print.js";
import type { Wording } from "../../wording/wording.js";
import type { Columns } from "./columns.js";
import type { RowLayout } from "./row.js";
import type { SectionBar } from "./section-bar.js";

/** Height of a line of numerals over the columns. */
export const numeralStripHeight = 22;

/** Where a grid may stand: from `start` on the first page, and between `top` and `bottom` on every further one. */
export interface GridFrame {
  readonly wording: Wording;
  readonly left: number;
  readonly width: number;
  readonly start: Pick<Position, "page" | "y">;
  readonly top: number;
  readonly bottom: number;
  /** A section that does not fit whole begins on the next page where this one is filled to here; otherwise it is broken between two phrases. */
  readonly full: number;
}

/** The numerals over the columns. */
export interface Numerals {
  readonly columns: number;
  readonly x: Columns;
  readonly labels: readonly string[];
  readonly accents: readonly boolean[];
}

/** Rows of a section that stay together: on one page, under the same numerals, under a line that names the section. */
export interface Fragment {
  readonly bar: SectionBar;
  readonly rows: readonly RowLayout[];
  readonly heights: readonly number[];
  /** Whether the phrases of the section are numbered. */
  readonly numbered: boolean;
}

/** What is on the paper, from top to bottom. */
export type GridItem = Pick<Position, "page" | "y"> &
  ({ readonly numerals: Numerals } | { readonly fragment: Fragment });
