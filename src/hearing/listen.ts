import { align, type Danced, type RunPhrase } from "./align.js";
import { contextOf } from "./context.js";
import { draftOf } from "./draft.js";
import type { Heard } from "./heard.js";
import { type Cue, calledBehind, type Draw, knownIn, layRun, type Manner, mannerOf } from "./lay.js";
import { stretchesOf } from "./path.js";
import { phraseLength } from "./phrase-length.js";
import { type CalledRun, runsOf } from "./runs.js";
import { type Stated, spanOf, statedOf, stemsOf } from "./stated.js";
import { oneNameOf, synonymsOf } from "./synonyms.js";
import { sentencesOf } from "./talk.js";
import { countedDown, type Token, tokensOf } from "./tokens.js";
import type { Draft, NotHeard, Recording } from "./types.js";
import { type Ballot, voted } from "./vote.js";
import { placedBySentences, wordRunsOf } from "./words-alone.js";

/**
 * Listens to the captions of a lesson: what is danced on which count, as the runs that were counted agree on it, and what was told.
 *
 * @example listen(readCaptions(text)) // a draft; or why there is none, where nothing was counted
 */
export function listen(recording: Recording, options: { readonly phrase?: number } = {}): Draft | NotHeard {
  const words = tokensOf(recording.words);
  const phrase = options.phrase ?? phraseLength(words);
  const tokens = countedDown(words, phrase);
  const runs = calledRuns(tokens, phrase, recording.timing === "words");
  if (runs.length === 0) return byWords({ tokens, phrase, recording });
  const manner = mannerOf(tokens, runs, recording.timing === "words", phrase);
  const heard = laid(tokens, runs, phrase, manner);
  return draftOf({ ...heard, tokens, phrase, runs, recording });
}

/** A class that calls no counts: its runs are words, its counts stand in sentences. */
function byWords({ tokens, phrase, recording }: Pick<Heard, "tokens" | "phrase" | "recording">): Draft | NotHeard {
  const called = wordRunsOf(tokens, phrase);
  if (called.length < 2) return { why: "no-counts", line: 1, column: 1 };
  const runs = called.map(({ run }) => run);
  const cues = called.map((one) => one.cues);
  const laid = votedOn(tokens, runs, cues, new Map(), phrase);
  const spans = runs.map((run, index) => spanOf(tokens, run, laid.at[index] ?? []));
  const sentences = sentencesOf(tokens, runs);
  const slots = placedBySentences(laid.slots, sentences, contextOf(spans, laid.slots));
  return draftOf({ ...laid, slots, tokens, phrase, runs, recording });
}

/** Runs laid on each other as they were laid on counts, and what they vote for. */
function votedOn(
  tokens: readonly Token[],
  runs: readonly CalledRun[],
  cues: readonly (readonly Cue[])[],
  same: ReadonlyMap<string, string>,
  phrase: number,
) {
  const { at, size } = aligned(tokens, runs, named(cues, same), phrase);
  const ballots = ballotsOf(runs, cues, at, size, phrase);
  const synonyms = synonymsOf(ballots);
  return { at, ballots, slots: ballots.map((own) => voted(own, synonyms)), synonyms };
}

/** Again and again: what was called within runs is known the next time. */
function calledRuns(tokens: readonly Token[], phrase: number, exact: boolean): readonly CalledRun[] {
  let stretches = stretchesOf(tokens, phrase, new Set(), exact);
  let runs = runsOf(tokens, stretches, phrase);
  for (let round = 0; round < 3; round++) {
    const known = new Set([...knownIn(tokens, runs), ...calledBehind(tokens, stretches)]);
    stretches = stretchesOf(tokens, phrase, known, exact);
    runs = runsOf(tokens, stretches, phrase);
  }
  return runs;
}

/** Runs laid on counts and on each other; then each of them again, drawn to where the others and the sentences have its cues. */
function laid(tokens: readonly Token[], runs: readonly CalledRun[], phrase: number, manner: Manner) {
  const sentences = sentencesOf(tokens, runs);
  let cues = runs.map((run) => layRun(tokens, run, manner, () => 0));
  let same: ReadonlyMap<string, string> = new Map();
  for (let round = 0; ; round++) {
    const { at, ballots, slots, synonyms } = votedOn(tokens, runs, cues, same, phrase);
    same = oneNameOf(synonyms);
    if (round === 2) return { at, ballots, slots };
    const spans = runs.map((run, index) => spanOf(tokens, run, at[index] ?? []));
    const stated = statedOf(sentences, contextOf(spans, slots), slots);
    const before = cues;
    cues = runs.map((run, index) => layRun(tokens, run, manner, drawTo(before, at, stated, index, phrase)));
  }
}

/** Cues with synonyms under one name, so that runs can be laid on each other whatever each was called. */
function named(cues: readonly (readonly Cue[])[], same: ReadonlyMap<string, string>): readonly (readonly Cue[])[] {
  const named = ({ stems }: Cue) => same.get(stems.join(" "))?.split(" ") ?? stems;
  return cues.map((own) => own.map((cue) => ({ ...cue, stems: named(cue) })));
}

function aligned(
  tokens: readonly Token[],
  runs: readonly CalledRun[],
  cues: readonly (readonly Cue[])[],
  phrase: number,
) {
  const danced = runs.map((run, index): Danced => {
    const before = tokens.slice(Math.max(0, run.from - 14), run.from);
    return {
      start: tokens[run.from]?.start ?? 0,
      phrases: phrasesOf(run, cues[index] ?? [], phrase),
      fromTop: before.some(({ text }) => text === "top" || text === "beginning"),
    };
  });
  return align(danced, phrase);
}

/** Longest run that is taken for a routine, in phrases; half an hour of dancing. */
const longest = 360;

/** The phrases of a run from its first on; the positions of their cues are counts of the phrase, from 0. */
function phrasesOf({ counts }: CalledRun, cues: readonly Cue[], phrase: number): readonly RunPhrase[] {
  const last = Math.max(counts.at(-1)?.position ?? 0, cues.at(-1)?.position ?? 0, 0);
  const size = Math.min(longest, Math.floor(last / phrase) + 1);
  const phrases: Cue[][] = Array.from({ length: size }, () => []);
  for (const cue of cues) phrases[Math.floor(cue.position / phrase)]?.push({ ...cue, position: cue.position % phrase });
  return phrases.map((own) => ({ cues: own }));
}

/** Draws a cue to the counts on which the other runs have it. */
function drawTo(
  cues: readonly (readonly Cue[])[],
  at: readonly (readonly number[])[],
  stated: Stated,
  run: number,
  phrase: number,
): Draw {
  const votes = new Map<string, number>();
  const others = new Map<number, number>();
  for (const [other, own] of cues.entries()) {
    if (other === run) continue;
    for (const place of new Set(at[other])) others.set(place, (others.get(place) ?? 0) + 1);
    for (const { position, stems, firm } of own) {
      const place = at[other]?.[Math.floor(position / phrase)] ?? -1;
      for (const stem of new Set(stems)) {
        const key = `${place} ${position % phrase} ${stem}`;
        votes.set(key, (votes.get(key) ?? 0) + (firm ? 1 : 0.5));
      }
    }
  }
  // A sentence counts as two runs.
  for (const tie of [...stated.values()].flat())
    if (!tie.doubted)
      for (const stem of stemsOf(tie)) {
        const key = `${tie.phrase} ${tie.from - 1} ${stem}`;
        votes.set(key, (votes.get(key) ?? 0) + 2);
      }
  return (position, stem) => {
    const place = at[run]?.[Math.floor(position / phrase)] ?? -1;
    const times = votes.get(`${place} ${position % phrase} ${stem}`) ?? 0;
    const of = others.get(place) ?? 0;
    return place < 0 || times === 0 ? 0 : 0.9 * Math.min(1.3, times / Math.max(2, of));
  };
}

function ballotsOf(
  runs: readonly CalledRun[],
  cues: readonly (readonly Cue[])[],
  at: readonly (readonly number[])[],
  size: number,
  phrase: number,
): readonly (readonly Ballot[])[] {
  const ballots: Ballot[][] = Array.from({ length: size }, () => []);
  for (const [index, run] of runs.entries()) {
    const first = run.counts.find(({ position }) => position >= 0)?.position ?? 0;
    const last = run.counts.at(-1)?.position ?? 0;
    for (const [number, { cues: own }] of phrasesOf(run, cues[index] ?? [], phrase).entries()) {
      const place = at[index]?.[number] ?? -1;
      ballots[place]?.push({
        run: index,
        number,
        cues: own,
        from: number === 0 && run.countIn === 0 ? first : 0,
        to: Math.min(phrase, last - number * phrase + 1),
      });
    }
  }
  return ballots;
}
