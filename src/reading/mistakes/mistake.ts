/** Where YAML stumbled. Lines count from 1. */
export interface Spot {
  readonly lines: readonly string[];
  readonly line: number;
  readonly last: number;
  readonly code: string;
  readonly message: string;
  /** The line on which the quotes or brackets open that are not closed. */
  readonly opening: number | undefined;
  /** True of a word that is a key somewhere in this kind of file. */
  readonly isKey: (word: string) => boolean;
}

/** A mistake, what to write instead, and how each line would read without it. */
export interface Mistake {
  readonly line: number;
  readonly column: number;
  readonly rule: string;
  readonly message: string;
  readonly fixed: (text: string, line: number) => string;
  /** True where lines were moved in or out: what they then seem to belong to is a guess. */
  readonly moved?: boolean;
}

/** `indent key: value`, or a list's `- value`. */
export interface Entry {
  readonly start: string;
  readonly key: string;
  readonly value: string;
}

/** Nobody writes longer lines by hand, and looking into them could take very long. */
export const longestLine = 2000;

/** Takes a line apart; nothing where it is neither of the two. */
export function entryOf(text: string): Entry | undefined {
  if (text.length > longestLine) return undefined;
  const keyed = /^( *(?:- +)*)("[^"]*"|'[^']*'|[^\s"'#[\]{},][^:]*?) *:( +|$)(.*)$/.exec(text);
  if (keyed)
    return { start: `${keyed[1]}${keyed[2]}:${keyed[3]}`, key: keyed[2] ?? "", value: (keyed[4] ?? "").trimEnd() };
  const item = /^( *(?:- +)+)(.*)$/.exec(text);
  return item ? { start: item[1] ?? "", key: "", value: (item[2] ?? "").trimEnd() } : undefined;
}

/** A text in quotes, of the kind that needs no escapes where there is one. */
export function inQuotes(text: string): string {
  if (!/["\\]/.test(text)) return `"${text}"`;
  return text.includes("'") ? JSON.stringify(text) : `'${text}'`;
}

/** The fix of one line. */
export const onLine = (line: number, fix: (text: string) => string) => (text: string, at: number) =>
  at === line ? fix(text) : text;
