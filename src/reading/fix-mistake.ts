import type { Document, YAMLError } from "yaml";
import { isCollection, isScalar, Scalar, visit } from "yaml";
import type { TextFinding } from "./finding.js";
import type { Mistake, Spot } from "./mistakes/mistake.js";
import { mistakes } from "./mistakes/mistakes.js";
import type { KeyNames } from "./schema/keys.js";

/** A mistake that was recognised, and the lines as they were probably meant. */
export interface Fix {
  readonly finding: TextFinding;
  readonly lines: readonly string[];
  /** Lines of which it is a guess what they belong to. */
  readonly moved: readonly number[];
}

/** Recognises the mistake behind YAML errors, if it is a well-known one, and fixes it in a copy of the lines. */
export function fixMistake(
  lines: readonly string[],
  errors: readonly YAMLError[],
  lineOf: (offset: number) => number,
  document: Document,
  { isKey }: KeyNames,
): Fix | undefined {
  const spots = errors.slice(0, 5).map(
    (error): Spot => ({
      lines,
      isKey,
      line: firstLineOf(error, lines, lineOf),
      last: lineOf(error.pos[1]),
      code: error.code,
      message: error.message,
      opening: openingOf(error, lineOf, document),
    }),
  );
  for (const recognise of mistakes) {
    for (const spot of spots) {
      const mistake = recognise(spot);
      const found = mistake && fixOf(lines, mistake);
      if (found) return found;
    }
  }
  return undefined;
}

/* YAML often notices what is wrong at the end of the line before. */
function firstLineOf(error: YAMLError, lines: readonly string[], lineOf: (offset: number) => number): number {
  const line = lineOf(error.pos[0]);
  if (error.code !== "BAD_INDENT") return line;
  const start = lines.slice(0, line - 1).reduce((sum, text) => sum + text.length + 1, 0);
  return lines[line - 1]?.slice(error.pos[0] - start).trim() === "" ? line + 1 : line;
}

function fixOf(
  lines: readonly string[],
  { line, column, rule, message, fixed, moved = false }: Mistake,
): Fix | undefined {
  const all = lines.map((text, index) => fixed(text, index + 1));
  // A fix that changes nothing would be tried for ever.
  if (all.every((text, index) => text === lines[index])) return undefined;
  const movedLines = moved ? all.flatMap((text, index) => (text === lines[index] ? [] : [index + 1])) : [];
  return { finding: { severity: "error", rule, message, line, column }, lines: all, moved: movedLines };
}

/* Where the quotes or brackets open that an error says are not closed: it points to where it noticed. */
function openingOf(error: YAMLError, lineOf: (offset: number) => number, document: Document): number | undefined {
  if (!/closing|^Flow|flow .* to end/i.test(error.message)) return undefined;
  const [at] = error.pos;
  let opening: number | undefined;
  visit(document, (_, node) => {
    if (!isScalar(node) && !isCollection(node)) return;
    const quotes = isScalar(node) && (node.type === Scalar.QUOTE_DOUBLE || node.type === Scalar.QUOTE_SINGLE);
    const brackets = isCollection(node) && node.flow === true;
    const [from, , to] = node.range ?? [0, 0, 0];
    if ((quotes || brackets) && from <= at && at <= to + 1) opening = from;
  });
  return opening === undefined ? undefined : lineOf(opening);
}

const reasons: Readonly<Record<string, string>> = {
  TAB_AS_INDENT: "This line is indented with a tab: use spaces, two for each step.",
  BAD_INDENT:
    "This line starts in a column that fits none of the lines above it. Lines that belong together start in the same column.",
  MISSING_CHAR: "Something is not closed or not separated here: look for a missing quote, bracket or colon.",
  BLOCK_AS_IMPLICIT_KEY: "Two keys stand on one line here. If the colon belongs to a text, put the text in quotes.",
  MULTILINE_IMPLICIT_KEY:
    "A line here has no `key: value`. Look for a missing colon, or for a space missing after one.",
  UNEXPECTED_TOKEN:
    "Something stands here that can't be read after what comes before it. Put texts with special signs in quotes.",
  BAD_DIRECTIVE: "A line must not begin with `%`.",
  BLOCK_IN_FLOW:
    "Inside { } and [ ] everything is separated by commas: no line may begin with a dash or a key of its own.",
};

/** What a YAML error means to somebody who has never heard of YAML. */
export function plainReason(error: YAMLError): string {
  return (
    reasons[error.code] ??
    "This can't be read. Look for a missing quote, bracket or colon, here or on the line above, and put texts with special signs in quotes."
  );
}
