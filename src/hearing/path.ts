import type { Token } from "./tokens.js";
import { isCueWord, stem } from "./words.js";

/** A stretch of the recording that counts: its tokens, and which of them are called counts. */
export interface Stretch {
  readonly from: number;
  /** After its last token. */
  readonly to: number;
  readonly counts: readonly StretchCount[];
}

export interface StretchCount {
  readonly token: number;
  readonly value: number;
  /** Counts since the one called before it, those without a number included; 0 for the first, and where a short phrase ended. */
  readonly steps: number;
}

/* Prices, found by trying on recordings of our own: what is unlikely is dear. */
const price = {
  numberInTalk: 1.6,
  oneInTalk: 0.7,
  enter: 3,
  countIn: 2,
  enterLate: 3.4,
  enterElsewhere: 4.4,
  leave: 1,
  cue: 0.3,
  knownCue: 0.02,
  joining: 0.85,
  knownInTalk: 0.12,
  skip: 1.1,
  skipInTime: 0.28,
  told: 1.6,
  calledInstead: 0.2,
  calledInTime: 0.05,
  shortPhrase: 2.4,
  uneven: 1.4,
} as const;

/** Seconds without a number after which counting is likely to be over. */
const patience = 10;
/** Seconds without a word after which it is. */
const pause = 2.2;

/* How a state was come to: by a word, as the first number of a run, or by a number so many counts after the one before. */
const stay = 0;
const enter = 1;
const next = 2;

/**
 * Which words count, and which numbers are only talked of: the cheapest way through all words, each of them either talk or within
 * counting, where the last number called is known. `known` are stems that were heard within counting before.
 */
export function stretchesOf(
  tokens: readonly Token[],
  phrase: number,
  known: ReadonlySet<string>,
  exact: boolean,
): readonly Stretch[] {
  const states = phrase + 1;
  const back = new Uint8Array(tokens.length * states);
  const how = new Uint8Array(tokens.length * states);
  const silent = silentOf(tokens, phrase);
  const empty = () => new Float64Array(states);
  let row: Row = { cost: empty().fill(Number.POSITIVE_INFINITY), at: empty(), words: empty(), beat: empty() };
  row.cost[0] = 0;
  for (const [index, token] of tokens.entries()) {
    const silence = index > 0 ? token.start - (tokens[index - 1]?.start ?? 0) : 0;
    const alone = token.closes && (token.begins || tokens[index - 1]?.closes === true);
    const countsIn = isCountIn(tokens, index, phrase);
    row = advance(row, token, {
      phrase,
      known,
      exact,
      back,
      how,
      offset: index * states,
      silence,
      alone,
      countsIn,
      silent,
    });
  }
  return traced(tokens, states, row, back, how);
}

/** The cheapest way into each state: what it cost, when its last number was called, the words since, and seconds a count. */
interface Row {
  readonly cost: Float64Array;
  readonly at: Float64Array;
  readonly words: Float64Array;
  readonly beat: Float64Array;
}

interface Step {
  readonly phrase: number;
  readonly known: ReadonlySet<string>;
  /** Words have times of their own. */
  readonly exact: boolean;
  readonly back: Uint8Array;
  readonly how: Uint8Array;
  readonly offset: number;
  /** Seconds since the word before. */
  readonly silence: number;
  /** Marks stand before and behind the word. */
  readonly alone: boolean;
  /** The second half of a phrase is counted from here on without a word between. */
  readonly countsIn: boolean;
  /** Counts that are hardly ever called, as those of a phrase and of the next one. */
  readonly silent: ReadonlySet<number>;
}

/** Counts that this teacher hardly ever calls: "one two three, five six seven". */
function silentOf(tokens: readonly Token[], phrase: number): ReadonlySet<number> {
  const times = Array.from({ length: phrase + 1 }, () => 0);
  for (const { count } of tokens)
    if (count && count.value <= phrase) times[count.value] = (times[count.value] ?? 0) + 1;
  const often = Math.max(...times);
  const silent = times.flatMap((number, value) => (value > 0 && often > 7 && number < 0.12 * often ? [value] : []));
  return new Set(silent.length > 2 ? [] : silent.flatMap((value) => [value, value + phrase]));
}

function isCountIn(tokens: readonly Token[], index: number, phrase: number): boolean {
  const first = Math.floor(phrase / 2) + 1;
  return [first, first + 1, first + 2].every((value, step) => tokens[index + step]?.count?.value === value);
}

function advance(row: Row, token: Token, step: Step): Row {
  const { phrase, known, exact, back, how, offset, silence, alone } = step;
  const states = phrase + 1;
  const isKnown = known.has(stem(token.text));
  const fresh: Row = {
    cost: new Float64Array(states),
    at: row.at.slice(),
    words: row.words.slice(),
    beat: row.beat.slice(),
  };
  const talk = talkPrice(token, isKnown);
  const isCalled = !token.half && isCueWord(token.text) && token.count?.price !== 0;
  const cue = isCalled && !exact ? linePrice(token, isKnown, alone) : cuePrice(token, isKnown);
  let best = row.cost[0] ?? 0;
  let from = 0;
  for (let state = 1; state < states; state++) {
    const cost = (row.cost[state] ?? 0) + price.leave;
    if (cost < best) [best, from] = [cost, state];
    const late = (token.start - (row.at[state] ?? 0) > patience ? 0.5 : 0) + (silence > pause ? 1.5 : 0);
    fresh.cost[state] =
      (row.cost[state] ?? 0) + cue + late + (exact && isCalled ? offBeat(row, state, token, silence) : 0);
    fresh.words[state] = (row.words[state] ?? 0) + (isCalled ? 1 : 0);
    back[offset + state] = state;
    how[offset + state] = stay;
  }
  fresh.cost[0] = best + talk;
  back[offset] = from;
  const value = token.count?.value ?? 0;
  if (token.count && value <= phrase) callNumber(row, fresh, token, value, step);
  return fresh;
}

/** Whether a word comes on a count or half of one, and not as fast as one talks: below 0 if so. */
function offBeat(row: Row, state: number, token: Token, silence: number): number {
  const beat = row.beat[state] ?? 0;
  if (beat === 0) return 0;
  const passed = (token.start - (row.at[state] ?? 0)) / beat;
  const off = Math.abs(passed - Math.round(passed));
  const apart = silence > 0.72 * beat ? -0.25 : silence > 0.45 * beat ? -0.08 : 0.05;
  return apart + (off < 0.2 ? -0.15 : off > 0.35 ? -0.02 : 0.1);
}

/** The ways to call a number: the next one after another, or the first of a run. */
function callNumber(row: Row, fresh: Row, token: Token, value: number, step: Step): void {
  const { phrase, back, how, offset, countsIn } = step;
  const sound = token.count?.price ?? 0;
  const spelled = sound + (token.told ? price.told / 3 : 0);
  const entry = sound + (token.told ? price.told : 0) + (countsIn ? price.countIn : entryPrice(value, phrase));
  for (let state = 0; state <= phrase; state++) {
    const base = row.cost[state] ?? 0;
    if (base === Number.POSITIVE_INFINITY) continue;
    const restart = base + entry + (state === 0 ? 0 : price.leave);
    const on = state === 0 ? undefined : goingOn(row, state, token, value, step);
    // What sounds like the number that is due, is it.
    const due = on && (token.count?.price ?? 0) > 0 && on.steps === (row.words[state] ?? 0) + 1 ? 0.4 : 0;
    const going = on
      ? base + spelled - due + on.price + (countsIn && on.steps > 1 ? 0.6 : 0)
      : Number.POSITIVE_INFINITY;
    const cost = Math.min(restart, going);
    if (cost >= (fresh.cost[value] ?? 0)) continue;
    fresh.cost[value] = cost;
    fresh.at[value] = token.start;
    fresh.words[value] = 0;
    fresh.beat[value] = on && going < restart ? on.beat : 0;
    back[offset + value] = state;
    how[offset + value] = on && going < restart ? next + on.steps : enter;
  }
}

function entryPrice(value: number, phrase: number): number {
  if (value === 1 || value === Math.floor(phrase / 2) + 1) return price.enter;
  return value > phrase / 2 && value < phrase ? price.enterLate : price.enterElsewhere;
}

/** What it costs to go on from one number to another, over how many counts, in what time each. */
function goingOn(
  row: Row,
  state: number,
  token: Token,
  value: number,
  { phrase, exact, silent }: Step,
): { readonly price: number; readonly steps: number; readonly beat: number } | undefined {
  const gap = token.start - (row.at[state] ?? 0);
  const before = row.beat[state] ?? 0;
  const words = row.words[state] ?? 0;
  if (value === 1 && state === phrase / 2 && gap < 1.5 * (before || 1) && words < phrase / 2)
    return { price: price.shortPhrase, steps: 0, beat: before || gap };
  const least = ((value - state - 1 + phrase) % phrase) + 1;
  // Where a whole phrase may have been called by words alone, time tells.
  const most = Math.floor((2 * words + 1 - least) / phrase);
  const rounds = Math.max(0, Math.min(most, Math.round((gap / (before || 0.75) - least) / phrase)));
  const steps = least + phrase * rounds;
  const skipped = steps - 1;
  if (steps > 3 * phrase || (skipped >= phrase / 2 && words < skipped / 2)) return undefined;
  const beat = gap / steps;
  const called = Math.min(skipped, words);
  const ratio = before > 0 ? Math.abs(Math.log2(Math.max(beat, 0.02) / before)) : 0;
  const uneven = ratio > 1 ? 2 * price.uneven : ratio > 0.5 ? price.uneven : 0;
  const inTime = exact && before > 0 && ratio < 0.3;
  const unsaid = skippedOf(silent, state, steps);
  const pace = beat < 0.15 ? 2.5 : beat < 0.22 ? 0.6 : beat <= 1.7 ? 0 : beat <= 3 ? 1.2 : 3;
  return {
    price:
      called * (inTime ? price.calledInTime : price.calledInstead) +
      Math.max(0, skipped - called - unsaid) * (before > 0 && ratio < 0.3 ? price.skipInTime : price.skip) +
      (exact ? 1 : 0.3) * (uneven + pace),
    steps,
    beat: before > 0 && ratio < 1 ? (4 * before + steps * beat) / (4 + steps) : beat,
  };
}

/** How many of the counts between two numbers are never called. */
function skippedOf(silent: ReadonlySet<number>, state: number, steps: number): number {
  if (silent.size === 0) return 0;
  let found = 0;
  for (let step = 1; step < steps; step++) if (silent.has(state + step)) found++;
  return found;
}

function talkPrice(token: Token, known: boolean): number {
  if (token.told) return 0.3;
  if (token.count) return token.count.price > 0 ? 0 : token.count.value === 1 ? price.oneInTalk : price.numberInTalk;
  return known ? price.knownInTalk : 0;
}

/** Where only lines have times, marks and the want of joining words tell what is called. */
function linePrice(token: Token, known: boolean, alone: boolean): number {
  if (token.count) return price.cue;
  return (known ? price.knownCue : 0.08) - (alone ? 0.3 : 0);
}

function cuePrice(token: Token, known: boolean): number {
  if (token.half) return 0.05;
  if (token.count && token.count.price === 0) return 2;
  if (!isCueWord(token.text)) return token.text === "a" || token.text === "e" ? 0.4 : price.joining;
  return known ? price.knownCue : price.cue;
}

function traced(
  tokens: readonly Token[],
  states: number,
  last: Row,
  back: Uint8Array,
  how: Uint8Array,
): readonly Stretch[] {
  let state = 0;
  for (let other = 1; other < states; other++)
    if ((last.cost[other] ?? 0) + price.leave < (last.cost[state] ?? 0) + (state === 0 ? 0 : price.leave))
      state = other;
  const stretches: Stretch[] = [];
  let to = tokens.length;
  let counts: StretchCount[] = [];
  for (let index = tokens.length - 1; index >= 0; index--) {
    const kind = how[index * states + state] ?? stay;
    const before = back[index * states + state] ?? 0;
    if (state === 0) to = index;
    else if (kind !== stay) counts.push({ token: index, value: state, steps: Math.max(0, kind - next) });
    if (state !== 0 && kind === enter) {
      stretches.push({ from: index, to, counts: counts.reverse() });
      counts = [];
      to = index;
    }
    state = before;
  }
  return stretches.reverse();
}
