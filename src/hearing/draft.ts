import type { Heard } from "./listen.js";
import type { Draft, DraftMove, DraftPhrase, Landing, Run, Trust } from "./types.js";
import type { Slot, Vote } from "./vote.js";

/** What was heard, as a draft. */
export function draftOf(heard: Heard): Draft {
  const { phrase, recording, slots } = heard;
  const runs = heard.runs.map((_, index) => runOf(heard, index));
  const phrases = slots.map((own, index) => phraseOf(heard, own, index));
  return {
    phrase,
    start: {},
    gear: [],
    accents: { counts: [] },
    sections: [{ taughtAt: 0, phrases }],
    runs,
    told: [],
    length: recording.length,
  };
}

function runOf({ runs, tokens, at }: Heard, index: number): Run {
  const run = runs[index];
  const start = tokens[run?.from ?? 0]?.start ?? 0;
  const end = tokens[(run?.to ?? 1) - 1]?.end ?? start;
  return {
    start,
    end,
    phrases: (at[index] ?? []).filter((place) => place >= 0),
    ...(run && { countsPerMinute: 60 / run.beat }),
  };
}

function phraseOf({ ballots, runs }: Heard, slots: readonly Slot[], index: number): DraftPhrase {
  const own = ballots[index] ?? [];
  const cued = own.filter(({ cues }) => cues.length > 0);
  return {
    calledAt: own.map(({ run }) => runs[run]?.counts[0]?.at ?? 0),
    moves: slots.map((slot) => moveOf(slot, new Set(cued.map(({ run }) => run)).size)),
    told: [],
  };
}

/** @example countName(2.5) // "3&" */
export function countName(position: number): string {
  return `${Math.floor(position) + 1}${position % 1 === 0 ? "" : "&"}`;
}

function moveOf({ position, text, here, elsewhere, mixed }: Slot, of: number): DraftMove {
  const runs = new Set(here.map(({ run }) => run)).size;
  return {
    on: countName(position),
    cue: text,
    trust: mixed ? "likely" : trustOf(runs, elsewhere, of),
    runs,
    of,
    elsewhere: elsewhere.map(landing),
    unsure: [],
  };
}

const landing = ({ run, cue }: Vote): Landing => ({ run, on: countName(cue.position), at: cue.at });

function trustOf(here: number, elsewhere: readonly Vote[], of: number): Trust {
  const have = here + elsewhere.length;
  if (here >= 2 && here >= 0.7 * have && here >= 0.34 * of) return "sure";
  return here >= 2 || of <= 1 ? "likely" : "once";
}
