import { block, indent } from "./indent.js";
import { quoted } from "./nearest.js";
import { allKeys } from "./schema/all-keys.js";

/** Where YAML stumbled. Lines count from 1. */
export interface Spot {
  readonly lines: readonly string[];
  readonly line: number;
  readonly last: number;
  readonly code: string;
  readonly message: string;
  /** The line on which the quotes or brackets open that are not closed. */
  readonly opening: number | undefined;
}

/** A slip, what to write instead, and how each line would read without it. */
export interface Slip {
  readonly line: number;
  readonly column: number;
  readonly rule: string;
  readonly message: string;
  readonly mended: (text: string, line: number) => string;
  /** True where lines were moved in or out: what they then seem to belong to is a guess. */
  readonly moved?: boolean;
}

/** `indent key: value`, or a list's `- value`. */
interface Entry {
  readonly start: string;
  readonly key: string;
  readonly value: string;
}

/** Nobody writes longer lines by hand, and looking into them could take very long. */
export const longestLine = 2000;

function entryOf(text: string): Entry | undefined {
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

const one = (line: number, mend: (text: string) => string) => (text: string, at: number) =>
  at === line ? mend(text) : text;

function tab({ lines, code }: Spot): Slip | undefined {
  if (code !== "TAB_AS_INDENT") return undefined;
  const indented = lines.flatMap((text, index) => (/^ *\t/.test(text) ? [index + 1] : []));
  const [line] = indented;
  if (line === undefined) return undefined;
  const more = indented.length > 1 ? ` The same goes for ${indented.length - 1} more.` : "";
  return {
    line,
    column: (lines[line - 1] ?? "").indexOf("\t") + 1,
    rule: "tab",
    message: `This line is indented with a tab: use spaces, two for each step.${more}`,
    mended: (text) => text.replace(/^[ \t]+/, (indent) => indent.replaceAll("\t", indent.includes(" ") ? "" : "  ")),
  };
}

/* Spaces that are not the space bar's come along with text from web pages and word processors. */
const oddSpace = /^[ -]*[\u00a0\u2000-\u200b\u202f\u3000]|:[\u00a0\u2000-\u200b\u202f\u3000]/;

function space({ lines, line }: Spot): Slip | undefined {
  const at = oddSpace.exec(lines[line - 1] ?? "");
  if (!at) return undefined;
  return {
    line,
    column: at[0].length,
    rule: "odd-space",
    message: "A special space stands here, perhaps pasted from elsewhere: delete it and type a plain one.",
    mended: one(line, (text) => text.replace(oddSpace, (found) => `${found.slice(0, -1)} `)),
  };
}

function noSpace({ lines, line, last }: Spot): Slip | undefined {
  for (let at = line; at <= Math.min(last, line + 2); at++) {
    const [, start = "", key = "", value = ""] =
      /^( *(?:- +)*)([a-z][a-z-]*|\d[\w&,-]*):([^\s:/].*)$/.exec(lines[at - 1] ?? "") ?? [];
    if (!(allKeys().has(key) || (/^\d/.test(key) && /^["'\p{L}{]/u.test(value)))) continue;
    return {
      line: at,
      column: start.length + key.length + 1,
      rule: "colon-space",
      message: `Put a space after the colon: \`${key}: ${value.trim()}\`.`,
      mended: one(at, () => `${start}${key}: ${value}`),
    };
  }
  return undefined;
}

function unclosedQuote({ lines, opening, line, message }: Spot): Slip | undefined {
  if (!/closing ["']/.test(message)) return undefined;
  const at = opening ?? line;
  const entry = entryOf(lines[at - 1] ?? "");
  const [quote = ""] = entry?.value ?? "";
  if (!entry || !/["']/.test(quote) || entry.value.indexOf(quote, 1) > 0) return undefined;
  const whole = inQuotes(entry.value.slice(1).trimEnd());
  return {
    line: at,
    column: entry.start.length + 1,
    rule: "quotes",
    message: `The quotes that open here are not closed. Write ${quoted(whole)}.`,
    mended: one(at, () => `${entry.start}${whole}`),
  };
}

function innerQuote({ lines, line, code, opening }: Spot): Slip | undefined {
  if (code !== "UNEXPECTED_TOKEN" && code !== "MISSING_CHAR") return undefined;
  const at = opening ?? line;
  const entry = entryOf(lines[at - 1] ?? "");
  const [quote = ""] = entry?.value ?? "";
  if (!entry || !/["']/.test(quote)) return undefined;
  const { value } = entry;
  const end = value.indexOf(quote, 1);
  if (end < 0 || /^\s*(#|$)/.test(value.slice(end + 1))) return undefined;
  const closed = value.endsWith(quote) && value.length > 1;
  const whole = inQuotes(closed ? value.slice(1, -1) : value);
  return {
    line: at,
    column: entry.start.length + end + 1,
    rule: "quotes",
    message: `The quotes end here, before the text does. Write ${quoted(whole)}.`,
    mended: one(at, () => `${entry.start}${whole}`),
  };
}

function backslash({ lines, line, code }: Spot): Slip | undefined {
  const text = lines[line - 1] ?? "";
  const at = /\\(?![\\"/abefnrtvNLP_ 0xuU])/.exec(text);
  if (code !== "BAD_DQ_ESCAPE" || !at) return undefined;
  return {
    line,
    column: at.index + 1,
    rule: "quotes",
    message: "Inside double quotes a backslash must stand twice: `\\\\`. Or put the text in single quotes.",
    mended: one(line, () => text.replace(/\\(?![\\"/abefnrtvNLP_ 0xuU])/g, "\\\\")),
  };
}

function colon({ lines, line, code }: Spot): Slip | undefined {
  const entry = entryOf(lines[line - 1] ?? "");
  if (!entry || !["BLOCK_AS_IMPLICIT_KEY", "MULTILINE_IMPLICIT_KEY"].includes(code)) return undefined;
  const { start, key, value } = entry;
  const at = value.search(/:( |$)/);
  if (at < 0 || /^["'[{]/.test(value)) return undefined;
  const whole = inQuotes(value.replace(/^[“”„](.*)[“”]$/, "$1"));
  return {
    line,
    column: start.length + at + 1,
    rule: "colon",
    message: `A colon and a space begin a new key. If they belong to the text, put it in quotes: ${quoted(`${key ? `${key}: ` : ""}${whole}`)}.`,
    mended: one(line, () => `${start}${whole}`),
  };
}

/* Signs that have a meaning of their own where a value begins. */
function sign({ lines, line, code }: Spot): Slip | undefined {
  const entry = entryOf(lines[line - 1] ?? "");
  if (!entry || !/^(\[.*\].|[*&!%@`|>?-])/.test(entry.value)) return undefined;
  if (code === "BAD_INDENT") return undefined;
  const { start, key, value } = entry;
  const whole = inQuotes(value);
  return {
    line,
    column: start.length + 1,
    rule: "special-start",
    message: `A text that begins with ${value[0] === "`" ? "a backtick" : `\`${value[0]}\``} must stand in quotes: ${quoted(`${key ? `${key}: ` : ""}${whole}`)}.`,
    mended: one(line, () => `${start}${whole}`),
  };
}

function unclosedBracket({ lines, opening, message }: Spot): Slip | undefined {
  if (!/^Flow|flow .* to end/i.test(message) || opening === undefined) return undefined;
  const text = lines[opening - 1] ?? "";
  const column = Math.max(text.lastIndexOf("{"), text.lastIndexOf("["));
  const close = text[column] === "{" ? "}" : "]";
  if (column < 0 || text.includes(close, column)) return undefined;
  return {
    line: opening,
    column: column + 1,
    rule: "brackets",
    message: `The \`${text[column]}\` that opens here is not closed: write \`${close}\` at the end.`,
    mended: one(opening, () => `${text.trimEnd()}${close}`),
  };
}

function noColon({ lines, line, code }: Spot): Slip | undefined {
  const text = lines[line - 1] ?? "";
  if (!["MISSING_CHAR", "MULTILINE_IMPLICIT_KEY"].includes(code) || text.includes(": ") || /[:,{}[\]]\s*$/.test(text))
    return undefined;
  const [, start = "", word = ""] = /^( *(?:- +)*)([\w&,-]+)(?=[ =]|$)/.exec(text) ?? [];
  const known = allKeys().has(word) || /^\d/.test(word);
  if (word === "" || (!known && start.includes("-"))) return undefined;
  return {
    line,
    column: start.length + (known ? word.length : 0) + 1,
    rule: "no-colon",
    message: known
      ? `Put a colon and a space after \`${word}\`.`
      : "This line has no `key: value`. If it continues the text above, put all of that on one line, in quotes.",
    mended: one(line, (all) => (known ? all.replace(/^( *(?:- +)*[\w&,-]+)[ :=]*/, "$1: ") : "")),
  };
}

/** The slips that people make most, the surest to recognise first. */
export const slips: readonly ((spot: Spot) => Slip | undefined)[] = [
  tab,
  space,
  noSpace,
  unclosedQuote,
  innerQuote,
  backslash,
  colon,
  sign,
  unclosedBracket,
  indent,
  block,
  noColon,
];
