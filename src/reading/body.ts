import { Lexer, type Token, type Tokens, walkTokens } from "marked";
import type { Prose } from "../routine/written.js";
import { inlineCue } from "./cue.js";
import type { TextFinding } from "./finding.js";
import { isSafeLink } from "./link.js";
import { nearest, quoted } from "./nearest.js";

interface Part {
  readonly heading?: string;
  readonly line: number;
  markdown: string;
}

/**
 * Splits a routine's prose at its headings: what stands before the first, the note of each section, and the rest. A
 * heading inside a section's note (`###`) stays in it; link definitions are known in every part.
 *
 * @param firstLine the line of the file on which the body begins
 */
export function readBody(
  markdown: string,
  sections: readonly string[],
  firstLine: number,
): { readonly prose: Prose; readonly findings: readonly TextFinding[] } {
  const tokens = Lexer.lex(markdown);
  const findings = linkFindings(tokens, firstLine);
  const parts = divide(tokens, firstLine);
  const definitions = tokens.filter(({ type }) => type === "def").map(({ raw }) => raw.trim());
  const whole = (part: Part) => [part.markdown.trim(), ...definitions].join("\n\n").trim();
  const notes = new Map<string, string[]>();
  const after: string[] = [];
  const [introduction = { line: firstLine, markdown: "" }, ...headed] = parts;
  for (const part of headed) {
    const section = part.heading === undefined ? undefined : sectionOf(part.heading, sections);
    if (part.heading !== undefined && section !== part.heading)
      headingFinding(part.heading, section, sections, part.line, findings);
    if (section === undefined) after.push(part.markdown.trim());
    else notes.set(section, [...(notes.get(section) ?? []), withoutHeading(part)]);
  }
  const withDefinitions = (text: string) => (text === "" ? "" : whole({ line: 0, markdown: text }));
  return {
    prose: {
      introduction: withDefinitions(introduction.markdown.trim()),
      notes: [...notes].map(([section, texts]) => ({ section, markdown: withDefinitions(texts.join("\n\n").trim()) })),
      after: withDefinitions(after.join("\n\n")),
    },
    findings,
  };
}

function divide(tokens: readonly Token[], firstLine: number): Part[] {
  const parts: Part[] = [{ line: firstLine, markdown: "" }];
  let line = firstLine;
  for (const token of tokens) {
    const depth = token.type === "heading" ? (token as Tokens.Heading).depth : undefined;
    if (depth !== undefined && (depth <= 2 || parts.length === 1)) {
      const heading = depth === 2 ? inlineCue((token as Tokens.Heading).text).text : undefined;
      parts.push({ ...(heading === undefined ? {} : { heading }), line, markdown: "" });
    }
    const last = parts.at(-1);
    if (last && token.type !== "def") last.markdown += token.raw;
    line += token.raw.split("\n").length - 1;
  }
  return parts;
}

function withoutHeading(part: Part): string {
  const [first, ...others] = Lexer.lex(part.markdown);
  return first
    ? others
        .map(({ raw }) => raw)
        .join("")
        .trim()
    : "";
}

function sectionOf(heading: string, sections: readonly string[]): string | undefined {
  const plain = (text: string) => text.replace(/\s+/g, " ").trim().toLowerCase();
  return sections.find((name) => name === heading) ?? sections.find((name) => plain(name) === plain(heading));
}

function headingFinding(
  heading: string,
  section: string | undefined,
  sections: readonly string[],
  line: number,
  findings: TextFinding[],
): void {
  const near = section ?? nearest(heading, sections);
  if (near === undefined) return;
  const message =
    section === undefined
      ? `No section is called ${quoted(heading)}; did you mean \`## ${near}\`? As it is, this text stands after the counts.`
      : `This note goes to the section \`${near}\`, which the counts spell that way.`;
  findings.push({ severity: section === undefined ? "warning" : "note", rule: "heading", message, line, column: 1 });
}

/** What is said of the links of a prose that are left out. */
export function linkFindings(tokens: Token[], firstLine: number): TextFinding[] {
  const findings: TextFinding[] = [];
  let line = firstLine;
  for (const token of tokens) {
    walkTokens([token], (inner) => {
      if (inner.type !== "link" && inner.type !== "image" && inner.type !== "def") return;
      const { href } = inner as Tokens.Link;
      if (isSafeLink(href)) return;
      const before = token.raw.slice(0, Math.max(0, token.raw.indexOf(inner.raw))).split("\n");
      const at = { line: line + before.length - 1, column: (before.at(-1) ?? "").length + 1 };
      findings.push({ severity: "warning", rule: "link", message: unsafeLink(href), ...at });
    });
    line += token.raw.split("\n").length - 1;
  }
  return findings;
}

/** What is said of a link that is left out. */
export function unsafeLink(href: string): string {
  return `The link to ${quoted(href)} is left out: links may begin with https://, http:// or mailto:, or name a page of your site.`;
}
