import type { Position } from "../../typesetting/print.js";
import type { Line } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { RowLayout } from "./row.js";

/** Height of a line of numerals over the columns. */
export const numeralStripHeight = 20;

/** Where a grid may stand: from `start` on the first page, and between `top` and `bottom` on every further one. */
export interface GridFrame {
  readonly wording: Wording;
  readonly left: number;
  readonly width: number;
  readonly start: Pick<Position, "page" | "y">;
  readonly top: number;
  readonly bottom: number;
}

/** The numerals over the columns. */
export interface Numerals {
  readonly columns: number;
  readonly labels: readonly string[];
  readonly accents: readonly boolean[];
}

/** Rows of a band that stay together: on one page, under the same numerals. */
export interface Fragment {
  readonly side: "whole" | "continued" | "none";
  /** What stands beside it. */
  readonly lines: readonly Line[];
  readonly rows: readonly RowLayout[];
  readonly heights: readonly number[];
}

/** What is on the paper, from top to bottom. */
export type GridItem = Pick<Position, "page" | "y"> &
  ({ readonly numerals: Numerals } | { readonly fragment: Fragment });
