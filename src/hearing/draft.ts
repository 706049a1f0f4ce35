import { accentsOf } from "./accents.js";
import { contextOf, isCalled } from "./context.js";
import { gearOf } from "./gear.js";
import type { Heard } from "./heard.js";
import { openingOf } from "./opening.js";
import { median } from "./runs.js";
import { type Part, partsOf } from "./sections.js";
import { calledIn, type Stated, spanOf, statedOf } from "./stated.js";
import { type Sentence, sentencesOf, textOf } from "./talk.js";
import { type Placed, toldIn } from "./told.js";
import type { Draft, DraftMove, DraftPhrase, DraftRow, DraftSection, Landing, Run, Trust } from "./types.js";
import type { Ballot, Slot, Vote } from "./vote.js";
import { isCueWord, stem } from "./words.js";

/** What was heard, as a draft. */
export function draftOf(heard: Heard): Draft {
  const { phrase, recording, slots, tokens } = heard;
  const runs = heard.runs.map((_, index) => runOf(heard, index));
  const sentences = sentencesOf(tokens, heard.runs);
  const context = contextOf(runs, slots);
  const called = calledIn(slots);
  const stated = statedOf(sentences, context, slots);
  const told = toldIn(sentences, context, slots.length);
  const distrust = distrustOf(heard);
  const names = meaningsOf(sentences, called);
  const phrases = slots.map((own, index) =>
    phraseOf(heard, own, index, { stated, told: told.filter((one) => one.phrase === index), names, distrust }),
  );
  const accents = accentsOf(sentences, phrase);
  const tempo = tempoOf(runs);
  const countIn = median(heard.runs.map((run) => run.countIn).filter((count) => count > 0));
  return {
    phrase,
    ...(countIn !== undefined && { countIn }),
    ...(tempo && { tempo }),
    start: openingOf(sentences, runs[0]?.start ?? 0),
    gear: gearOf(sentences),
    accents,
    sections: sectionsOf(partsOf(runs, sentences, phrases.length), phrases),
    runs,
    told: told.filter((one) => one.phrase === undefined).map((one) => one.told),
    ...(distrust && { distrust }),
    length: recording.length,
  };
}

function runOf(heard: Heard, index: number): Run {
  const run = heard.runs[index];
  const { start, end, phrases } = spanOf(heard.tokens, run, heard.at[index] ?? []);
  return { start, end, phrases, ...(run && run.beat > 0.05 && { countsPerMinute: 60 / run.beat }) };
}

/** Few called counts, and times of lines alone, are no ground to be sure of anything. */
function distrustOf({ runs, recording, phrase }: Heard): Draft["distrust"] {
  const called = runs.reduce((sum, { counts }) => sum + counts.filter(({ position }) => position >= 0).length, 0);
  const all = runs.reduce((sum, { counts }) => sum + Math.max(0, (counts.at(-1)?.position ?? 0) + 1), 0);
  if (recording.timing === "words") return undefined;
  return called < phrase || called < 0.12 * all ? "few-counts" : undefined;
}

/** "The boom is a stamp": what is called, and what is done. */
function meaningsOf(sentences: readonly Sentence[], called: ReadonlySet<string>): ReadonlyMap<string, string> {
  const meanings = new Map<string, string>();
  for (const sentence of sentences)
    for (const [, name = "", thing = ""] of textOf(sentence).matchAll(/ the (\S+) (?:is|means) an? (\S+)(?= )/g))
      if (
        called.has(stem(name)) &&
        isCueWord(thing) &&
        !/^(?:step|tap|one|real|bit|little|triple|big|small|slow|long|quick)$/.test(thing)
      )
        meanings.set(stem(name), thing);
  return meanings;
}

interface Known {
  readonly stated: Stated;
  readonly told: readonly Placed[];
  readonly names: ReadonlyMap<string, string>;
  readonly distrust: Draft["distrust"];
}

function phraseOf({ ballots, runs, phrase }: Heard, slots: readonly Slot[], index: number, known: Known): DraftPhrase {
  const own = ballots[index] ?? [];
  const of = new Set(own.filter(({ cues }) => cues.length > 0).map(({ run }) => run)).size;
  const free = slots.some(({ text }) => /^(?:freestyle|free style|improvise|improvisation|improv)$/.test(text));
  const length = lengthOf(
    own.map(({ to }) => to),
    phrase,
  );
  return {
    ...(length !== undefined && { length }),
    calledAt: own.map(({ run, number }) => timeOf(runs[run], number * phrase)),
    rows: own.map((ballot) => rowOf(ballot, timeOf(runs[ballot.run], ballot.number * phrase))),
    moves: free ? [] : slots.map((slot) => moveOf(slot, of, known)),
    told: known.told.map(({ told }) => told),
    ...(free && { improvised: true }),
  };
}

/** A phrase that all its runs end early is a short one. */
function lengthOf(ends: readonly number[], phrase: number): number | undefined {
  const longest = ends.reduce((most, end) => Math.max(most, end), 0);
  const half = Math.ceil(phrase / 2);
  return ends.length > 1 && longest <= half && longest > 1 ? half : undefined;
}

/** When the phrase of a run that begins at this position was called: its first count, or where that would have been. */
function timeOf(run: Heard["runs"][number] | undefined, position: number): number {
  const next = run?.counts.find((count) => count.position >= position) ?? run?.counts.at(-1);
  return run && next ? Math.max(run.counts[0]?.at ?? 0, next.at - (next.position - position) * run.beat) : 0;
}

/** What a run called on the counts of a phrase. */
function rowOf({ run, cues }: Ballot, at: number): DraftRow {
  return { run, at, cells: cues.map((cue) => ({ on: countName(cue.position), text: cue.text, at: cue.at })) };
}

/** @example countName(2.5) // "3&" */
export function countName(position: number): string {
  return `${Math.floor(position) + 1}${position % 1 === 0 ? "" : "&"}`;
}

function moveOf(slot: Slot, of: number, { stated, names, distrust }: Known): DraftMove {
  const { position, here, elsewhere } = slot;
  const runs = new Set(here.map(({ run }) => run)).size;
  const ties = stated.get(slot) ?? [];
  const clear = ties.findLast((tie) => !tie.doubted || tie.corrects);
  const doubts = ties.filter((tie) => tie.doubted);
  const agrees = clear !== undefined && clear.from === Math.floor(position) + 1;
  const firm = here.some(({ cue }) => cue.firm) || (runs > 2 && elsewhere.length === 0);
  const heardSo = trustOf(runs, elsewhere, of);
  const voted = heardSo === "sure" && (slot.mixed || !firm) ? "likely" : heardSo;
  const open = doubts.length > 0 && !clear;
  const against = clear !== undefined && !agrees;
  const trust = open || against ? (voted === "once" ? "once" : "likely") : agrees ? "sure" : voted;
  const called = slot.text.split(" ");
  const thing = [...names].find(([name]) => called.length === 1 && isCalled(slot, name))?.[1];
  const call = thing && stem(thing) !== stem(slot.text) ? slot.text : undefined;
  return {
    on: countName(position),
    cue: thing ?? slot.text,
    ...(call && { say: call }),
    trust: distrust && trust === "sure" ? "likely" : trust,
    runs,
    of,
    elsewhere: elsewhere.map(landing),
    unsure: [...doubts, ...(against && clear ? [clear] : [])].map(({ said }) => said),
  };
}

const landing = ({ run, cue }: Vote): Landing => ({ run, on: countName(cue.position), at: cue.at });

function trustOf(here: number, elsewhere: readonly Vote[], of: number): Trust {
  const have = here + elsewhere.length;
  if (here >= 2 && here >= 0.7 * have && here >= 0.34 * of) return "sure";
  return here >= 2 || of <= 1 ? "likely" : "once";
}

function sectionsOf(parts: readonly Part[], phrases: readonly DraftPhrase[]): readonly DraftSection[] {
  return parts.map(({ phrase, taughtAt, name }, index) => ({
    ...(name && { name }),
    taughtAt,
    phrases: phrases.slice(phrase, parts[index + 1]?.phrase),
  }));
}

/** The fastest of the runs that dance (nearly) the whole, or the longest. */
function tempoOf(runs: readonly Run[]): Draft["tempo"] {
  const longest = runs.reduce((most, { phrases }) => Math.max(most, phrases.length), 0);
  const whole = runs.filter(({ phrases }) => phrases.length > 1 && phrases.length >= 0.8 * longest);
  let best: Draft["tempo"];
  for (const { countsPerMinute, start } of whole.length > 0 ? whole : runs)
    if (
      countsPerMinute !== undefined &&
      countsPerMinute > 40 &&
      countsPerMinute < 260 &&
      countsPerMinute > (best?.countsPerMinute ?? 0)
    )
      best = { countsPerMinute: Math.round(countsPerMinute), at: start };
  return best;
}
