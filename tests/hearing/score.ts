import type { Draft, DraftMove, DraftPhrase } from "../../src/hearing/types.js";
import type { Dispute, Truth, TruthPhrase } from "./recording.js";

/** Of `given` things, so many are `right`; there were `of` to find. */
export interface Rate {
  readonly right: number;
  readonly given: number;
  readonly of: number;
}

export interface Score {
  readonly name: string;
  /** Phrase, count and cue: the draft's sure moves, those that it writes, and all that it heard. */
  readonly sure: Rate;
  readonly likely: Rate;
  readonly all: Rate;
  readonly phrases: Rate;
  /** Runs of the draft, and of the truth. */
  readonly runs: { readonly given: number; readonly of: number };
  /** Sections that the draft lets begin within ten seconds of the truth's. */
  readonly sections: Rate;
  /** Item and need. */
  readonly gear: Rate;
  readonly accents: Rate;
  /** Facing and weight. */
  readonly start: Rate;
  /** Disputed cues that the draft doubts. */
  readonly conflicts: Rate;
  /** Doubts of cues that the truth doesn't dispute. */
  readonly inVain: number;
  /** What was told, tied to its phrase and count. */
  readonly told: Rate;
  /** Within four counts a minute. */
  readonly tempo: Rate;
}

/** Right among what was given; 1 where nothing was. */
export const precision = (rate: Rate): number => (rate.given === 0 ? 1 : rate.right / rate.given);

/** Right among what was to be found; 1 where nothing was. */
export const recall = (rate: Rate): number => (rate.of === 0 ? 1 : rate.right / rate.of);

/** Sums scores' rates, each cue of each recording weighing the same. */
export const together = (rates: readonly Rate[]): Rate =>
  rates.reduce(
    (sum, rate) => ({ right: sum.right + rate.right, given: sum.given + rate.given, of: sum.of + rate.of }),
    { right: 0, given: 0, of: 0 },
  );

/** A phrase of the truth beside the one of the draft that stands for it. */
interface Pair {
  readonly section: number;
  readonly phrase: number;
  readonly dances: TruthPhrase;
  readonly drafted?: DraftPhrase;
}

/** Holds a draft against what its recording is known to teach. */
export function score(name: string, draft: Draft, truth: Truth): Score {
  const drafted = draft.sections.flatMap((section) => section.phrases);
  const pairs = aligned(drafted, truth);
  const matched = (kept: (move: DraftMove) => boolean): Rate => ({
    right: pairs.reduce((sum, pair) => sum + rightMoves(pair, truth, kept), 0),
    given: drafted.reduce((sum, phrase) => sum + phrase.moves.filter(kept).length, 0),
    of: pairs.reduce((sum, pair) => sum + cuesOf(pair.dances).length, 0),
  });
  return {
    name,
    sure: matched((move) => move.trust === "sure"),
    likely: matched((move) => move.trust !== "once"),
    all: matched(() => true),
    phrases: {
      right: pairs.filter((pair) => pair.drafted && likeness(pair.dances, pair.drafted, truth) >= 1).length,
      given: drafted.length,
      of: pairs.length,
    },
    runs: { given: draft.runs.length, of: truth.runs },
    sections: sectionsFound(draft, truth),
    gear: gearFound(draft, truth),
    accents: common(draft.accents.counts, truth.accents),
    start: startFound(draft, truth),
    ...doubts(pairs, drafted, truth),
    told: toldFound(pairs, drafted, truth),
    tempo: tempoFound(draft, truth),
  };
}

/**
 * Phrases of the draft laid on those of the truth, in order, such that most cues agree: a phrase that the draft has missed or made up
 * spoils no other.
 */
function aligned(drafted: readonly DraftPhrase[], truth: Truth): readonly Pair[] {
  const wanted: readonly Pair[] = truth.sections.flatMap((section, index) =>
    section.phrases.map((dances, phrase) => ({ section: index, phrase, dances })),
  );
  const width = drafted.length + 1;
  const best = new Float64Array((wanted.length + 1) * width);
  const at = (row: number, column: number) => best[row * width + column] ?? 0;
  const gain = (row: number, column: number): number => {
    const pair = wanted[row];
    const phrase = drafted[column];
    return pair && phrase ? likeness(pair.dances, phrase, truth) : 0;
  };
  for (let row = wanted.length - 1; row >= 0; row--)
    for (let column = drafted.length - 1; column >= 0; column--)
      best[row * width + column] = Math.max(
        at(row + 1, column + 1) + gain(row, column),
        at(row + 1, column),
        at(row, column + 1),
      );
  const found: Pair[] = [];
  let column = 0;
  for (const [row, pair] of wanted.entries()) {
    while (column < drafted.length && at(row, column) === at(row, column + 1) && at(row, column) > 0) column++;
    const phrase = drafted[column];
    if (phrase && at(row, column) > at(row + 1, column)) {
      found.push({ ...pair, drafted: phrase });
      column++;
    } else found.push(pair);
  }
  return found;
}

/** Cues that agree; next to nothing for phrases that only could be meant for each other. */
function likeness(dances: TruthPhrase, phrase: DraftPhrase, truth: Truth): number {
  if (dances.improvised) return phrase.improvised ? 1 : 0.01;
  return rightMoves({ section: 0, phrase: 0, dances, drafted: phrase }, truth, () => true) + 0.01;
}

/** Moves of the draft's phrase that the truth has on the same count, each cue of the truth once. */
function rightMoves(pair: Pair, truth: Truth, kept: (move: DraftMove) => boolean): number {
  const open = cuesOf(pair.dances).map(([on, cue]) => ({ count: countOf(on), cue }));
  let right = 0;
  for (const move of pair.drafted?.moves.filter(kept) ?? []) {
    const index = open.findIndex(({ count, cue }) => count === countOf(move.on) && means(move, cue, truth));
    if (index < 0) continue;
    open.splice(index, 1);
    right++;
  }
  return right;
}

const cuesOf = (phrase: TruthPhrase): readonly (readonly [string, string])[] =>
  Object.entries(phrase).flatMap(([on, cue]) => (typeof cue === "string" ? [[on, cue] as const] : []));

/** Where it begins: "7&8" and "7-8" begin on 7, "7&" half a count later. */
const countOf = (on: string): string => /^\d+(?:[e&a](?!\d))?/.exec(on)?.[0] ?? on;

/** Words that say nothing of what is danced. */
const idle = new Set("a an the and your you to it on in of with so now then is that this we".split(" "));
const sides = new Set(["left", "right"]);

/** Stems of what says what is danced. */
function stems(text: string): readonly string[] {
  return text
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== "" && !idle.has(word))
    .map(stem);
}

/** "clapping", "clapped", "claps" and "clap" are one. */
function stem(word: string): string {
  const cut = word.replace(/(?:ing|ed|es|s|e)$/, "");
  const short = cut.length >= 3 ? cut : word;
  return short.replace(/([bdgklmnprt])\1$/, "$1");
}

/** Whether the draft's cue, or what it says is called, is the truth's or another word for it. */
const means = (move: DraftMove, cue: string, truth: Truth): boolean =>
  [move.cue, move.say].some((text) => text !== undefined && sameCue(text, cue, truth));

/** All that the draft's words say must be in one of the truth's words for it. A side may be told by one of the two alone. */
function sameCue(text: string, cue: string, truth: Truth): boolean {
  const given = stems(text);
  return [cue, ...(truth.synonyms?.[cue] ?? [])].some((other) => {
    const known = stems(other);
    const meant = given.filter((word) => !sides.has(word) || known.some((side) => sides.has(side)));
    return meant.length > 0 && meant.every((word) => known.includes(word));
  });
}

function sectionsFound(draft: Draft, truth: Truth): Rate {
  const open = draft.sections.map((section) => section.taughtAt);
  let right = 0;
  for (const { taughtAt } of truth.sections) {
    const index = open.findIndex((at) => Math.abs(at - taughtAt) <= 10);
    if (index < 0) continue;
    open.splice(index, 1);
    right++;
  }
  return { right, given: draft.sections.length, of: truth.sections.length };
}

function gearFound(draft: Draft, truth: Truth): Rate {
  const right = truth.gear.filter(({ item, need }) =>
    draft.gear.some((found) => found.need === need && sameItem(found.item, item)),
  );
  return { right: right.length, given: draft.gear.length, of: truth.gear.length };
}

/** The thing itself stands last: "tap shoes", "shoes". */
const sameItem = (one: string, other: string): boolean => {
  const [a, b] = [stems(one), stems(other)];
  return a.at(-1) === b.at(-1) && (a.every((word) => b.includes(word)) || b.every((word) => a.includes(word)));
};

const common = (given: readonly number[], wanted: readonly number[]): Rate => ({
  right: wanted.filter((count) => given.includes(count)).length,
  given: given.length,
  of: wanted.length,
});

function startFound({ start }: Draft, truth: Truth): Rate {
  const wanted = [
    [start.facing?.value, truth.start.facing],
    [start.weight?.value, truth.start.weight],
  ];
  return {
    right: wanted.filter(([given, known]) => given !== undefined && given === known).length,
    given: wanted.filter(([given]) => given !== undefined).length,
    of: wanted.filter(([, known]) => known !== undefined).length,
  };
}

function tempoFound(draft: Draft, truth: Truth): Rate {
  const given = draft.tempo?.countsPerMinute;
  const right = given !== undefined && truth.tempo !== null && Math.abs(given - truth.tempo) <= 4;
  return { right: right ? 1 : 0, given: given === undefined ? 0 : 1, of: truth.tempo === null ? 0 : 1 };
}

/** What the draft asks about. */
const doubted = (move: DraftMove): boolean =>
  move.trust === "likely" || (move.trust === "sure" && move.unsure.length > 0);

function doubts(pairs: readonly Pair[], drafted: readonly DraftPhrase[], truth: Truth) {
  const about = (dispute: Dispute) =>
    pairs
      .filter((pair) => pair.section === dispute.section && pair.phrase === dispute.phrase)
      .flatMap((pair) => pair.drafted?.moves ?? [])
      .filter((move) => doubted(move) && means(move, dispute.cue, truth));
  const asked = drafted.flatMap((phrase) => phrase.moves).filter(doubted);
  const fair = new Set([...truth.disputed, ...(truth.slips ?? [])].flatMap(about));
  const found = truth.disputed.filter((dispute) => about(dispute).length > 0);
  const conflicts: Rate = { right: found.length, given: asked.length, of: truth.disputed.length };
  return { conflicts, inVain: asked.filter((move) => !fair.has(move)).length };
}

function toldFound(pairs: readonly Pair[], drafted: readonly DraftPhrase[], truth: Truth): Rate {
  const right = truth.told.filter((told) =>
    pairs
      .filter((pair) => pair.section === told.section && pair.phrase === told.phrase)
      .flatMap((pair) => pair.drafted?.told ?? [])
      .some((found) => found.kind === told.kind && found.on !== undefined && countOf(found.on) === countOf(told.count)),
  );
  const given = drafted.reduce((sum, phrase) => sum + phrase.told.length, 0);
  return { right: right.length, given, of: truth.told.length };
}

/** A row a recording: precision/recall of cues, and found/of of the rest (what was given too many behind a plus). */
export function table(scores: readonly Score[]): string {
  const both = (rate: Rate) => `${precision(rate).toFixed(2)}/${recall(rate).toFixed(2)}`;
  const found = (rate: Rate) =>
    `${rate.right}/${rate.of}${rate.given > rate.right ? `+${rate.given - rate.right}` : ""}`;
  const rows = scores.map((one) => [
    one.name,
    both(one.sure),
    both(one.likely),
    both(one.all),
    found(one.phrases),
    `${one.runs.given}/${one.runs.of}`,
    found(one.sections),
    found(one.gear),
    found(one.accents),
    found(one.start),
    found(one.tempo),
    `${one.conflicts.right}/${one.conflicts.of}`,
    String(one.inVain),
    `${one.told.right}/${one.told.of}`,
  ]);
  const heads =
    "recording,sure p/r,written p/r,all p/r,phrases,runs,sections,gear,accents,start,tempo,conflicts,in vain,told";
  return columns([heads.split(","), ...rows]);
}

function columns(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map((row) => row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join("  ")).join("\n");
}
