import type { RunPhrase } from "./align.js";
import type { Cue } from "./lay.js";
import { areSynonyms, type Synonyms } from "./synonyms.js";
import { alike } from "./words.js";

/** A phrase of one run. */
export interface Ballot extends RunPhrase {
  readonly run: number;
  /** Which phrase of the run it is. */
  readonly number: number;
  /** A count-in or a run's end lies within it: it is danced from here to there only. */
  readonly from: number;
  readonly to: number;
}

export interface Vote {
  readonly run: number;
  readonly cue: Cue;
}

/** A cue of a phrase on the count that most runs give it. */
export interface Slot {
  readonly position: number;
  readonly text: string;
  /** Runs that have it there. */
  readonly here: readonly Vote[];
  /** Runs that have it on another count. */
  readonly elsewhere: readonly Vote[];
  /** Runs call it by different words, and nothing else says that they mean one thing. */
  readonly mixed?: true;
}

/** What the runs that dance a phrase call on its counts. */
export function voted(ballots: readonly Ballot[], synonyms: Synonyms): readonly Slot[] {
  const groups = groupsOf(
    ballots.flatMap(({ run, cues }) => cues.map((cue) => ({ run, cue }))),
    synonyms,
  );
  return oneEach(groups.flatMap(slotsOf)).sort((a, b) => a.position - b.position);
}

/** Votes for one word, however it was heard: those that share a stem with what was called most. */
function groupsOf(votes: readonly Vote[], synonyms: Synonyms): readonly (readonly Vote[])[] {
  const times = new Map<string, number>();
  for (const { cue } of votes) times.set(cue.stems.join(" "), (times.get(cue.stems.join(" ")) ?? 0) + 1);
  const names = [...times].sort((a, b) => b[1] - a[1]).map(([name]) => name);
  const groups: { names: string[]; stems: readonly string[] }[] = [];
  for (const name of names) {
    const stems = name.split(" ");
    const home = groups.find(
      (group) => shares(group.stems, stems) || areSynonyms(group.stems.join(" "), name, synonyms),
    );
    if (home) home.names.push(name);
    else groups.push({ names: [name], stems });
  }
  return groups.map((group) => votes.filter(({ cue }) => group.names.includes(cue.stems.join(" "))));
}

function shares(a: readonly string[], b: readonly string[]): boolean {
  const [short, long] = a.length <= b.length ? [a, b] : [b, a];
  return short.every((stem) => long.some((other) => alike(stem, other)));
}

/** The counts of one word: the count with most votes first, with the runs that have it next to it and not on it. */
function slotsOf(votes: readonly Vote[]): readonly Slot[] {
  const left = new Set(votes);
  const slots: Slot[] = [];
  while (left.size > 0) {
    const position = mostVoted([...left]);
    const here = [...left].filter(({ cue }) => cue.position === position);
    for (const vote of here) left.delete(vote);
    const has = new Set(here.map(({ run }) => run));
    const elsewhere: Vote[] = [];
    for (const reach of [0.5, 1, 2])
      for (const vote of [...left].filter(({ cue }) => Math.abs(cue.position - position) <= reach))
        if (!has.has(vote.run) && (reach < 2 || here.length > 1)) {
          has.add(vote.run);
          left.delete(vote);
          elsewhere.push(vote);
        }
    slots.push({ position, text: mostSaid(here), here, elsewhere });
  }
  return slots;
}

function mostVoted(votes: readonly Vote[]): number {
  const runs = new Map<number, Set<number>>();
  for (const { run, cue } of votes) runs.set(cue.position, (runs.get(cue.position) ?? new Set()).add(run));
  return [...runs].sort((a, b) => b[1].size - a[1].size || a[0] - b[0])[0]?.[0] ?? 0;
}

function mostSaid(votes: readonly Vote[]): string {
  const times = new Map<string, number>();
  for (const { cue } of votes) times.set(cue.text, (times.get(cue.text) ?? 0) + 1);
  return [...times].sort((a, b) => b[1] - a[1] || a[0].length - b[0].length)[0]?.[0] ?? "";
}

/** Of two words that share a count in different runs, the more frequent stays; where each was said once, they are one. */
function oneEach(slots: readonly Slot[]): Slot[] {
  const kept: Slot[] = [];
  for (const slot of [...slots].sort((a, b) => b.here.length - a.here.length || a.position - b.position)) {
    const runs = new Set(slot.here.map(({ run }) => run));
    const at = kept.findIndex(
      (other) => other.position === slot.position && other.here.every(({ run }) => !runs.has(run)),
    );
    const other = kept[at];
    if (!other) kept.push(slot);
    else if (other.here.length === 1) kept[at] = { ...other, here: [...other.here, ...slot.here], mixed: true };
  }
  return kept;
}
