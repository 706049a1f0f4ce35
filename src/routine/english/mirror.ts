import type { Range } from "../cue.js";
import type { Exchange, LeftAlone, MirroredText, WordPairs } from "../cue-language.js";
import {
  type Neighbours,
  reasonOf,
  type Sense,
  senseOfBearing,
  senseOfLetters,
  senseOfPlural,
  senseOfWord,
} from "./senses.js";
import { type Token, tokensOf } from "./tokens.js";

/**
 * Exchanges left and right and what follows from them: letters that name a side, clockwise and anticlockwise, clock
 * directions. A right or a left in another sense stays. Mirroring twice gives the original, one spelling of
 * anticlockwise aside.
 *
 * @param text plain text
 * @param options.keep stretches in which nothing is exchanged and nothing reported
 * @param options.pairs words of another language, exchanged both ways as whole words, their case kept; a pair in
 *   capitals is found in capitals only. A word that is English for a side, or taken by an earlier pair, is passed over.
 * @example mirrorWords("Left foot to 2 o'clock, right on the beat").text // "Right foot to 10 o'clock, right on the beat"
 */
export function mirrorWords(
  text: string,
  options: { readonly keep?: readonly Range[]; readonly pairs?: WordPairs } = {},
): MirroredText {
  const { keep = [], pairs = [] } = options;
  const tokens = tokensOf(text, pairs);
  const exchanges: Exchange[] = [];
  const leftAlone: LeftAlone[] = [];
  for (const [index, token] of tokens.entries()) {
    const { from, to, text: word, other } = token;
    if (keep.some((range) => range.from < to && from < range.to)) continue;
    const sense = senseOf(token, () => neighbours(tokens, index));
    const reason =
      reasonAgainst(token) ?? (token.kind === "time" && other === word ? undefined : reasonOf(sense, word));
    if (other !== word && sense.is !== "other") exchanges.push({ from, to, text: other });
    if (reason !== undefined) leftAlone.push({ from, to, word, reason });
  }
  return { text: withExchanges(text, exchanges), exchanges, leftAlone };
}

function senseOf(token: Token, around: () => Neighbours): Sense {
  if (token.kind === "letters") return senseOfLetters(around());
  if (token.kind === "time") return senseOfBearing(around());
  if (token.key === "SIDEs") return senseOfPlural(around());
  return token.kind === "side" && token.key === "SIDE" ? senseOfWord(around()) : { is: "side" };
}

/** Seven keys on each side; a text begins and ends with an end. */
function neighbours(tokens: readonly Token[], index: number): Neighbours {
  const keys = (from: number, to: number) =>
    tokens
      .slice(Math.max(0, from), to)
      .map(({ key }) => ` ${key}`)
      .join("");
  return {
    before: (index < 7 ? " ." : "") + keys(index - 7, index),
    after: keys(index + 1, index + 8) + (index + 8 > tokens.length ? " ." : ""),
  };
}

/** Why a word is not even tried. */
function reasonAgainst({ kind, text, other }: Token): string | undefined {
  if (kind === "side" && text === other)
    return "stays: its capitals are unusual; write it in small letters or in capitals";
  return undefined;
}

function withExchanges(text: string, exchanges: readonly Exchange[]): string {
  let done = "";
  let at = 0;
  for (const { from, to, text: other } of exchanges) {
    done += text.slice(at, from) + other;
    at = to;
  }
  return done + text.slice(at);
}
