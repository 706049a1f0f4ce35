import type { Score } from "./score.js";

/** What a learner asks for: which sections, and how often. */
export interface Wish {
  /** Indexes of the first and last section danced, both included. */
  readonly from: number;
  readonly to: number;
  readonly loops: boolean;
  /** Whether every round gets a count-in, or only the first. */
  readonly countInAgain: boolean;
  /** Index of the beat to begin on, where that is later than the run's first. */
  readonly resume?: number;
  /** Steps up in speed, in per cent of the tempo: by so much after every so many rounds, until it is reached. */
  readonly climb?: { readonly by: number; readonly every: number; readonly until: number };
}

export type Sound = "count" | "accent" | "count-in";

/** A moment of a round. */
export interface Step {
  /** Seconds at full tempo from the round's first count; a count-in lies before it. */
  readonly offset: number;
  /** Absent at the end of the last round. */
  readonly sound?: Sound;
}

/** A practice laid out: the first round, which may begin late, and all those after it. */
export interface Practice {
  /** Seconds at full tempo from the routine's first count to the first count of the run. */
  readonly origin: number;
  /** The same to the count that the first round begins on. */
  readonly begins: number;
  /** The end of the run's last count, same origin. */
  readonly ends: number;
  readonly opening: readonly Step[];
  /** Empty where it is danced once. */
  readonly round: readonly Step[];
  /** Seconds at full tempo from one round to the next, its count-in included. */
  readonly seconds: number;
  readonly climb?: Wish["climb"];
}

/** From this position on (seconds at full tempo since the first round's first count) the clock runs at this speed. */
export interface Pace {
  readonly position: number;
  /** Clock time in seconds. */
  readonly time: number;
  readonly percent: number;
}

/** A step at its time. */
export interface Moment {
  readonly practice: Practice;
  readonly round: number;
  /** Of the step within its round. */
  readonly index: number;
  readonly step: Step;
  /** Clock time in seconds. */
  readonly time: number;
  readonly pace: Pace;
}

export function layOut(score: Score, wish: Wish): Practice {
  const origin = score.sections[wish.from]?.start ?? 0;
  const ends = score.sections[wish.to]?.end ?? 0;
  const inRun = score.beats.flatMap((beat, index) =>
    beat.section >= wish.from && beat.section <= wish.to ? [{ beat, index }] : [],
  );
  const steps = (from: number): readonly Step[] =>
    inRun
      .filter(({ index }) => index >= from)
      .map(({ beat }) => ({ offset: beat.start - origin, sound: beat.accent ? "accent" : "count" }));
  const leadTo = (index: number): readonly Step[] =>
    countIn(score, index).map(({ start }) => ({ offset: start - origin, sound: "count-in" }));

  const first = inRun[0]?.index ?? 0;
  const begin = Math.max(first, wish.resume ?? first);
  const again = wish.countInAgain ? leadTo(first) : [];
  return {
    origin,
    begins: score.beats[begin]?.start ?? origin,
    ends,
    opening: [...leadTo(begin), ...steps(begin), ...(wish.loops ? [] : [{ offset: ends - origin }])],
    round: wish.loops ? [...again, ...steps(first)] : [],
    seconds: ends - origin - (again[0]?.offset ?? 0),
    ...(wish.climb ? { climb: wish.climb } : {}),
  };
}

/** The counts that lead to a beat, at the tempo of its section: before a 1 of a phrase of eight, 5 6 7 8. */
export function countIn(score: Score, index: number): readonly { readonly start: number; readonly label: string }[] {
  const beat = score.beats[index];
  const count = beat && score.sections[beat.section]?.count;
  if (!beat || !count) return [];
  const round = Math.max(score.phrase, beat.number);
  return Array.from({ length: score.countIn }, (_, i) => {
    const before = score.countIn - i;
    const number = (((beat.number - 1 - before) % round) + round) % round;
    return { start: beat.start - before * count, label: String(number + 1) };
  });
}

/** Where to take up again after a pause: the first beat of the phrase that was being danced. */
export function phraseStart(score: Score, position: number): number {
  return score.beats.findLastIndex(({ start, opens }) => opens && start <= position);
}

/** The first moment of a practice that begins at a clock time. */
export function begin(practice: Practice, time: number, percent: number): Moment | undefined {
  const step = practice.opening[0];
  return step && { practice, round: 0, index: 0, step, time, pace: { position: step.offset, time, percent } };
}

/** The moment after this one; none after the end. Each time is computed from the last change of speed, none from another. */
export function next({ practice, round, index, pace }: Moment): Moment | undefined {
  const here = round === 0 ? practice.opening : practice.round;
  const place = index + 1 < here.length ? { round, index: index + 1 } : { round: round + 1, index: 0 };
  const step = (place.round === 0 ? practice.opening : practice.round)[place.index];
  if (!step) return undefined;
  const position = place.round * practice.seconds + step.offset;
  const time = pace.time + ((position - pace.position) * 100) / pace.percent;
  const moment = { practice, ...place, step, time, pace };
  const percent = place.index === 0 ? climbed(practice, place.round, pace.percent) : pace.percent;
  return percent === pace.percent ? moment : paced(moment, percent);
}

/** The same moment, from which on the clock runs at another speed. */
export function paced(moment: Moment, percent: number): Moment {
  const position = moment.round * moment.practice.seconds + moment.step.offset;
  return { ...moment, pace: { position, time: moment.time, percent } };
}

/** The same moment as part of another practice of the same run; none where that one has no such step. */
export function carried(moment: Moment, practice: Practice): Moment | undefined {
  const index = practice.opening.findIndex(({ offset }) => Math.abs(offset - moment.step.offset) < 1e-6);
  const step = practice.opening[index];
  return step && paced({ ...moment, practice, round: 0, index, step }, moment.pace.percent);
}

/** Seconds at full tempo from the routine's first count that a moment has reached at a clock time. */
export function positionAt({ practice, round, pace }: Moment, time: number): number {
  const position = pace.position + ((time - pace.time) * pace.percent) / 100;
  return practice.origin + position - round * practice.seconds;
}

/** The speed of a round, after a round at this one. */
export function climbed({ climb }: Practice, round: number, percent: number): number {
  if (!climb || round % climb.every !== 0 || percent >= climb.until) return percent;
  return Math.min(percent + climb.by, climb.until);
}
