import { lastIndexOf, lastOf } from "./last-of.js";
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

/** From here the clock runs as it does, whatever the speed, until the next step: time without counts. */
type Still = "still";

/** A moment of a round. */
export interface Step {
  /** Seconds at full tempo from the round's first count; a count-in lies before it. */
  readonly offset: number;
  /** Absent at the end of the last round. */
  readonly sound?: Sound | Still;
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
  const steps = (from: number): readonly Step[] => {
    const since = from > first ? (score.beats[from]?.start ?? origin) : origin;
    const beats = inRun
      .filter(({ index }) => index >= from)
      .map(({ beat }): Step => ({ offset: beat.start - origin, sound: beat.accent ? "accent" : "count" }));
    return [...beats, ...waits(score, wish, since, origin)].sort((a, b) => a.offset - b.offset);
  };
  // What begins with time without counts is counted in after that.
  const leadTo = (index: number): readonly Step[] =>
    inRun.length === 0 || (index === first && score.sections[wish.from]?.uncounted)
      ? []
      : countIn(score, index).map(({ start }) => ({ offset: start - origin, sound: "count-in" }));

  const first = inRun[0]?.index ?? 0;
  const begin = Math.max(first, wish.resume ?? first);
  const again = wish.countInAgain ? leadTo(first) : [];
  return {
    origin,
    begins: inRun.length === 0 ? origin : (score.beats[begin]?.start ?? origin),
    ends,
    opening: [...leadTo(begin), ...steps(begin), ...(wish.loops ? [] : [{ offset: ends - origin }])],
    round: wish.loops ? [...again, ...steps(first)] : [],
    seconds: ends - origin - (again[0]?.offset ?? 0),
    ...(wish.climb ? { climb: wish.climb } : {}),
  };
}

/** Each time without counts of a run, from a moment on, and as much of the next count-in as it has room for. */
function waits({ sections, ...score }: Score, { from, to }: Wish, since: number, origin: number): readonly Step[] {
  return sections.flatMap((section, index): readonly Step[] => {
    if (!section.uncounted || index < from || index > to || section.start < since) return [];
    const next = sections[index + 1]?.uncounted === true || index === to ? -1 : index + 1;
    const beat = score.beats.findIndex((one) => one.section === next);
    const lead = countIn({ sections, ...score }, beat).filter(({ start }) => start >= section.start);
    return [
      { offset: section.start - origin, sound: "still" },
      ...lead.map(({ start }): Step => ({ offset: start - origin, sound: "count-in" })),
    ];
  });
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
  return lastIndexOf(score.beats, ({ start, opens }) => opens && start <= position);
}

/** The first moment of a practice that begins at a clock time. */
export function begin(practice: Practice, time: number, percent: number): Moment | undefined {
  const step = practice.opening[0];
  return step && { practice, round: 0, index: 0, step, time, pace: { position: step.offset, time, percent } };
}

/** The moment after this one; none after the end. Each time is computed from the last change of speed, none from another. */
export function next({ practice, round, index, step: last, pace }: Moment): Moment | undefined {
  const here = round === 0 ? practice.opening : practice.round;
  const place = index + 1 < here.length ? { round, index: index + 1 } : { round: round + 1, index: 0 };
  const step = (place.round === 0 ? practice.opening : practice.round)[place.index];
  if (!step) return undefined;
  const position = place.round * practice.seconds + step.offset;
  const time = pace.time + ((position - pace.position) * 100) / rate(last, pace);
  const moment = { practice, ...place, step, time, pace };
  const percent = place.index === 0 ? climbed(practice, place.round, pace.percent) : pace.percent;
  const same = percent === pace.percent && (step.sound === "still") === (last.sound === "still");
  return same ? moment : paced(moment, percent);
}

/** Whether a position of a round lies in time without counts, where the clock runs whatever the speed. */
export function isStill({ opening, round: others, origin }: Practice, round: number, position: number): boolean {
  const steps = round === 0 ? opening : others;
  return lastOf(steps, ({ offset }) => offset <= position - origin)?.sound === "still";
}

/** Per cent of the tempo at which the clock runs after a step. */
function rate({ sound }: Step, { percent }: Pace): number {
  return sound === "still" ? 100 : percent;
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
export function positionAt({ practice, round, step, pace }: Moment, time: number): number {
  const position = pace.position + ((time - pace.time) * rate(step, pace)) / 100;
  return practice.origin + position - round * practice.seconds;
}

/** The speed of a round, after a round at this one. */
export function climbed({ climb }: Practice, round: number, percent: number): number {
  if (!climb || round % climb.every !== 0 || percent >= climb.until) return percent;
  return Math.min(percent + climb.by, climb.until);
}
