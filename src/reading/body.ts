import type { Token, Tokens } from "marked";
import type { Prose } from "../routine/written.js";
import { inlineCue } from "./cue.js";
import type { TextFinding } from "./finding.js";
import { nearest, quoted } from "./nearest.js";
import { normalText } from "./normal-text.js";
import { linesIn, readProse } from "./prose.js";

/** A heading and what stands below it. */
interface HeadedPart {
  /** The text of a `##` heading. */
  readonly name?: string;
  /** The heading as written. */
  readonly heading: string;
  readonly line: number;
  text: string;
}

/* For more headings than these nobody waits to hear what else they might have meant. */
const mostHints = 100;

/**
 * Splits a routine's prose at its headings: what stands before the first, the note of each section, and the rest. A
 * heading inside a section's note (`###`) stays in it; link definitions are known in every part that uses them.
 *
 * @param firstLine the line of the file on which the prose begins
 */
export function readBody(
  markdown: string,
  sections: readonly string[],
  firstLine: number,
): { readonly prose: Prose; readonly findings: readonly TextFinding[] } {
  const { tokens, findings } = readProse(markdown, firstLine);
  const [introduction, ...parts] = divide(tokens, firstLine);
  const notes = new Map<string, string[]>();
  const after: string[] = [];
  const hints: TextFinding[] = [];
  const known = new Map([...sections].reverse().map((name) => [plain(name), name]));
  for (const { name, heading, line, text } of parts) {
    const section = name === undefined ? undefined : sections.includes(name) ? name : known.get(plain(name));
    if (name !== undefined && name !== section && hints.length < mostHints)
      hints.push(...hint(name, section, sections, line));
    if (section === undefined) after.push(`${heading}${text}`.trim());
    else
      notes
        .set(section, notes.get(section) ?? [])
        .get(section)
        ?.push(text.trim());
  }
  const whole = (texts: readonly string[]) => withDefinitions(texts.join("\n\n").trim(), tokens);
  return {
    prose: {
      introduction: whole([introduction?.text ?? ""]),
      notes: [...notes].map(([section, texts]) => ({ section, markdown: whole(texts) })),
      after: whole(after),
    },
    findings: [...findings, ...hints],
  };
}

function divide(tokens: readonly Token[], firstLine: number): readonly HeadedPart[] {
  const parts: HeadedPart[] = [{ heading: "", line: firstLine, text: "" }];
  let line = firstLine;
  for (const token of tokens) {
    const { depth, text } = token.type === "heading" ? (token as Tokens.Heading) : { depth: 7, text: "" };
    const last = parts.at(-1);
    if (depth <= 2 || (depth <= 6 && parts.length === 1)) {
      parts.push({
        ...(depth === 2 ? { name: normalText(inlineCue(text).text) } : {}),
        heading: token.raw,
        line,
        text: "",
      });
    } else if (last && token.type !== "def") last.text += token.raw;
    line += linesIn(token);
  }
  return parts;
}

function plain(text: string): string {
  return text.replace(/\s+/g, " ").trim().toLowerCase();
}

function hint(heading: string, section: string | undefined, sections: readonly string[], line: number): TextFinding[] {
  const position = { line, column: 1 };
  if (section !== undefined) {
    const message = `This note goes to the section ${quoted(section)}, which the counts spell that way.`;
    return [{ severity: "note", rule: "heading", message, ...position }];
  }
  const near = nearest(heading, sections);
  if (near === undefined) return [];
  const message = `No section is called ${quoted(heading)}; did you mean \`## ${near}\`? As it is, this text stands after the counts.`;
  return [{ severity: "warning", rule: "heading", message, ...position }];
}

/* A definition of a link stands once in a file, but the parts are read each on its own. */
function withDefinitions(text: string, tokens: readonly Token[]): string {
  if (text === "") return "";
  const labels = plain(text);
  const used = tokens.filter((token) => token.type === "def" && labels.includes(`[${(token as Tokens.Def).tag}]`));
  return [text, ...used.map(({ raw }) => raw.trim())].join("\n\n");
}
