import { quoted, suggested } from "../nearest.js";
import { longestLine, type Mistake, onLine, type Spot } from "./mistake.js";

/** Lines indented with tabs. */
export function tab({ lines, code }: Spot): Mistake | undefined {
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
    fixed: (text) => text.replace(/^[ \t]+/, (indent) => indent.replaceAll("\t", indent.includes(" ") ? "" : "  ")),
  };
}

/* Spaces that are not the space bar's come along with text from web pages and word processors. */
const oddSpace = /^[ -]*[\u00a0\u2000-\u200b\u202f\u3000]|:[\u00a0\u2000-\u200b\u202f\u3000]/;

/** A special space where a plain one belongs. */
export function space({ lines, line }: Spot): Mistake | undefined {
  const at = oddSpace.exec(lines[line - 1] ?? "");
  if (!at) return undefined;
  return {
    line,
    column: at.index + at[0].length,
    rule: "odd-space",
    message: "The space here is not an ordinary one, though it looks like one: delete it and press the space bar.",
    fixed: onLine(line, (text) => text.replace(oddSpace, (found) => `${found.slice(0, -1)} `)),
  };
}

/** A key whose colon has no space after it. */
export function noSpace({ lines, line, last, isKey }: Spot): Mistake | undefined {
  for (let at = line; at <= Math.min(last, line + 2); at++) {
    const [, start = "", key = "", value = ""] =
      /^( *(?:- +)*)([a-z][a-z-]*|\d[\w&,-]*):([^\s:/].*)$/.exec(lines[at - 1] ?? "") ?? [];
    if (!(isKey(key) || (/^\d/.test(key) && /^["'\p{L}{]/u.test(value)))) continue;
    return {
      line: at,
      column: start.length + key.length + 1,
      rule: "colon-space",
      message: `Put a space after the colon: \`${key}: ${value.trim()}\`.`,
      fixed: onLine(at, () => `${start}${key}: ${value}`),
    };
  }
  return undefined;
}

/** What a dash before counts means. */
export const dashes =
  "A dash begins a phrase; the other moves of the phrase stand under the first one, without a dash.";

/** The dash of a list's entry without a space after it. */
export function dash({ lines, line }: Spot): Mistake | undefined {
  for (const at of [line, line - 1]) {
    const text = lines[at - 1] ?? "";
    const [, start = "", rest = ""] = /^( *(?:- +)*-)(\d[\w&,-]*: .*)$/.exec(text) ?? [];
    if (start === "") continue;
    return {
      line: at,
      column: start.length,
      rule: "dash-space",
      message: `Put a space after the dash: ${suggested(`- ${rest}`)}. ${dashes}`,
      fixed: onLine(at, () => `${start} ${rest}`),
    };
  }
  return undefined;
}

/** A key without a colon, or a line that is none at all. */
export function noColon({ lines, line, code, isKey }: Spot): Mistake | undefined {
  const text = lines[line - 1] ?? "";
  if (!["MISSING_CHAR", "MULTILINE_IMPLICIT_KEY"].includes(code) || text.includes(": ") || /[:,{}[\]]\s*$/.test(text))
    return undefined;
  const [, start = "", word = ""] = /^( *(?:- +)*)([\w&,-]+)(?=[ =]|$)/.exec(text) ?? [];
  const known = isKey(word) || /^\d/.test(word);
  if (word === "" || (!known && start.includes("-"))) return undefined;
  const value = text.slice(start.length + word.length).replace(/^[ :=]+/, "");
  return {
    line,
    column: start.length + (known ? word.length : 0) + 1,
    rule: "no-colon",
    message: known
      ? `Put a colon and a space after \`${word}\`${value === "" ? "" : `: ${suggested(`${word}: ${value}`)}`}.`
      : "This line has no `key: value`. If it continues the text above, put all of that on one line, in quotes.",
    fixed: onLine(line, (all) => (known ? all.replace(/^( *(?:- +)*[\w&,-]+)[ :=]*/, "$1: ") : "")),
  };
}

/** A comma after which nothing follows, or another one: at a line's end, or within brackets. */
export function comma({ lines, line }: Spot): Mistake | undefined {
  for (const at of [line, line - 1]) {
    const text = lines[at - 1] ?? "";
    const [, before, rest] = /^(.*[}\]"'] *),( *)$/.exec(text) ?? /^(.*[{[,][^"']*,) *,(.*)$/.exec(text) ?? [];
    if (before === undefined || text.length > longestLine) continue;
    return {
      line: at,
      column: before.length + 1,
      rule: "comma",
      message: `There is a comma too many here: write ${suggested(`${before}${rest}`)}.`,
      fixed: onLine(at, () => `${before}${rest}`),
    };
  }
  return undefined;
}

/** An entry with a dash below one without: the first line of the other one lacks its dash. */
export function dashBelow({ lines, line, code }: Spot): Mistake | undefined {
  const [, indent = "", key] = /^( *)- +([\w&,-]+):/.exec(lines[line - 1] ?? "") ?? [];
  if (key === undefined || code !== "BLOCK_AS_IMPLICIT_KEY") return undefined;
  const above: number[] = [];
  for (let at = line - 1; at > 0 && !isShallower(lines[at - 1] ?? "", indent); at--)
    if (startsAlike((lines[at - 1] ?? "").slice(indent.length), key)) above.push(at);
  // Of counts the first begins the phrase; of keys the nearest is an entry's own.
  const first = /^\d/.test(key) ? above.at(-1) : above[0];
  if (first === undefined) return undefined;
  const begins = (lines[first - 1] ?? "").trim();
  return {
    line: first,
    column: indent.length + 1,
    rule: "dash",
    message: `The entry below begins with a dash, and so must this one: ${suggested(`- ${begins}`)}. Its other lines start under ${quoted(begins.replace(/:.*$/, ""))}.`,
    moved: true,
    fixed: (text, at) =>
      at < first || at >= line ? text : `${indent}${at === first ? "- " : "  "}${text.slice(indent.length)}`,
  };
}

const isShallower = (text: string, indent: string) => text.trim() !== "" && !text.startsWith(indent);

const startsAlike = (text: string, key: string) =>
  /^\d/.test(key) ? /^\d[\w&,-]*: /.test(text) : text.startsWith(`${key}: `);
