import { decodeHTMLStrict } from "entities";
import { Lexer, type Token, type Tokens } from "marked";
import type { Cue, Mark } from "../routine/cue.js";
import { isSafeLink } from "../routine/link.js";

const kinds: Readonly<Record<string, Mark["kind"]>> = {
  strong: "strong",
  em: "emphasis",
  del: "struck",
  codespan: "fixed",
  link: "link",
};

/**
 * Takes a line of inline Markdown apart. HTML is text like any other; a picture is its description; a link to anything but
 * the web, mail or a page of this site is text (`unsafe` hears of it).
 *
 * @example inlineCue("**Drop** `left`") // { text: "Drop left", marks: [{ kind: "strong", from: 0, to: 4 }, { kind: "fixed", … }] }
 */
export function inlineCue(markdown: string, unsafe: (href: string) => void = () => {}): Cue {
  const marks: Mark[] = [];
  let text = "";
  const read = (tokens: readonly Token[]) => {
    for (const token of tokens) {
      const kind = kinds[token.type];
      const from = text.length;
      const slot = marks.length;
      const inner = "tokens" in token && token.type !== "image" ? token.tokens : undefined;
      if (inner) read(inner);
      else text += plainText(token);
      if (!kind || text.length === from) continue;
      const href = kind === "link" ? decodeHTMLStrict((token as Tokens.Link).href) : undefined;
      if (href === undefined) marks.splice(slot, 0, { kind, from, to: text.length });
      else if (isSafeLink(href)) marks.splice(slot, 0, { kind, from, to: text.length, href });
      else unsafe(href);
    }
  };
  read(Lexer.lexInline(markdown.replace(/\s+/g, " ").trim(), { gfm: true }));
  return { text, marks };
}

function plainText(token: Token): string {
  if (token.type === "br") return " ";
  if (token.type === "text" || token.type === "image") return decodeHTMLStrict((token as Tokens.Text).text);
  if (token.type === "html") return token.raw;
  return "text" in token ? String(token.text) : token.raw;
}

/** True of a cue that says nothing but "hold". */
export function isHold(cue: Cue): boolean {
  return cue.text.trim().toLowerCase() === "hold";
}
