import { lastIndexOf, lastOf } from "./last-of.js";
import { countIn } from "./schedule.js";
import type { Beat, Cue, Score } from "./score.js";

/** What a dancer sees at one moment. */
export interface Sight {
  /** Index of the section. */
  readonly section: number;
  readonly state: "count" | "count-in" | "wait";
  readonly count: string;
  /** "&" where the move began between two counts. */
  readonly part: string;
  readonly accent: boolean;
  /** A move lands hard here. */
  readonly hit: boolean;
  /** The phrase that is danced, or that is counted in to. */
  readonly row: Row;
  /** None where no move fills the counts. */
  readonly cue?: Cue;
  readonly next?: Cue;
}

/** The counts of a phrase, as far as they can be shown beside each other. */
export interface Row {
  readonly counts: readonly { readonly number: number; readonly accent: boolean }[];
  /** Index of the one that is danced; -1 while none is. */
  readonly now: number;
}

/** The round that is danced: in seconds at full tempo from the routine's first count. */
export interface Round {
  /** A count-in leads to here. */
  readonly begins: number;
  /** What comes after the end: the first count of the next round, if there is one. */
  readonly again?: number;
}

/** The audio clock counts in samples: a moment that is this near has come. */
const tolerance = 1e-4;

/** What there is to see at a position, in seconds at full tempo from the routine's first count; `cues` end with the run. */
export function sightAt(score: Score, cues: readonly Cue[], round: Round, position: number): Sight {
  const now = position + tolerance;
  const leads = now < round.begins;
  const beatIndex = lastIndexOf(score.beats, ({ start }) => start <= (leads ? round.begins + tolerance : now));
  const beat = score.beats[beatIndex];
  const after = score.beats[beatIndex + 1];
  const uncounted = score.sections.findIndex(({ uncounted, start, end }) => uncounted && start <= now && now < end);
  const danced = uncounted < 0 && beat !== undefined && now < (score.sections[beat.section]?.end ?? 0);
  const waits = !leads && !danced;
  const target = leads ? beatIndex : beatIndex + 1;
  const here = leads || waits ? undefined : moving(cues, now);
  // What a count-in leads into may have begun in the phrase before.
  const into = leads ? moving(cues, round.begins + tolerance) : undefined;
  const coming = into ?? upcoming(cues, round.again, leads ? round.begins - tolerance : now);
  const lead = leads || waits ? leadLabel(score, target, now) : "";
  // After the end there is nothing to wait for: what was danced last stands.
  const section = (waits ? after?.section : undefined) ?? beat?.section ?? 0;
  return {
    section: uncounted < 0 ? section : uncounted,
    // Time without counts is waited out, and then counted in.
    state: waits || (uncounted >= 0 && lead === "") ? "wait" : leads ? "count-in" : "count",
    accent: !leads && !waits && beat?.accent === true,
    hit: here?.hit === true && beat !== undefined && here.start >= beat.start - tolerance,
    row: rowAt(score, waits ? target : beatIndex, !leads && !waits),
    ...(leads || waits ? { count: lead, part: "" } : counted(beat, here)),
    ...(here ? { cue: here } : {}),
    ...(coming ? { next: coming } : {}),
  };
}

function rowAt({ beats }: Score, index: number, danced: boolean): Row {
  const first = Math.max(
    lastIndexOf(beats.slice(0, index + 1), ({ opens }) => opens),
    0,
  );
  const after = beats.findIndex(({ opens }, at) => at > first && opens);
  const counts = beats.slice(first, after < 0 ? beats.length : after);
  return { counts: counts.map(({ number, accent }) => ({ number, accent })), now: danced ? index - first : -1 };
}

function counted(beat: Beat | undefined, cue: Cue | undefined) {
  const between = cue !== undefined && beat !== undefined && cue.start > beat.start + tolerance;
  return { count: beat?.label ?? "", part: between ? cue.part : "" };
}

/** The count-in's number; before it, in a long wait, none. */
function leadLabel(score: Score, target: number, now: number): string {
  return lastOf(countIn(score, target), ({ start }) => start <= now)?.label ?? "";
}

function moving(cues: readonly Cue[], now: number): Cue | undefined {
  const cue = lastOf(cues, ({ start }) => start <= now);
  return cue && now < cue.end ? cue : undefined;
}

function upcoming(cues: readonly Cue[], again: number | undefined, now: number): Cue | undefined {
  const within = cues.find(({ start }) => start > now);
  return within ?? (again === undefined ? undefined : cues.find(({ start }) => start > again - tolerance));
}
