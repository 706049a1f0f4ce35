import { block, indent } from "./indent.js";
import { backslash, colon, colonInBraces, innerQuote, sign, unclosedBracket, unclosedQuote } from "./quoting.js";
import type { Slip, Spot } from "./slip.js";
import { dash, dashBelow, noColon, noSpace, space, tab } from "./spacing.js";

/** The slips that people make most, the surest to recognise first. */
export const slips: readonly ((spot: Spot) => Slip | undefined)[] = [
  tab,
  space,
  noSpace,
  dash,
  dashBelow,
  unclosedQuote,
  innerQuote,
  backslash,
  colon,
  colonInBraces,
  sign,
  unclosedBracket,
  indent,
  block,
  noColon,
];
