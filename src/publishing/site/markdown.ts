import { decodeHTMLStrict } from "entities";
import { Marked, type RendererObject } from "marked";
import { safeAddress } from "./address.js";
import { escapeText, type Html, raw } from "./html.js";

/** Headings of a body stand under the page's own: `##` becomes the third rank. */
const deepest = 6;

const renderer: RendererObject = {
  html({ text }) {
    return escapeText(text);
  },
  // Between raw tags, marked takes text for finished markup; here no text ever is.
  text(token) {
    if ("tokens" in token && token.tokens) return this.parser.parseInline(token.tokens);
    return escapeText(decodeHTMLStrict(token.text));
  },
  heading({ tokens, depth }) {
    const rank = Math.min(depth + 1, deepest);
    return `<h${rank}>${this.parser.parseInline(tokens)}</h${rank}>\n`;
  },
  link({ href, tokens }) {
    const text = this.parser.parseInline(tokens);
    const address = safeAddress(decodeHTMLStrict(href));
    return address === undefined ? text : `<a href="${escapeText(address)}">${text}</a>`;
  },
  // A page shows no picture from elsewhere: what is left of one is the way to it.
  image({ href, text }) {
    const address = safeAddress(decodeHTMLStrict(href));
    const name = escapeText(text === "" ? href : text);
    return address === undefined ? name : `<a href="${escapeText(address)}">${name}</a>`;
  },
  tablecell({ tokens, header, align }) {
    const tag = header ? "th" : "td";
    const side = align ? ` class="align-${align}"` : "";
    return `<${tag}${side}>${this.parser.parseInline(tokens)}</${tag}>\n`;
  },
  checkbox({ checked }) {
    return checked ? "☑ " : "☐ ";
  },
};

const marked = new Marked({ gfm: true, renderer });

/** An author's Markdown as markup: raw HTML shows as text, links lead to http, https, mailto and relative addresses only. */
export function markdownHtml(markdown: string): Html {
  return raw(markdown.trim() === "" ? "" : (marked.parse(markdown, { async: false }) as string));
}
