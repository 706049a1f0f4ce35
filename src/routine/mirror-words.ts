import type { Range } from "./cue.js";

/** One replaced stretch of the original text. */
export interface Exchange extends Range {
  readonly text: string;
}
/** A left or right that stayed, with a plain reason. */
export interface LeftAlone extends Range {
  readonly word: string;
  readonly reason: string;
}
export interface MirroredText {
  readonly text: string;
  readonly exchanges: readonly Exchange[];
  readonly leftAlone: readonly LeftAlone[];
}

export function mirrorWords(
  text: string,
  _options: { readonly keep?: readonly Range[]; readonly pairs?: readonly (readonly [string, string])[] } = {},
): MirroredText {
  const exchanges: Exchange[] = [];
  for (const match of text.matchAll(/\b(left|right)\b/gi)) {
    const from = match.index;
    exchanges.push({ from, to: from + match[0].length, text: match[0].toLowerCase() === "left" ? "right" : "left" });
  }
  let out = "";
  let at = 0;
  for (const { from, to, text: put } of exchanges) {
    out += text.slice(at, from) + put;
    at = to;
  }
  return { text: out + text.slice(at), exchanges, leftAlone: [] };
}
