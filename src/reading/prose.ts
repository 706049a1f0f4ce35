import { decodeHTMLStrict } from "entities";
import { Lexer, type Token, type Tokens, walkTokens } from "marked";
import { isSafeLink } from "../routine/link.js";
import type { TextFinding } from "./finding.js";
import { quoted } from "./nearest.js";
import { unprintable } from "./tree-key.js";

/** Prose taken apart, and what is wrong with it. */
export interface ProseRead {
  /** Empty where it can't be read. */
  readonly tokens: readonly Token[];
  readonly findings: readonly TextFinding[];
}

/* A booklet's worth of prose, and pages of it without a break: what is beyond would take too long to read. */
const mostCharacters = 200_000;
const longestParagraph = 10_000;

/* Twenty quotations or lists in each other, or lines that start beyond any paper's edge. */
const tooDeep = /^(?:[ \t]*(?:[>*+-]|\d{1,9}[.)])){20}.*[^\s>*+-]|^[ \t]{120}/m;

/**
 * Takes Markdown apart; links that are to be left out are warned of.
 *
 * @param firstLine the line of the file on which it begins
 */
export function readProse(markdown: string, firstLine: number): ProseRead {
  const excess = tooMuchIn(markdown);
  const odd = unprintableIn(markdown, firstLine);
  if (!excess) {
    const tokens = Lexer.lex(markdown);
    return { tokens, findings: [...odd, ...linkFindings(tokens, firstLine)] };
  }
  const line = firstLine + markdown.slice(0, excess.offset).split("\n").length - 1;
  const finding = { severity: "error", rule: "too-much", message: excess.message, line, column: 1 } as const;
  return { tokens: [], findings: [...odd, finding] };
}

/* The first of each line: what is pasted there mostly has more of them. */
function unprintableIn(markdown: string, firstLine: number): TextFinding[] {
  if (!unprintable.test(markdown)) return [];
  const message = "A character that cannot be printed stands here: delete it and type what belongs there.";
  return markdown.split("\n").flatMap((text, index): TextFinding[] => {
    const at = text.search(unprintable);
    if (at < 0) return [];
    return [{ severity: "error", rule: "unprintable", message, line: firstLine + index, column: at + 1 }];
  });
}

function tooMuchIn(markdown: string): { readonly message: string; readonly offset: number } | undefined {
  if (markdown.length > mostCharacters) {
    return { message: `The prose is longer than ${mostCharacters} characters: shorten it.`, offset: mostCharacters };
  }
  let offset = 0;
  for (const paragraph of markdown.split("\n\n")) {
    if (paragraph.length > longestParagraph) {
      return {
        message: `This paragraph is longer than ${longestParagraph} characters: divide it with empty lines.`,
        offset,
      };
    }
    offset += paragraph.length + 2;
  }
  const deep = tooDeep.exec(markdown);
  return deep ? { message: "Lists or quotations stand in each other too deep here.", offset: deep.index } : undefined;
}

function linkFindings(tokens: Token[], firstLine: number): TextFinding[] {
  const findings: TextFinding[] = [];
  let line = firstLine;
  for (const token of tokens) {
    walkTokens([token], (inner) => {
      if (inner.type !== "link" && inner.type !== "image" && inner.type !== "def") return;
      const href = decodeHTMLStrict((inner as Tokens.Link).href);
      if (isSafeLink(href)) return;
      const before = token.raw.slice(0, Math.max(0, token.raw.indexOf(inner.raw))).split("\n");
      const at = { line: line + before.length - 1, column: (before.at(-1) ?? "").length + 1 };
      findings.push({ severity: "warning", rule: "link", message: unsafeLink(href), ...at });
    });
    line += linesIn(token);
  }
  return findings;
}

/** How many lines further down the next token begins. */
export function linesIn(token: Token): number {
  return token.raw.split("\n").length - 1;
}

/** What is said of a link that is left out. */
export function unsafeLink(href: string): string {
  return `The link to ${quoted(href)} is left out: links may begin with https://, http:// or mailto:, or name a page of your site.`;
}
