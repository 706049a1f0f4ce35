import { type Block, itemBlock, textBlock } from "../../typesetting/block.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";

/** How the notes under the counts are set, and in what words. */
export interface NoteStyle {
  readonly size: number;
  readonly width: number;
  /** What a relative link is relative to. */
  readonly base?: string;
  /** Where there is little room: a name stands at the head of its note rather than over it, and less room is left between. */
  readonly tight?: boolean;
  /** Whether what is said beside a move stands once, though its section is danced again. */
  readonly once?: boolean;
  readonly wording: Wording;
}

export const plain = (text: string): Span => ({ text });
export const bold = (text: string): Span => ({ text, style: "bold" });
export const italic = (text: string): Span => ({ text, style: "italic" });

export function headingBlock(
  text: string | Span,
  { size, width, tight = false }: Pick<NoteStyle, "size" | "width" | "tight">,
  level: 2 | 3 = 2,
): Block {
  const set = level === 2 ? size * 1.3 : size;
  return textBlock([typeof text === "string" ? bold(text) : { ...text, style: "bold" }], {
    size: set,
    width,
    tight,
    tag: `H${level}`,
    before: size * (level === 2 ? (tight ? 0.8 : 1.6) : 0.9),
    keepNext: true,
  });
}

/** A heading and what stands under it; nothing where that is nothing. */
export function under(title: string, blocks: readonly Block[], style: NoteStyle): readonly Block[] {
  return blocks.length === 0 ? [] : [headingBlock(title, style), ...blocks];
}

export const bullet = (spans: readonly Span[], style: NoteStyle): Block => itemBlock(plain("•"), spans, style);
