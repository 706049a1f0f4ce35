import type { Sentence } from "./talk.js";
import { saidOf, textOf } from "./talk.js";
import type { Token } from "./tokens.js";
import type { Said } from "./types.js";
import { stem } from "./words.js";

/** A sentence that puts a cue on a count: "the clap is on five". */
export interface Tie {
  /** Stems of the cue words that it may be of, the likeliest first. */
  readonly stems: readonly string[];
  /** The counts, from the first on; the last is the same where it is one. */
  readonly from: number;
  readonly to: number;
  readonly said: Said;
  /** She is not sure of it, or takes it back: "I think", "sorry", "did I say". */
  readonly doubted: boolean;
  /** It takes back what was said before: "no, sorry, on six". */
  readonly corrects: boolean;
}

const doubts =
  / (?:i think|maybe|not sure|could be|might be|did i|was that|was it|was the|hang on|my bad|hm|oops|or|actually|wait|sorry) /;
const takesBack = / (?:no|sorry|actually|i want it|let's keep it|keep it|it's) /;

/** Words between a number and what is on it. */
const before = new Set(
  "on is it's that's at from by count the or and number it comes goes lands starts in again to be happens you your are was".split(
    " ",
  ),
);

/** Counts that a sentence speaks of: "five", "five six", "one two three". */
interface Numbers {
  readonly first: number;
  readonly last: number;
  readonly values: readonly number[];
}

/** What sentences put on which count, in the order said. A correction without a cue is of the cue that was spoken of last. */
export function tiesOf(sentences: readonly Sentence[], isCue: (stem: string) => boolean): readonly Tie[] {
  const ties: Tie[] = [];
  for (const sentence of sentences) {
    const text = textOf(sentence);
    if (/ the and | on and /.test(text)) continue;
    const own = tiesIn(sentence, isCue);
    for (const { cues, numbers, from, to } of own) {
      const clause = clauseOf(sentence, from, to);
      // What is another way to do it says nothing of the cue's own count.
      if (/ (?:instead|easier|harder) /.test(clause)) continue;
      const doubted = doubts.test(clause) || / i \S+ed (?:it )?on # /.test(clause);
      ties.push({
        stems: cues,
        from: numbers.values[0] ?? 0,
        to: numbers.values.at(-1) ?? 0,
        said: saidOf(sentence),
        doubted,
        corrects: / (?:no|sorry|actually|my bad) /.test(clause),
      });
    }
    const doubted = doubts.test(clauseOf(sentence, 0, sentence.tokens.length));
    const last = ties.at(-1);
    const loose = own.length === 0 ? numbersIn(sentence, isCue).at(-1) : undefined;
    if (last && loose && (doubted || takesBack.test(text)) && sentence.start - last.said.at < 40)
      ties.push({
        ...last,
        from: loose.values[0] ?? 0,
        to: loose.values[0] ?? 0,
        said: saidOf(sentence),
        doubted,
        corrects: / (?:no|sorry|actually) /.test(text),
      });
  }
  return ties;
}

interface Found {
  readonly cues: readonly string[];
  readonly numbers: Numbers;
  /** The part of the sentence that is about it. */
  readonly from: number;
  readonly to: number;
}

/** Words of a part of a sentence, counts as "#". */
function clauseOf({ tokens }: Sentence, from: number, to: number): string {
  const words = tokens.slice(from, to).map(({ text, count }) => (count?.price === 0 ? "#" : text));
  return ` ${words.join(" ")} `;
}

function tiesIn(sentence: Sentence, isCue: (stem: string) => boolean): readonly Found[] {
  const { tokens } = sentence;
  const groups = numbersIn(sentence, isCue);
  const used = new Set<number>();
  const found: Found[] = [];
  const name = (at: number) => stem(tokens[at]?.text ?? "");
  for (const [index, numbers] of groups.entries()) {
    const from = (groups[index - 1]?.last ?? -1) + 1;
    const to = groups[index + 1]?.first ?? tokens.length;
    const cues = cuesBetween(tokens, from, numbers.first, isCue).filter((at) => !used.has(at));
    const length = numbers.values.length;
    // "run run run is one two three": one each.
    if (length > 1 && cues.length === length) {
      for (const [place, at] of cues.slice(-length).entries())
        found.push({ cues: [name(at)], numbers: { ...numbers, values: [numbers.values[place] ?? 0] }, from, to });
      continue;
    }
    const near = cues.filter((at) => numbers.first - at <= 7 && !commaBetween(tokens, at, numbers.first)).reverse();
    const next = cuesBetween(tokens, numbers.last + 1, to, isCue)[0];
    const led = /^(?:on|from|by)$/.test(tokens[numbers.first - 1]?.text ?? "");
    const ahead = led && next !== undefined && next - numbers.last <= 7 && !(to < tokens.length && to - next <= 4);
    const own = near.length > 0 ? near : ahead ? [next] : [];
    if (own.length === 0) {
      // "I dipped on six, it's seven."
      const before = found.at(-1);
      const leads = `${tokens[numbers.first - 2]?.text} ${tokens[numbers.first - 1]?.text}`;
      if (before && /(?:it's|is)$|^again on$/.test(leads)) found.push({ ...before, numbers, from, to });
      continue;
    }
    for (const at of own) used.add(at);
    // What is said behind the number is of it up to the next cue.
    const end = cuesBetween(tokens, Math.max(...own, numbers.last) + 1, to, isCue)[0] ?? to;
    found.push({ cues: own.map(name), numbers, from, to: end });
  }
  return found;
}

function cuesBetween(tokens: readonly Token[], from: number, to: number, isCue: (stem: string) => boolean): number[] {
  const found: number[] = [];
  for (let at = from; at < to; at++) if (isCue(stem(tokens[at]?.text ?? ""))) found.push(at);
  return found;
}

const commaBetween = (tokens: readonly Token[], from: number, to: number) =>
  tokens.slice(from, to - 1).some(({ closes }) => closes);

/** Numbers of a sentence that are counts: led by "on" or its kind, or right beside a cue. */
function numbersIn({ tokens }: Sentence, isCue: (stem: string) => boolean): readonly Numbers[] {
  const groups: { first: number; last: number; values: number[] }[] = [];
  for (const [index, token] of tokens.entries()) {
    if (token.count?.price !== 0) continue;
    const { value } = token.count;
    const open = groups.at(-1);
    const gap = tokens[index - 1]?.half ? 2 : 1;
    if (open && open.last === index - gap && value === (open.values.at(-1) ?? 0) + 1) {
      open.last = index;
      open.values.push(value);
      continue;
    }
    const leads = tokens[index - 1]?.text ?? "";
    const follows = tokens[index + 1]?.text ?? "";
    if (/^(?:of|times?|counts?|more|minutes|years|people|eights?|sounds|percent)$/.test(follows)) continue;
    if (before.has(leads) || isCue(stem(leads)) || isCue(stem(follows)))
      groups.push({ first: index, last: index, values: [value] });
  }
  return groups;
}
