import { block, indent } from "./indent.js";
import type { Mistake, Spot } from "./mistake.js";
import { partBelow } from "./part-below.js";
import { backslash, colon, colonInBraces, innerQuote, sign, unclosedBracket, unclosedQuote } from "./quoting.js";
import { comma, dash, dashBelow, noColon, noSpace, space, tab } from "./spacing.js";

/** The mistakes that people make most, the surest to recognise first. */
export const mistakes: readonly ((spot: Spot) => Mistake | undefined)[] = [
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
  comma,
  partBelow,
  indent,
  block,
  noColon,
];
