import matter from "gray-matter";
import type { TextFinding } from "./finding.js";
import { closeDirections } from "./normal-text.js";

/** A Markdown file taken apart. */
export interface Halves {
  /** What stands between the lines of dashes, from the end of the first on, so that its line numbers are the file's. */
  readonly yaml: string;
  readonly body: string;
  /** The line of the file on which the body begins. */
  readonly bodyLine: number;
}

const example = "Begin the file with a line of three dashes, then `title: …`, and close with a line of three dashes.";

/* Whatever gray-matter knows beside YAML would parse or even run what stands in a file. */
const refuse = () => {
  throw new Error("only YAML is read");
};
const engines = {
  // What it cuts out is read elsewhere, as the text of a file that is YAML alone is.
  yaml: () => ({}),
  json: refuse,
  javascript: refuse,
  js: refuse,
  coffee: refuse,
  coffeescript: refuse,
  cson: refuse,
};

/** Splits a file (its line ends already "\n") into front matter and body. Without front matter it says so and gives nothing. */
export function split(text: string): { readonly halves?: Halves; readonly findings: readonly TextFinding[] } {
  const fault = (rule: string, message: string, line = 1, column = 1) => ({
    findings: [{ severity: "error" as const, rule, message, line, column }],
  });
  const opening = /^---([^\n]*)/.exec(text);
  if (!opening || text.startsWith("----")) {
    return fault("no-front-matter", `This file does not begin with its front matter. ${example}`);
  }
  const language = (opening[1] ?? "").trim();
  if (language !== "" && language !== "yaml") {
    return fault(
      "front-matter-kind",
      "Only YAML is read here: let the first line be three dashes and nothing else.",
      1,
      4,
    );
  }
  const closing = /^---.*$/m.exec(text.slice(3));
  if (!closing) {
    const lines = text.split("\n");
    const last = lines.findLastIndex((line) => /^( +|- |[a-z-]+:)/.test(line) && line.trim() !== "") + 1;
    return fault(
      "no-front-matter-end",
      "No line ends the part with the counts: write a line of three dashes, `---`, under it; your own words go below that.",
      Math.max(1, last),
    );
  }
  const end = 3 + closing.index;
  const above = text.slice(0, end).split("\n");
  const line = above.length;
  if (closing[0].trimEnd() !== "---") {
    return fault(
      "no-front-matter-end",
      "A line that begins with three dashes ends the front matter: let it be dashes alone.",
      line,
    );
  }
  const gap = longGap(above);
  if (gap !== undefined) {
    return fault("too-much", `More than ${mostEmpty} empty lines begin here: take them out.`, gap);
  }
  // With options gray-matter neither reads nor fills its cache, which answers a text that failed once with no data.
  const file = matter(`${text.slice(0, end)}---${text.slice(end + closing[0].length)}`, { engines, language: "yaml" });
  return { halves: { yaml: file.matter ?? "", body: closeDirections(file.content), bodyLine: line + 1 }, findings: [] };
}

/* gray-matter looks through a run of empty lines once for each of them. */
const mostEmpty = 200;

/* The line on which too long a run of empty lines begins. */
function longGap(lines: readonly string[]): number | undefined {
  let start = 0;
  for (const [index, text] of lines.entries()) {
    if (text.trim() !== "") start = index + 1;
    else if (index - start >= mostEmpty) return start + 1;
  }
  return undefined;
}
