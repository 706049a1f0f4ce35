import { decodeHTMLStrict } from "entities";
import { lexer, type MarkedToken, type Token, type Tokens } from "marked";
import { type Block, itemBlock, textBlock } from "../../typesetting/block.js";
import type { Tag } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { addressAfter, linkTo } from "./link.js";
import { theirs } from "./theirs.js";

export interface ProseOptions {
  readonly size: number;
  readonly width: number;
  /** Level that the text's own top heading has on this sheet. */
  readonly level: number;
  /** What a relative link is relative to; absent: such a link is set as plain text. */
  readonly base?: string;
  /** Where there is little room. */
  readonly tight?: boolean;
  /** Stands at the head of the first paragraph, or over what is none. */
  readonly lead?: Span;
  readonly wording: Wording;
}

/** A Markdown text as blocks. Raw HTML is text like any other. */
export function proseBlocks(markdown: string, options: ProseOptions): readonly Block[] {
  const tokens = lexer(markdown);
  const depths = tokens.flatMap((token) => (token.type === "heading" ? [(token as Tokens.Heading).depth] : []));
  const top = Math.min(...depths, 6);
  const { lead, ...style } = options;
  const inner = { ...style, level: options.level - top, indent: 0 };
  if (lead === undefined) return blocksOf(tokens, inner);
  const [first, ...rest] = (tokens as readonly MarkedToken[]).filter(({ type }) => type !== "space");
  if (first?.type !== "paragraph")
    return [
      textBlock([lead], { ...textStyle(inner), before: paragraphGap(options), keepNext: true }),
      ...blocksOf(tokens, inner),
    ];
  return [leadBlock([lead], first as Tokens.Paragraph, inner), ...blocksOf(rest, inner)];
}

const textStyle = ({ size, width, indent, tight = false }: Inner) => ({ size, width, indent, tight });

const paragraphGap = ({ size, tight = false }: Pick<ProseOptions, "size" | "tight">): number =>
  size * (tight ? 0.25 : 0.5);

/** Options for tokens within tokens; `level` is what to add to a heading's depth. */
interface Inner extends ProseOptions {
  readonly indent: number;
}

function blocksOf(tokens: readonly Token[], options: Inner): readonly Block[] {
  const all = (tokens as readonly MarkedToken[]).filter(({ type }) => type !== "space");
  return all.flatMap((token, index) => {
    const [before, after] = [all[index - 1], all[index + 1]];
    if (options.tight !== true) return blocksOfToken(token, options);
    // A heading stands at the head of its paragraph.
    if (token.type === "heading" && after?.type === "paragraph") return [];
    if (token.type === "paragraph" && before?.type === "heading")
      return [leadBlock(headingLead(before, options), token, options)];
    return blocksOfToken(token, options);
  });
}

function leadBlock(lead: readonly Span[], token: Tokens.Paragraph, options: Inner): Block {
  const spans = [...lead, { text: " " }, ...spansOf(token.tokens, options)];
  return textBlock(spans, { ...textStyle(options), before: paragraphGap(options) });
}

function headingLead({ tokens }: Tokens.Heading, options: Inner): readonly Span[] {
  const spans = spansOf(tokens, options).map((span): Span => ({ ...span, style: "bold" }));
  const last = spans.at(-1);
  return last === undefined ? [] : [...spans.slice(0, -1), { ...last, text: options.wording.print.leading(last.text) }];
}

function blocksOfToken(token: MarkedToken, options: Inner): readonly Block[] {
  const { size, indent } = options;
  const style = textStyle(options);
  const before = paragraphGap(options);
  const paragraph = (spans: readonly Span[], tag: Tag = "P") => [textBlock(spans, { ...style, before, tag })];
  switch (token.type) {
    case "heading":
      return [markdownHeading(token, options)];
    case "list":
      return token.items.flatMap((item, index) => itemBlocks(item, listLabel(token, index), options));
    case "blockquote":
      return blocksOf(token.tokens, { ...options, indent: indent + size });
    case "code":
      return token.text.split("\n").flatMap((text) => paragraph([theirs(text, options.wording)], "Code"));
    case "table":
      return [token.header, ...token.rows].flatMap((row, index) => paragraph(rowSpans(row, index === 0, options)));
    case "hr":
    case "space":
    case "def":
      return [];
    default:
      return paragraph(
        "tokens" in token && token.tokens ? spansOf(token.tokens, options) : [theirs(token.raw, options.wording)],
      );
  }
}

function markdownHeading(token: Tokens.Heading, options: Inner): Block {
  const level = Math.min(Math.max(token.depth + options.level, 2), 4);
  const bold = spansOf(token.tokens, options).map((span): Span => ({ ...span, style: "bold" }));
  const { size } = options;
  return textBlock(bold, {
    ...textStyle(options),
    tag: `H${level}` as Tag,
    before: size * (options.tight === true ? 0.6 : 0.9),
    keepNext: true,
  });
}

function itemBlocks(item: Tokens.ListItem, label: string, options: Inner): readonly Block[] {
  const { size, indent } = options;
  const [first, ...rest] = item.tokens as readonly MarkedToken[];
  const inline = first !== undefined && (first.type === "text" || first.type === "paragraph");
  const spans = inline ? spansOf(first.tokens ?? [], options) : [];
  const block = itemBlock({ text: label }, spans.length > 0 ? spans : [{ text: "–" }], textStyle(options));
  return [block, ...blocksOf(inline ? rest : item.tokens, { ...options, indent: indent + size * 1.2 })];
}

function listLabel(list: Tokens.List, index: number): string {
  return list.ordered ? `${(list.start || 1) + index}.` : "•";
}

/** A row of a table as a line of text: narrow columns have no room for more. */
function rowSpans(row: readonly Tokens.TableCell[], head: boolean, options: ProseOptions): readonly Span[] {
  return row.flatMap((cell, index): readonly Span[] => {
    const spans = spansOf(cell.tokens, options);
    const set = head ? spans.map((span): Span => ({ ...span, style: "bold" })) : spans;
    return index === 0 ? set : [{ text: " · " }, ...set];
  });
}

/** Inline tokens as spans. */
function spansOf(
  tokens: readonly Token[],
  options: ProseOptions,
  set: Omit<Span, "text"> = theirs("", options.wording),
): readonly Span[] {
  return (tokens as readonly MarkedToken[]).flatMap((token): readonly Span[] => {
    switch (token.type) {
      case "strong":
        return spansOf(token.tokens, options, { ...set, style: "bold" });
      case "em":
        return spansOf(token.tokens, options, { ...set, style: set.style === "bold" ? "bold" : "italic" });
      case "del":
        return spansOf(token.tokens, options, { ...set, struck: true });
      case "link": {
        const target = linkTo(decodeHTMLStrict(token.href), options.base);
        const spans = spansOf(token.tokens, options, { ...set, ...target });
        return [...spans, ...addressAfter(spans.map(({ text }) => text).join(""), target)];
      }
      case "br":
        return [{ ...set, text: " " }];
      case "html":
        return [{ ...set, text: token.raw }];
      case "text":
        return token.tokens ? spansOf(token.tokens, options, set) : [{ ...set, text: decodeHTMLStrict(token.text) }];
      case "image":
        return [{ ...set, text: decodeHTMLStrict(token.text) }];
      case "checkbox":
        return [{ text: options.wording.print.task(token.checked) }];
      default:
        return [{ ...set, text: "text" in token ? String(token.text) : token.raw }];
    }
  });
}
