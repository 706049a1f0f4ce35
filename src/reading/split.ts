import matter from "gray-matter";
import type { TextFinding } from "./finding.js";

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
    return fault(
      "no-front-matter-end",
      "The front matter has no end: write a line of three dashes between it and the prose.",
    );
  }
  const line = text.slice(0, 3 + closing.index).split("\n").length;
  if (closing[0].trimEnd() !== "---") {
    return fault(
      "no-front-matter-end",
      "A line that begins with three dashes ends the front matter: let it be dashes alone.",
      line,
    );
  }
  // With options gray-matter neither reads nor fills its cache, which answers a text that failed once with no data.
  const file = matter(text, { engines, language: "yaml" });
  return { halves: { yaml: file.matter ?? "", body: file.content, bodyLine: line + 1 }, findings: [] };
}
