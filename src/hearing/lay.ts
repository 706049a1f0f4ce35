import type { Stretch } from "./path.js";
import type { Called, CalledRun } from "./runs.js";
import type { Token } from "./tokens.js";
import { isCueWord, stem } from "./words.js";

/** Something called on a count of a run. */
export interface Cue {
  /** Counts from the first of the run's first phrase; a half is "and". */
  readonly position: number;
  readonly text: string;
  readonly stems: readonly string[];
  readonly at: number;
  /** Its count is told by times, or by numbers close by. */
  readonly firm: boolean;
}

/** How this teacher calls: what it costs to take a word as called after its number, before it, or in its place. */
export interface Manner {
  readonly after: number;
  readonly before: number;
  readonly instead: number;
  /** Stems that were called together between two numbers that follow each other: "big circle". */
  readonly pairs: ReadonlySet<string>;
  /** Stems heard within runs. */
  readonly known: ReadonlySet<string>;
  /** Words have times of their own. */
  readonly exact: boolean;
  /** Counts in a phrase. */
  readonly phrase: number;
}

/** How strongly the other runs draw a cue to a count; 0 where they know nothing of it. */
export type Draw = (position: number, stem: string) => number;

/** What stands between two numbers of a run, or behind its last. */
export interface Gap {
  readonly before: Called;
  /** Where the run goes on. */
  readonly after?: Called;
  /** Counts without a number. */
  readonly missing: number;
  readonly beat: number;
  readonly words: readonly Heard[];
}

/** A cue word between two numbers. */
interface Heard {
  readonly token: number;
  readonly stem: string;
  /** Counts since the number before. */
  readonly passed: number;
  readonly half: boolean;
  /** A sentence begins with it. */
  readonly opens: boolean;
}

/** The gaps of a run that have cue words in them. */
export function gapsOf(tokens: readonly Token[], run: CalledRun, known: ReadonlySet<string>): readonly Gap[] {
  return run.counts.map((before, index) => {
    const after = run.counts[index + 1];
    const distance = after ? (after.afterShort ? 1 : after.position - before.position) : 0;
    const beat = after ? (after.at - before.at) / distance || run.beat : run.beat;
    const end = after ? after.token : endOf(tokens, run, before, known);
    const words = heardIn(tokens, before, end, beat);
    const missing = after ? distance - 1 : Math.min(24, Math.max(0, Math.round(words.at(-1)?.passed ?? 0)));
    return { before, ...(after && { after }), missing, beat, words };
  });
}

/** Words right behind a run's last number belong to it where the run has such words. */
function endOf(tokens: readonly Token[], run: CalledRun, last: Called, known: ReadonlySet<string>): number {
  let end = last.token + 1;
  while (end < run.to || end < last.token + 4) {
    const token = tokens[end];
    if (!token || token.count || (token.begins && end >= run.to)) break;
    if (end >= run.to && (token.start > last.at + 1.2 * run.beat || !(token.half || known.has(stem(token.text)))))
      break;
    end++;
    if (token.closes && end >= run.to) break;
  }
  return end;
}

function heardIn(tokens: readonly Token[], before: Called, end: number, beat: number): readonly Heard[] {
  const words: Heard[] = [];
  for (let index = before.token + 1; index < end && words.length < 24; index++) {
    const token = tokens[index];
    if (!token || token.count || token.half || !isCueWord(token.text)) continue;
    const passed = (token.start - before.at) / beat;
    words.push({
      token: index,
      stem: stem(token.text),
      passed,
      half: tokens[index - 1]?.half === true,
      opens: token.begins && /[.!?]$/.test(tokens[index - 1]?.written ?? ""),
    });
  }
  return words;
}

/** A count that a word may have been called on. */
interface Slot {
  readonly position: number;
  /** When such a word comes, in counts since the number before. */
  readonly expected: number;
  readonly price: number;
  readonly kind: "after" | "half" | "instead" | "before";
}

function slotsOf({ before, after, missing }: Gap, manner: Manner): readonly Slot[] {
  const danced = before.position >= 0;
  const slots: Slot[] = [
    { position: before.position, expected: 0.42, price: danced ? manner.after : 4, kind: "after" },
  ];
  for (let step = 0; step <= missing; step++) {
    const position = before.position + step;
    if (step > 0) slots.push({ position, expected: step + 0.05, price: manner.instead, kind: "instead" });
    if (position >= 0) slots.push({ position: position + 0.5, expected: step + 0.6, price: 0, kind: "half" });
  }
  if (after) slots.push({ position: after.position, expected: missing + 0.6, price: manner.before, kind: "before" });
  return slots.filter(({ position, kind }) => position >= 0 || kind === "after");
}

/** The cues of a run, each on its count: the cheapest way to lay the words of each gap, in order, on the counts that they may mean. */
export function layRun(tokens: readonly Token[], run: CalledRun, manner: Manner, draw: Draw): readonly Cue[] {
  return gapsOf(tokens, run, manner.known).flatMap((gap) =>
    gap.words.length === 0
      ? []
      : cuesOf(tokens, gap, layGap(gap, slotsOf(gap, manner), manner, draw), isFirm(gap, manner)),
  );
}

function layGap({ words, missing, after }: Gap, slots: readonly Slot[], manner: Manner, draw: Draw): readonly Slot[] {
  // Where only lines have times, a word far from a number may be anywhere.
  const trust = manner.exact ? 1.3 : 0.35 / (1 + 0.3 * missing);
  let row = slots.map((_, index) => ({ cost: skippedBefore(slots, -1, index), path: [index] }));
  for (const [at, word] of words.entries()) {
    const own = slots.map((slot) => {
      const off = word.passed - slot.expected;
      const drawn = draw(slot.position, word.stem);
      const line = word.opens ? (slot.position % manner.phrase === 0 ? -0.5 : 0.3) : 0;
      return slot.price + halfPrice(slot, word, drawn, manner) + line + trust * Math.min(4, off * off) - drawn;
    });
    if (at === 0) row = row.map(({ cost, path }, index) => ({ cost: cost + (own[index] ?? 0), path }));
    else {
      const pair = pairPrice(words[at - 1]?.stem ?? "", word.stem, manner);
      row = row.map((_, index) => {
        let best = { cost: Number.POSITIVE_INFINITY, path: [index] };
        for (let from = 0; from <= index; from++) {
          const before = row[from];
          if (!before) continue;
          const joined = from === index ? pair - 0.5 * (slots[index]?.price ?? 0) : skippedBefore(slots, from, index);
          const cost = before.cost + joined + (own[index] ?? 0);
          if (cost < best.cost) best = { cost, path: [...before.path, index] };
        }
        return best;
      });
    }
  }
  // Behind the last number nothing is missing.
  const ends = row.map(({ cost, path }, index) => ({
    cost: cost + (after ? skippedBefore(slots, index, slots.length) : 0),
    path,
  }));
  const best = ends.reduce((a, b) => (b.cost < a.cost ? b : a), ends[0] ?? { cost: 0, path: [] });
  return best.path.flatMap((index) => slots[index] ?? []);
}

/** Two words on one count: one cue of two words, or crowded; never the same word twice. */
function pairPrice(before: string, stem: string, { pairs }: Manner): number {
  if (before === stem) return 2.5;
  return pairs.has(`${before} ${stem}`) ? -0.3 : 0.4;
}

/** A half is called with "and"; or its word comes there in time, or others have it there. */
function halfPrice(slot: Slot, word: Heard, drawn: number, { exact }: Manner): number {
  if (slot.kind !== "half") return word.half && slot.kind !== "before" ? 0.3 : 0;
  if (word.half) return 0;
  return drawn > 0.25 || (exact && slot.expected > 1) ? 0.5 : 3;
}

/** Counts without a number on which nothing is laid. */
function skippedBefore(slots: readonly Slot[], from: number, to: number): number {
  return 0.35 * slots.slice(from + 1, to).filter(({ kind }) => kind === "instead").length;
}

const isFirm = ({ missing, words }: Gap, { exact }: Manner): boolean =>
  exact || missing < 3 || (missing < 8 && words.length === missing);

function cuesOf(tokens: readonly Token[], { words }: Gap, slots: readonly Slot[], firm: boolean): readonly Cue[] {
  const cues: { position: number; first: number; last: number; stems: string[] }[] = [];
  for (const [index, { token, stem }] of words.entries()) {
    const position = slots[index]?.position ?? -1;
    const open = cues.at(-1);
    if (open && open.position === position) {
      open.last = token;
      open.stems.push(stem);
    } else cues.push({ position, first: token, last: token, stems: [stem] });
  }
  return cues
    .filter(({ position }) => position >= 0)
    .map(({ position, first, last, stems }) => ({
      position,
      text: tokens
        .slice(first, last + 1)
        .filter((token) => !token.half)
        .map(({ text }) => text)
        .join(" "),
      stems,
      at: tokens[first]?.start ?? 0,
      firm,
    }));
}

/** How she calls, learned from where words stand between numbers that follow each other, and at the ends of runs. */
export function mannerOf(tokens: readonly Token[], runs: readonly CalledRun[], exact: boolean, phrase: number): Manner {
  const known = knownIn(tokens, runs);
  const pairs = new Map<string, number>();
  let side = 0;
  let beside = 1;
  let instead = 1;
  for (const run of runs) {
    const gaps = gapsOf(tokens, run, known);
    side += sideOfEnds(gaps);
    for (const gap of gaps) {
      const { words, missing } = gap;
      if (words.length === 0) continue;
      for (const [index, word] of words.entries()) {
        const previous = words[index - 1];
        const quick = exact && previous !== undefined && isQuick(previous, word);
        const close = quick || (missing === 0 && gap.after);
        const pair = `${previous?.stem} ${word.stem}`;
        if (previous && close && !word.half && previous.stem !== word.stem)
          pairs.set(pair, (pairs.get(pair) ?? 0) + (quick ? 2 : 1));
      }
      if (!gap.after) continue;
      if (missing === 0) {
        side += sideOfMarks(tokens, gap);
        beside++;
      } else if (words.length >= missing) instead++;
    }
  }
  const after = 1 / (1 + Math.exp(-0.5 * side - 0.7));
  const all = beside + instead;
  const cost = (share: number) => -0.5 * Math.log(Math.max(0.03, share));
  return {
    after: cost((after * beside) / all),
    before: cost(((1 - after) * beside) / all),
    instead: cost(instead / all) / 2,
    pairs: new Set([...pairs].filter(([, times]) => times > 1).map(([pair]) => pair)),
    known,
    exact,
    phrase,
  };
}

/** Said in one breath, away from the next count: "big circle". */
function isQuick(before: Heard, word: Heard): boolean {
  const off = word.passed % 1;
  return word.passed - before.passed < 0.45 && off > 0.15 && off < 0.45;
}

/** Above 0 where words come after their numbers, below where before: a run's first word stands before its "one", or its last behind it all. */
function sideOfEnds(gaps: readonly Gap[]): number {
  const start = gaps.findIndex(({ before, after }) => before.position === -1 && after?.position === 0);
  const lead = gaps[start]?.words.length ?? 0;
  const next = gaps[start + 1];
  const last = gaps.at(-1);
  const previous = gaps.at(-2);
  let side = 0;
  if (start >= 0) side += lead > 0 ? -2 : next && next.missing === 0 && next.words.length > 0 ? 2 : 0;
  if (previous && previous.missing === 0 && previous.words.length > 0) side += last?.words.length ? 1 : -0.5;
  return side;
}

/** The same, by marks between the words. */
function sideOfMarks(tokens: readonly Token[], { before, words }: Gap): number {
  if (before.position < 0) return 0;
  const last = tokens[words.at(-1)?.token ?? 0]?.closes ?? false;
  const number = tokens[before.token]?.closes ?? false;
  return last === number ? 0 : last ? 1 : -1;
}

/** Stems that are called within runs at least twice. */
export function knownIn(tokens: readonly Token[], runs: readonly CalledRun[]): ReadonlySet<string> {
  const times = new Map<string, number>();
  for (const { counts } of runs) {
    const first = counts.find(({ position }) => position >= -1) ?? counts[0];
    for (const token of tokens.slice((first?.token ?? 0) + 1, counts.at(-1)?.token)) {
      if (!token.count && isCueWord(token.text)) times.set(stem(token.text), (times.get(stem(token.text)) ?? 0) + 1);
    }
  }
  return new Set([...times].filter(([, count]) => count > 1).map(([name]) => name));
}

/** Stems that follow counting more than once, with no joining word before them: a dance called by words alone. */
export function calledBehind(tokens: readonly Token[], stretches: readonly Stretch[]): ReadonlySet<string> {
  const times = new Map<string, number>();
  for (const { to, counts } of stretches) {
    if (counts.length < 3) continue;
    const rest = tokens.slice(to, to + 16);
    const end = rest.findIndex((token) => !token.half && (token.count !== undefined || !isCueWord(token.text)));
    for (const { text } of end < 0 ? rest : rest.slice(0, end)) times.set(stem(text), (times.get(stem(text)) ?? 0) + 1);
  }
  return new Set([...times].filter(([, count]) => count > 1).map(([name]) => name));
}
