import { decodeHTMLStrict } from "entities";
import { Lexer, type Token } from "marked";

/* Characters of an introduction that whoever opens a description box still reads. */
const enough = 300;

/**
 * The first sentences of an author's Markdown as plain text: of its first paragraph as many whole ones as are read in a moment, and
 * at least one.
 *
 * @param language BCP 47 tag of the text
 * @example firstSentences("You *lean*. Then you fall.", "en") // "You lean. Then you fall."
 */
export function firstSentences(markdown: string, language: string): string {
  const paragraph = Lexer.lex(markdown).find(({ type }) => type === "paragraph");
  const text = paragraph === undefined ? "" : textOf(paragraph).replace(/\s+/g, " ").trim();
  const sentences = [...new Intl.Segmenter(language, { granularity: "sentence" }).segment(text)];
  const [first, ...others] = sentences.map(({ segment }) => segment);
  let taken = first ?? "";
  for (const sentence of others) {
    if ([...taken, ...sentence].length > enough) break;
    taken += sentence;
  }
  return taken.trim();
}

function textOf(token: Token): string {
  if (token.type === "br") return " ";
  if ("tokens" in token && token.tokens && token.type !== "image") return token.tokens.map(textOf).join("");
  return token.type === "html" || !("text" in token) ? token.raw : decodeHTMLStrict(String(token.text));
}
