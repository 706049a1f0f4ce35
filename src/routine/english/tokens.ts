/**
 * Reads a cue as the words and signs that the mirror cares about, and knows what each becomes on the other side.
 */

import type { WordPairs } from "../cue-language.js";

/** What a token is; `added` is a word of another language that names a side. */
type Kind = "letters" | (typeof kinds)[number];
const kinds = ["word", "stop", "side", "added", "turning", "hour", "time", "fraction"] as const;

/** A word, a sign, or a few words that are exchanged as one. Places are in UTF-16 units, end excluded. */
export interface Token {
  readonly kind: Kind;
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** The text on the other side; the same where it has none. */
  readonly other: string;
  /** What its neighbours see of it (senses lists the keys); the same in a text and in its mirror. */
  readonly key: string;
}

/** Words with their other words, both ways. */
type Opposites = ReadonlyMap<string, string>;

/** The words that name a side beside the English ones, and the expression that finds them and all the rest. */
interface Vocabulary {
  readonly added: Opposites;
  readonly lexer: RegExp;
}

/** The tokens of a text, in order; blanks and quotation marks are none. */
export function tokensOf(text: string, pairs: WordPairs): readonly Token[] {
  const { added, lexer } = vocabularyFor(pairs);
  return Array.from(text.matchAll(lexer), (match) => {
    const [found] = match;
    const from = match.index;
    const kind = kindOf(match, added);
    const to = from + found.length;
    return { kind, from, to, text: found, other: otherOf(kind, found, added), key: keyOf(kind, found, text, to) };
  });
}

// What the lexer finds

/** No letter or digit follows. None goes before either: the lexer takes words whole. */
const END = "(?![\\p{L}\\p{M}\\p{N}])";
const SIDE = "(?:left|right)(?:s|wards?|most|hand(?:s|ed|er)?|side[sd]?|foot(?:ed|er)?|feet|y)?";
const TURNING = "(?:(?:anti|counter)[\\s\\p{Pd}]{0,3}){0,3}clockwise";
const hourNames = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
const HOUR = `(?:1[0-2]|[1-9]|${hourNames.join("|")})`;
/** The 2 of "2 o'clock", the 10 of "10 to 2 o'clock", of "10, 12 and 2 o'clock". */
const BEFORE_OCLOCK = `(?=(?:(?:, ?${HOUR}){0,3},?\\s(?:and|or|to)\\s${HOUR})?[\\s-]o\\s?['’]?\\s?clock${END})`;

const grammar = [
  `(?<turning>${TURNING}${END})`,
  `(?<hour>(?<![\\p{N}.:/\\p{Pd}]|past\\s)${HOUR}${BEFORE_OCLOCK})`,
  `(?<time>\\d+:\\d\\d${END})`,
  `(?<side>${SIDE}${END})`,
  "(?<fraction>\\d+[/⁄]\\d+|[¼½¾⅓⅔⅛⅜⅝⅞])",
  "(?<word>[\\p{L}\\p{M}\\p{N}]+(?:['’][\\p{L}\\p{M}\\p{N}]+)*)",
  "(?<stop>\\n[^\\S\\n]*\\n|[.!?…,;:()[\\]/&+\\p{Pd}])",
];
const english: Vocabulary = { added: new Map(), lexer: new RegExp(grammar.join("|"), "giu") };

/** Made once for each list of pairs: a library has one for tens of thousands of cues. */
const vocabularies = new WeakMap<WordPairs, Vocabulary>();

function vocabularyFor(pairs: WordPairs): Vocabulary {
  if (pairs.length === 0) return english;
  const known = vocabularies.get(pairs);
  if (known !== undefined) return known;
  const vocabulary = vocabularyWith(addedWords(pairs));
  vocabularies.set(pairs, vocabulary);
  return vocabulary;
}

function vocabularyWith(added: Opposites): Vocabulary {
  if (added.size === 0) return english;
  const longestFirst = [...added.keys()].sort((a, b) => b.length - a.length);
  const terms = longestFirst.map((term) => term.replace(/[\\^$.*+?()[\]{}|/]/g, "\\$&"));
  return { added, lexer: new RegExp([`(?<added>(?:${terms.join("|")})${END})`, ...grammar].join("|"), "giu") };
}

/** L, R and rows of them (RLR), short for the whole word (lt), with a part of the body (RF, Lh), of the stage (DSR) or of the house (HL). */
const LETTERS = /^(?:[LR]+|[lr]t|[LR][FHKSATfht]|[DUC]?S[LR]|H[LR])$/;
const letters: Opposites = new Map([
  ["L", "R"],
  ["R", "L"],
  ["l", "r"],
  ["r", "l"],
]);
const turningLetters: Opposites = new Map([
  ["CW", "CCW"],
  ["CCW", "CW"],
  ["ACW", "CW"],
]);

/** The lexer passes over case; where case tells (letters, words of another language) this looks again. */
function kindOf(match: RegExpExecArray, added: Opposites): Kind {
  const [word] = match;
  const kind = kinds.find((name) => match.groups?.[name] !== undefined) ?? "word";
  if (kind === "added" && !added.has(word)) return "word";
  if (kind === "word" && LETTERS.test(word)) return "letters";
  if (kind === "word" && turningLetters.has(word)) return "turning";
  return kind;
}

// What becomes of it

const withCapital = (word: string) => word.slice(0, 1).toUpperCase() + word.slice(1).toLowerCase();
const casings = [(word: string) => word.toLowerCase(), withCapital, (word: string) => word.toUpperCase()];
const allCasings = (pairs: WordPairs): WordPairs =>
  pairs.flatMap(([one, two]) => casings.map((casing) => [casing(one), casing(two)] as const));

const sides: Opposites = new Map(
  allCasings([
    ["left", "right"],
    ["right", "left"],
  ]),
);
const turnings: Opposites = new Map(allCasings([["clockwise", "anticlockwise"]]));
const acrossTheClock = (index: number) => (22 - index) % 12;
const hours: Opposites = new Map([
  ...allCasings(hourNames.map((name, index) => [name, hourNames[acrossTheClock(index)] ?? name])),
  ...hourNames.map((_, index) => [String(index + 1), String(acrossTheClock(index) + 1)] as const),
]);

function otherOf(kind: Kind, word: string, added: Opposites): string {
  if (kind === "added") return added.get(word) ?? word;
  if (kind === "side") return word.replace(/^(?:left|right)/i, (found) => sides.get(found) ?? found);
  if (kind === "letters") return word.replace(/[LR]|^[lr]/g, (letter) => letters.get(letter) ?? letter);
  if (kind === "turning") return turningLetters.get(word) ?? turnings.get(word) ?? clockwise(word);
  if (kind === "hour") return hours.get(word) ?? word;
  if (kind === "time") return bearing(word);
  return word;
}

/** A bearing across the clock: 1:30 and 10:30. What no hand of a clock shows stays, and so do 12:00 and 6:00. */
function bearing(word: string): string {
  const [, hour = "", minute = ""] = /^([1-9]|1[0-2]):(00|30)$/.exec(word) ?? [];
  if (hour === "") return word;
  const across = (24 * 60 - Number(hour) * 60 - Number(minute)) % (12 * 60);
  return `${Math.floor(across / 60) || 12}:${minute}`;
}

/** Clockwise for any spelling of anticlockwise. A word with several prefixes, or with odd capitals, stays. */
function clockwise(word: string): string {
  if (!/^(?:anti|counter)[\s\p{Pd}]*clockwise$/iu.test(word)) return word;
  if (word === word.toUpperCase()) return "CLOCKWISE";
  return /^\p{Lu}/u.test(word) ? "Clockwise" : "clockwise";
}

/** Begins and ends with a letter or a digit, so that it can be found as a whole. */
const BORDERED = /^[\p{L}\p{N}](?:.*[\p{L}\p{M}\p{N}])?$/u;

/** Both ways, in all casings. No word gets two others, and none is English for a side: that would not come back. */
function addedWords(pairs: WordPairs): Opposites {
  const added = new Map<string, string>();
  const isFree = (word: string) =>
    BORDERED.test(word) && !added.has(word) && tokensOf(word, []).every(({ text, other }) => text === other);
  for (const pair of pairs) {
    const trimmed = [pair[0].trim(), pair[1].trim()] as const;
    const inCapitals = trimmed.every((word) => word === word.toUpperCase());
    for (const [one, two] of inCapitals ? [trimmed] : allCasings([trimmed])) {
      if (one !== two && isFree(one) && isFree(two)) added.set(one, two).set(two, one);
    }
  }
  return added;
}

// What its neighbours see

const NUMBER = new RegExp(`^(?:${hourNames.join("|")}|(?:thir|four|fif|six|seven|eigh|nine)teen|twenty|thirty)$`);

function keyOf(kind: Kind, word: string, text: string, to: number): string {
  const lower = word.toLowerCase().replaceAll("’", "'");
  if (kind === "side") return lower.replace(/^(?:left|right)/, "SIDE");
  if (kind === "letters") return /^[LR]A$/.test(word) ? "SIDEarm" : "SIDE";
  if (kind === "added") return "SIDE";
  if (kind === "stop") return stopKey(word, text, to);
  if (kind !== "word") return kind;
  if (/^\p{N}+$/u.test(word)) return "#";
  return NUMBER.test(lower) ? "num" : lower;
}

function stopKey(stop: string, text: string, to: number): string {
  const isOpen = (place: number) => !/\S/.test(text.charAt(place));
  if (stop === "." && /\p{L}/u.test(text.charAt(to))) return "dot";
  if (/[.!]/.test(stop) || stop.startsWith("\n")) return ".";
  if (/[:?/&+]/.test(stop)) return stop;
  const joins = /[-‐‑]/.test(stop) && !isOpen(to) && !isOpen(to - stop.length - 1);
  return joins ? "-" : ",";
}
