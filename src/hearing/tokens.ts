import type { Word } from "./types.js";

/** What a word may count, and how unlikely that is beside a number that is written as one. */
export interface Count {
  readonly value: number;
  readonly price: number;
}

/** A word as it is listened to. */
export interface Token {
  /** In lower case, without marks. */
  readonly text: string;
  /** As the captions have it. */
  readonly written: string;
  readonly start: number;
  readonly end: number;
  /** A sentence or a line begins with it. */
  readonly begins: boolean;
  /** A comma or a full stop stands behind it. */
  readonly closes: boolean;
  readonly count?: Count;
  /** The number is part of a sentence: "on five", "two of you". */
  readonly told?: boolean;
  /** "and" between two counts. */
  readonly half?: boolean;
}

const names = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/** Other words that captions write for a count. */
const sounds: Readonly<Record<string, number>> = {
  won: 1,
  to: 2,
  too: 2,
  tree: 3,
  free: 3,
  for: 4,
  fore: 4,
  sex: 6,
  sicks: 6,
  ate: 8,
  ait: 8,
  tin: 10,
};

/** @example countOf("for") // { value: 4, price: 0.6 } */
export function countOf(word: string): Count | undefined {
  if (/^\d{1,2}$/.test(word))
    return Number(word) >= 1 && Number(word) <= 12 ? { value: Number(word), price: 0 } : undefined;
  const named = names.indexOf(word);
  if (named >= 0) return { value: named + 1, price: 0 };
  const value = Object.hasOwn(sounds, word) ? sounds[word] : undefined;
  return value === undefined ? undefined : { value, price: 0.6 };
}

/** Captions as tokens: counts that stand in one word ("5678", "1-2-3") are taken apart and share its time. */
export function tokensOf(words: readonly Word[]): readonly Token[] {
  const tokens: Token[] = [];
  for (const [at, word] of words.entries()) {
    const parts = partsOf(word.text, tokens.at(-1)?.count?.value);
    // Counts in one word last until the next is said.
    const end = parts.length > 1 ? Math.min(words[at + 1]?.start ?? word.end, word.start + parts.length) : word.end;
    const step = Math.max(end - word.start, 0) / parts.length;
    for (const [index, text] of parts.entries()) {
      const count = countOf(text);
      tokens.push({
        text,
        written: parts.length === 1 ? word.text : text,
        start: word.start + index * step,
        end: word.start + (index + 1) * step,
        begins: index === 0 && word.begins,
        closes: index === parts.length - 1 && /[,.;:!?–—…]["”']?$/.test(word.text),
        ...(count && { count }),
        ...(/^(?:and|&|n|an)$/.test(text) && { half: true }),
      });
    }
  }
  return tokens.map((token, index) =>
    token.count?.price === 0 && isTold(tokens[index - 1], tokens[index + 1]) ? { ...token, told: true } : token,
  );
}

const leads = new Set(
  "on the from until till it's is was be that's your my about say says said maybe or at these those like count than only least another last".split(
    " ",
  ),
);
const follows = new Set(
  "of times more people minutes minute years hours hour weeks week days seconds steps counts eights phrases walls brothers things students sections parts dancers percent o'clock am pm".split(
    " ",
  ),
);

function isTold(before: Token | undefined, after: Token | undefined): boolean {
  return (
    (before !== undefined && !before.closes && leads.has(before.text)) ||
    (after !== undefined && follows.has(after.text))
  );
}

function partsOf(written: string, before: number | undefined): readonly string[] {
  const word = written
    .toLowerCase()
    .replace(/’/g, "'")
    .replace(/^[^\p{L}\p{N}&]+|[^\p{L}\p{N}&]+$/gu, "");
  if (/^\d{2,15}$/.test(word)) return digitsOf(word, before) ?? [word];
  const parts = word.split(/[-–—,./]+/).filter((part) => part !== "");
  if (parts.length > 1 && parts.every((part) => countOf(part)?.price === 0 || /^(?:and|&)$/.test(part))) return parts;
  if (parts.length > 1 && parts.every((part) => /^\d{1,15}$/.test(part)))
    return parts.flatMap((part) => digitsOf(part, undefined) ?? [part]);
  if (/^(?:\d&)+\d?$/.test(word)) return [...word];
  return [word === "" ? "-" : word];
}

/** "5678" is four counts, each one more than the one before; "12" after eleven is twelve. */
function digitsOf(word: string, before: number | undefined): readonly string[] | undefined {
  if (word === "10" || ((word === "11" || word === "12") && before === Number(word) - 1)) return [word];
  const digits = [...word];
  return digits.every((digit, index) => index === 0 || Number(digit) === Number(digits[index - 1]) + 1)
    ? digits
    : undefined;
}

/** "four three two one" before a run counts in as "five six seven eight" does. */
export function countedDown(tokens: readonly Token[], phrase: number): readonly Token[] {
  const changed = [...tokens];
  for (let index = 0; index < tokens.length; index++) {
    let end = index;
    while (goesDown(tokens[end], tokens[end + 1])) end++;
    if (end < index + 2 || tokens[end]?.count?.value !== 1) continue;
    for (let at = index; at <= end; at++) {
      const token = tokens[at];
      if (token?.count) changed[at] = { ...token, count: { value: phrase + 1 - token.count.value, price: 0 } };
    }
    index = end;
  }
  return changed;
}

function goesDown(token: Token | undefined, next: Token | undefined): boolean {
  if (!token?.count || !next?.count || token.count.value > 5) return false;
  return next.count.value === token.count.value - 1 && next.start - token.start < 2.5;
}
