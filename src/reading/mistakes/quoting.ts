import { suggested } from "../nearest.js";
import { entryOf, inQuotes, longestLine, type Mistake, onLine, type Spot } from "./mistake.js";

/** Quotes that open and do not close on their line. */
export function unclosedQuote({ lines, opening, line, message }: Spot): Mistake | undefined {
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
    message: `The quotes that open here are not closed. Write ${suggested(whole)}.`,
    fixed: onLine(at, () => `${entry.start}${whole}`),
  };
}

/** Quotes that close before the text ends. */
export function innerQuote({ lines, line, code, opening }: Spot): Mistake | undefined {
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
    message: `The quotes end here, before the text does. Write ${suggested(whole)}.`,
    fixed: onLine(at, () => `${entry.start}${whole}`),
  };
}

function singly(text: string): string {
  return `'${text.trim().slice(1, -1).replaceAll("'", "''")}'`;
}

/** A backslash in double quotes, as Markdown has it. */
export function backslash({ lines, line, code }: Spot): Mistake | undefined {
  const text = lines[line - 1] ?? "";
  const at = /\\(?![\\"/abefnrtvNLP_ 0xuU])/.exec(text);
  if (code !== "BAD_DQ_ESCAPE" || !at) return undefined;
  return {
    line,
    column: at.index + 1,
    rule: "quotes",
    message: `Inside double quotes \`\\\` has a meaning of its own. Put the text in single quotes: ${suggested(singly(text.slice(text.indexOf('"'))))}.`,
    fixed: onLine(line, () => text.replace(/\\(?![\\"/abefnrtvNLP_ 0xuU])/g, "\\\\")),
  };
}

/** A colon and a space in a text. */
export function colon({ lines, line, code }: Spot): Mistake | undefined {
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
    message: `A colon and a space begin a new key. If they belong to the text, put it in quotes: ${suggested(`${key ? `${key}: ` : ""}${whole}`)}.`,
    fixed: onLine(line, () => `${start}${whole}`),
  };
}

/** A colon and a space in a text within braces. */
export function colonInBraces({ lines, line, code }: Spot): Mistake | undefined {
  const text = lines[line - 1] ?? "";
  if (code !== "BLOCK_IN_FLOW" || text.length > longestLine) return undefined;
  const found = /[{,] *([\w-]+): +(?=[^\s"'[{])([^,{}[\]]*?: [^,{}[\]]*)/.exec(text);
  const [start, key = "", value = ""] = found ?? [];
  if (!found || start === undefined) return undefined;
  const from = found.index + start.length - value.length;
  const whole = inQuotes(value.trimEnd());
  return {
    line,
    column: from + value.indexOf(": ") + 1,
    rule: "colon",
    message: `A colon and a space begin a new key. If they belong to the text, put it in quotes: ${suggested(`${key}: ${whole}`)}.`,
    fixed: onLine(line, () => `${text.slice(0, from)}${whole}${text.slice(from + value.trimEnd().length)}`),
  };
}

/** A text that begins with a sign that means something to YAML. */
export function sign({ lines, line, code }: Spot): Mistake | undefined {
  const entry = entryOf(lines[line - 1] ?? "");
  if (!entry || !/^(\[.*\].|[*&!%@`|>?-])/.test(entry.value)) return undefined;
  if (code === "BAD_INDENT") return undefined;
  const { start, key, value } = entry;
  const whole = inQuotes(value);
  return {
    line,
    column: start.length + 1,
    rule: "special-start",
    message: `A text that begins with ${value[0] === "`" ? "a backtick" : `\`${value[0]}\``} must stand in quotes: ${suggested(`${key ? `${key}: ` : ""}${whole}`)}.`,
    fixed: onLine(line, () => `${start}${whole}`),
  };
}

/** A bracket or brace that opens and does not close on its line. */
export function unclosedBracket({ lines, opening, message }: Spot): Mistake | undefined {
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
    fixed: onLine(opening, () => `${text.trimEnd()}${close}`),
  };
}
