import { type Finding, inOrder, type TextFinding } from "./finding.js";

const most = 200;
const widest = 100;

/** At most 200 findings of one file, the gravest first to stay, and a last one that says how many more there are. */
export function limited<F extends TextFinding>(findings: readonly F[]): readonly F[] {
  if (findings.length <= most) return findings;
  const grave = (severity: string) => ["error", "warning", "note"].indexOf(severity);
  const kept = inOrder([...findings].sort((a, b) => grave(a.severity) - grave(b.severity)).slice(0, most));
  const last = kept.at(-1);
  const message = `There are at least ${findings.length - most} more findings in this file. Mend these first.`;
  return last ? [...kept, { ...last, rule: "more", message }] : kept;
}

/** What stands in the way before what there is to look at, each in its order. */
export function gravestFirst<F extends TextFinding>(findings: readonly F[]): readonly F[] {
  return [...findings].sort((a, b) => Number(b.severity === "error") - Number(a.severity === "error"));
}

/**
 * Findings for a person to read: where, what, what to write instead, and below it the line with a caret.
 *
 * @param sources the texts of the files, by the paths that the findings name
 */
export function formatFindings(findings: readonly Finding[], sources: ReadonlyMap<string, string>): string {
  const lines = new Map<string, readonly string[]>();
  const linesOf = (file: string) => {
    const split =
      lines.get(file) ??
      sources
        .get(file)
        ?.replace(/^\ufeff/, "")
        .split(/\r\n?|\n/) ??
      [];
    lines.set(file, split);
    return split;
  };
  return findings
    .map((finding) => `${formatFinding(finding)}${excerpt(finding, linesOf(finding.file)[finding.line - 1])}`)
    .join("");
}

function formatFinding({ file, line, column, severity, message, rule }: Finding): string {
  const text = severity === "error" ? message : `${severity}: ${message} (${rule})`;
  return `${printable(`${file}:${line}:${column}  ${text}`)}\n`;
}

/* The line, cut to a window around the column where it is long, and a caret below. */
function excerpt({ line, column }: Finding, text: string | undefined): string {
  if (text === undefined || text.trim() === "") return "";
  const from = column <= widest ? 0 : column - widest / 2;
  const shown = printable(text.slice(from, from + widest));
  const gutter = String(line);
  const before = printable(text.slice(from, Math.max(from, column - 1)));
  const indent = " ".repeat(Array.from(before.replace(/\p{M}/gu, "")).length);
  return `  ${gutter} | ${from > 0 ? "…" : ""}${shown}\n  ${" ".repeat(gutter.length)} | ${from > 0 ? " " : ""}${indent}^\n`;
}

/* Control characters and turns of the writing direction would write over the rest of a terminal's line. */
function printable(text: string): string {
  return text.replace(/\t/g, " ").replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]|\p{Surrogate}/gu, "\ufffd");
}
