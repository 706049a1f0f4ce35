import { Composer, type Document, LineCounter, type Node, type ParsedNode } from "yaml";
import { definedOnly } from "../routine/defined-only.js";
import type { Place } from "../routine/problem.js";
import type { Position, TextFinding } from "./finding.js";
import { type Fix, fixMistake, plainReason } from "./fix-mistake.js";
import { parentOf } from "./place.js";
import type { KeyNames } from "./schema/keys.js";
import { type TooMuch, tokensOf } from "./too-much.js";
import { readTree } from "./tree.js";

/** A front matter (or a whole YAML file) as read. */
export interface Front {
  /** Texts, lists and mappings; nothing where the text is empty. */
  readonly value: unknown;
  readonly findings: readonly TextFinding[];
  /** True where not all of it could be read, or only by a guess: parts may be missing for no other fault of the author's. */
  readonly ragged: boolean;
  /** True of lines of which it is a guess what they belong to: nothing more is said of them. */
  readonly isUnsure: (line: number) => boolean;
  /** True of a part that could not be read: it has its finding. */
  readonly isBroken: (place: Place) => boolean;
  /** Keys of the outermost mapping in which something could not be read. */
  readonly faulty: readonly string[];
  /** True of a mapping or a list a part of which could not be read. */
  readonly hasGap: (place: Place) => boolean;
  /** Where a part stands, its key or its value; of a part that does not exist, the nearest part around it. */
  readonly locate: (place: Place, part?: "key" | "value") => Position;
}

/* Each fix reads the text anew: so many characters are read at most. */
const mostRead = 500_000;
const mostFixes = 25;

/**
 * Reads YAML 1.2 with every scalar as it was written. Of a mistake that is well known, it says what to write instead, fixes
 * the line, and reads on, so that one mistake does not hide the next.
 *
 * @param keys the names of the keys in this kind of file
 */
export function readYaml(text: string, keys: KeyNames): Front {
  const findings: TextFinding[] = [];
  const moved = new Set<number>();
  const written = text.split("\n");
  let lines: readonly string[] = written;
  let parsed = parse(lines.join("\n"));
  for (let fixes = 0; parsed.document && fixes < Math.min(mostFixes, mostRead / text.length); fixes++) {
    const fix = fixMistake(lines, parsed.document.errors, parsed.lineOf, parsed.document, keys);
    if (!fix) break;
    if (!isEcho(fix, findings, moved)) findings.push({ ...fix.finding, ...asWritten(fix.finding, lines, written) });
    for (const line of fix.moved) moved.add(line);
    lines = fix.lines;
    parsed = parse(lines.join("\n"));
  }
  return front(parsed, findings, moved, written, keys);
}

/** Where a place of lines that were fixed is in those of the author: a line may have been moved in or out, or made longer. */
function asWritten({ line, column }: Position, fixed: readonly string[], written: readonly string[]): Position {
  const [now, before] = [fixed[line - 1] ?? "", written[line - 1] ?? ""];
  const indent = (text: string) => text.length - text.trimStart().length;
  const shifted = column > indent(now) ? column - indent(now) + indent(before) : column;
  return { line, column: Math.max(1, Math.min(shifted, before.length + 1)) };
}

/* One mistake a line, and one of columns in a stretch of lines: what is fixed beside it is mostly for the same mistake. */
function isEcho({ finding, moved: lines }: Fix, findings: readonly TextFinding[], moved: ReadonlySet<number>): boolean {
  if (findings.some(({ line }) => line === finding.line)) return true;
  return lines.length > 0 && [...moved].some((line) => Math.abs(line - finding.line) < 12);
}

interface Parsed {
  readonly text: string;
  readonly counter: LineCounter;
  readonly lineOf: (offset: number) => number;
  readonly document?: Document.Parsed<ParsedNode>;
  /** Where a second document begins. */
  readonly more?: number;
  readonly excess?: TooMuch;
}

function parse(text: string): Parsed {
  const counter = new LineCounter();
  const lineOf = (offset: number) => counter.linePos(offset).line;
  const found = tokensOf(text, counter);
  const [tokens, excess] = "offset" in found ? [[], found] : [found, undefined];
  const options = { schema: "failsafe", uniqueKeys: false, prettyErrors: false, logLevel: "silent" } as const;
  const documents = new Composer(options).compose(tokens, true, text.length);
  const [document, second] = withoutTraces(() => firstTwo(documents as Iterable<Document.Parsed<ParsedNode>>));
  return { text, counter, lineOf, ...definedOnly<Parsed>({ document, more: second?.range[0], excess }) };
}

function firstTwo<Value>([first, second]: Iterable<Value>) {
  return [first, second] as const;
}

/* A text may be full of faults, each an error, and what takes longest about an error is where in the program it was made. */
function withoutTraces<Value>(work: () => Value): Value {
  const { stackTraceLimit } = Error;
  Error.stackTraceLimit = 0;
  try {
    return work();
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
}

/* Where the text stops being readable: nothing that seems to follow from there on is sure. */
function brokenAt({
  document,
  more,
  excess,
  text,
}: Parsed): { readonly offset: number; readonly finding: Omit<TextFinding, "line" | "column"> } | undefined {
  const fault = (offset: number, rule: string, message: string) => ({
    offset,
    finding: { severity: "error" as const, rule, message },
  });
  const [error] = document?.errors ?? [];
  if (error) return fault(error.pos[0], "yaml", plainReason(error));
  if (excess) return fault(excess.offset, "too-much", excess.message);
  if (more !== undefined)
    return fault(
      Math.max(0, text.lastIndexOf("\n...", more) + 1, text.lastIndexOf("\n---", more) + 1),
      "yaml",
      "Everything ends at this line, but more follows: take the line out.",
    );
  return undefined;
}

function front(
  parsed: Parsed,
  fixed: readonly TextFinding[],
  moved: ReadonlySet<number>,
  written: readonly string[],
  keys: KeyNames,
): Front {
  const findings = [...fixed];
  const positionOf = (offset: number): Position => {
    const { line, col } = parsed.counter.linePos(Math.min(offset, parsed.text.length));
    // A line that was fixed may be longer than what its author wrote.
    return { line: Math.max(1, line), column: Math.max(1, Math.min(col, (written[line - 1] ?? "").length + 1)) };
  };
  const broken = brokenAt(parsed);
  const end = broken ? positionOf(broken.offset) : undefined;
  // Where lines were moved, what can't be read after them may be for that alone.
  if (broken && end && moved.size === 0) findings.push({ ...broken.finding, ...end });
  const isUnsure = (line: number) => line >= (end?.line ?? Number.POSITIVE_INFINITY) || moved.has(line);
  const tree = readTree(
    (parsed.document?.contents as Node | null) ?? null,
    parsed.text,
    (severity, rule, message, offset) => {
      const position = positionOf(offset);
      if (!isUnsure(position.line)) findings.push({ severity, rule, message, ...position });
    },
    keys,
  );
  const gaps = new Set([...tree.broken].map(parentOf));
  return {
    value: tree.value,
    findings,
    ragged: end !== undefined || moved.size > 0,
    isUnsure,
    isBroken: (place) => tree.broken.has(place),
    hasGap: (place) => gaps.has(place),
    faulty: [...tree.broken].map((place) => place.split("/")[1] ?? ""),
    locate: (place, part = "key") => {
      for (let at = place; ; at = parentOf(at)) {
        const found = tree.places.get(at);
        if (found) return positionOf(at === place || found.text ? found[part] : found.key);
        if (at === "") return { line: 1, column: 1 };
      }
    },
  };
}
