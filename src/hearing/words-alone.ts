import type { Context } from "./context.js";
import { isCalled } from "./context.js";
import type { Cue } from "./lay.js";
import type { CalledRun } from "./runs.js";
import { calledIn } from "./stated.js";
import type { Sentence } from "./talk.js";
import { type Tie, tiesOf } from "./ties.js";
import type { Token } from "./tokens.js";
import type { Slot } from "./vote.js";
import { isCueWord, isJoining, stem } from "./words.js";

/** A run that calls no number: its words are a phrase a sentence. */
export interface WordRun {
  readonly run: CalledRun;
  readonly cues: readonly Cue[];
}

/** Seconds between words that are called, not talked. */
const slow = 0.8;
const longestPause = 6;
/** Words of praise or help that may stand between two calls. */
const asides = 2;

/**
 * Runs of a class that is called by words alone: cue words one by one, with a mark behind each or a count or two between them. Their
 * counts are no more than guessed from their times.
 */
export function wordRunsOf(tokens: readonly Token[], phrase: number): readonly WordRun[] {
  const runs: WordRun[] = [];
  let calls: number[] = [];
  for (const [index, token] of tokens.entries()) {
    if (!isCall(token, tokens[index + 1])) continue;
    const last = calls.at(-1);
    const between = last === undefined ? [] : tokens.slice(last + 1, index);
    const goesOn = last !== undefined && isAside(between) && token.start - (tokens[last]?.start ?? 0) < longestPause;
    if (!goesOn) {
      if (calls.length >= 3) runs.push(runOf(tokens, calls, phrase));
      calls = [];
    }
    calls.push(index);
  }
  return calls.length >= 3 ? [...runs, runOf(tokens, calls, phrase)] : runs;
}

const isAside = (between: readonly Token[]): boolean =>
  between.length <= asides &&
  between.every(({ text, written, half }) => (half || !isJoining(text)) && !/[.!?]$/.test(written));

function isCall(token: Token, next: Token | undefined): boolean {
  if (token.count || !isCueWord(token.text)) return false;
  return token.closes || next === undefined || next.start - token.start > slow;
}

function runOf(tokens: readonly Token[], calls: readonly number[], phrase: number): WordRun {
  const phrases: Token[][] = [];
  for (const [index, at] of calls.entries()) {
    const between = tokens.slice(calls[index - 1] ?? at, at);
    if (index === 0 || between.some(({ written }) => /[.!?]$/.test(written))) phrases.push([]);
    phrases.at(-1)?.push(...tokens.slice(at, at + 1));
  }
  const cues = phrases.flatMap((own, number) => cuesIn(own, phrases[number + 1]?.[0]?.start, number, phrase));
  const [from = 0] = calls;
  const counts = [{ position: 0, at: tokens[from]?.start ?? 0, token: from, afterShort: false }];
  return { run: { from, to: (calls.at(-1) ?? from) + 1, counts, countIn: 0, beat: 0 }, cues };
}

function cuesIn(own: readonly Token[], next: number | undefined, number: number, phrase: number): readonly Cue[] {
  const start = own[0]?.start ?? 0;
  const length = Math.max(0.1, (next ?? own.at(-1)?.end ?? start) - start);
  let least = 0;
  return own.slice(0, phrase).map((token, index) => {
    const guess = Math.round(((token.start - start) / length) * phrase);
    const count = Math.min(Math.max(least, guess), phrase - Math.min(phrase, own.length) + index);
    least = count + 1;
    return {
      position: number * phrase + count,
      text: token.text,
      stems: [stem(token.text)],
      at: token.start,
      firm: false,
    };
  });
}

/** Cues whose counts stand in sentences alone ("the clap is on five, the second clap on seven") are moved there, in order. */
export function placedBySentences(
  slots: readonly (readonly Slot[])[],
  sentences: readonly Sentence[],
  context: Context,
): readonly (readonly Slot[])[] {
  const called = calledIn(slots);
  const ties = tiesOf(sentences, (name) => called.has(name));
  return slots.map((own, phrase) => {
    const mine = ties.filter((tie) => phraseOf(tie, slots, context) === phrase);
    const name = (slot: Slot) => slot.here[0]?.cue.stems[0] ?? "";
    const names = [...new Set(own.map(name))];
    const placed = names.flatMap((word) =>
      placedIn(
        own.filter((slot) => name(slot) === word),
        mine,
      ),
    );
    return placed.sort((a, b) => a.position - b.position);
  });
}

function placedIn(group: readonly Slot[], ties: readonly Tie[]): readonly Slot[] {
  const counts = ties
    .filter(({ stems }) => group.some((slot) => stems.some((name) => isCalled(slot, name))))
    .map(({ from }) => from);
  const kept = [...new Set(counts)].slice(-group.length).sort((a, b) => a - b);
  return group.map((slot, index) => {
    const count = kept[index];
    return count === undefined ? slot : { ...slot, position: count - 1, elsewhere: [] };
  });
}

/** The phrase that a sentence speaks of: the likeliest one that has its word. */
function phraseOf({ stems, said }: Tie, slots: readonly (readonly Slot[])[], context: Context): number {
  let best = -1;
  let most = 0;
  for (const [phrase, own] of slots.entries()) {
    const rank = stems.findIndex((name) => own.some((slot) => isCalled(slot, name)));
    const score = rank < 0 ? 0 : context.weight(phrase, said.at) + 0.1 - 0.3 * rank;
    if (score > most) [best, most] = [phrase, score];
  }
  return best;
}
