import Fraction from "fraction.js";
import { definedOnly } from "./defined-only.js";
import type { Material } from "./material.js";
import type { Pass } from "./order.js";
import type { Place } from "./problem.js";
import type { Problems } from "./problems.js";
import type { DancedSection, Music } from "./routine.js";
import type { WrittenMusic, WrittenRoutine, WrittenSection } from "./written.js";

/** When a pass begins and ends on the track's clock, in seconds from the routine's first count. */
export interface PassTimes {
  /** In counts from the routine's first count. */
  readonly at: number;
  readonly counts: number;
  readonly start: Fraction;
  /** End of its last count: earlier than its counts reach where the next section's own track time cuts in. */
  readonly end: Fraction;
  /** True where its start follows from a tempo that nobody has measured. */
  readonly startIsEstimate: boolean;
  readonly countsPerMinute: Fraction;
  readonly tempoIsEstimate: boolean;
}

export interface Clock {
  /** Where the routine's first count falls in the track, in seconds; absent where nobody said it. */
  readonly firstCount?: Fraction;
  /** One a pass, in danced order. */
  readonly passes: readonly PassTimes[];
}

const zero = new Fraction(0);

/** A section's tempo in counts a minute: its own or the music's, halved or doubled where it says so. */
function sectionTempo({ tempo, time }: Pick<Material, "tempo" | "time">, music: Pick<WrittenMusic, "tempo">): Fraction {
  const whole = tempo ?? music.tempo;
  if (time === "half") return whole.div(2);
  return time === "double" ? whole.mul(2) : whole;
}

/**
 * Puts the passes on the track's clock. A count lasts 60 / tempo seconds. A section's `at` moves its first count: a later
 * time leaves a wait, a time up to half a count earlier cuts the last count short, anything earlier is an error. Time without
 * counts lasts as long as it says; before the first count it lies before 0.
 */
export function runClock(routine: WrittenRoutine, passes: readonly Pass[], problems: Problems): Clock {
  const given = givenTrackTimes(routine, passes);
  const opening = Math.max(
    passes.findIndex(({ counts }) => counts > 0),
    0,
  );
  const lead = passes.slice(0, opening).map(({ material }) => material.seconds ?? zero);
  const firstCount = firstCountOf(routine, given, lead, problems);
  const times: PassTimes[] = [];
  let [start, startIsEstimate] = [leadStart(given, lead, firstCount), false];
  for (const [index, { at, counts, material }] of passes.entries()) {
    const countsPerMinute = sectionTempo(material, routine.music);
    const isCounted = material.seconds === undefined;
    const tempoIsEstimate = isCounted && (material.tempoIsEstimate ?? routine.music.tempoIsEstimate);
    const reach = start.add(material.seconds ?? countSeconds(countsPerMinute).mul(counts));
    const next = given[index + 1];
    if (next && firstCount === undefined) nothingToCountFrom(next.place, problems);
    const wanted = index + 1 === opening ? zero : firstCount && next?.seconds.sub(firstCount);
    const cut = wanted?.lt(reach) === true;
    const end = cut ? wanted : reach;
    times.push({ at, counts, start, end, startIsEstimate, countsPerMinute, tempoIsEstimate });
    if (cut && !isCounted) tooLong(routine, passes[index], reach.sub(wanted), problems);
    else if (next && cut && firstCount) cutShort(next, reach.add(firstCount), countsPerMinute, problems);
    // What the author heard is as exact as it is written.
    [start, startIsEstimate] = [wanted ?? reach, wanted === undefined && (startIsEstimate || tempoIsEstimate)];
  }
  return { passes: times, ...definedOnly<Clock>({ firstCount }) };
}

/** Where the run begins: as long before the first count as what is not counted lasts, or where the first `at` in it says. */
function leadStart(given: GivenTimes, lead: readonly Fraction[], firstCount: Fraction | undefined): Fraction {
  const placed = lead.findIndex((_, index) => given[index] !== undefined);
  const at = given[placed];
  if (at === undefined || firstCount === undefined) return total(lead).neg();
  return at.seconds.sub(firstCount).sub(total(lead.slice(0, placed)));
}

function total(lengths: readonly Fraction[]): Fraction {
  return lengths.reduce((sum, length) => sum.add(length), zero);
}

/** Time without counts into which the next section's track time, or the first count, falls. */
function tooLong(routine: WrittenRoutine, pass: Pass | undefined, by: Fraction, problems: Problems): void {
  const section = routine.sections[pass?.written ?? -1];
  const place = section?.place ?? routine.place;
  problems.error(
    "at",
    `${place}/seconds`,
    `this lasts ${seconds(by)} s longer than there is before the next section begins; write fewer \`seconds\`, or correct \`at\` or \`first-count\``,
  );
}

type GivenTime = WrittenSection["at"][number];
type GivenTimes = readonly (GivenTime | undefined)[];

/**
 * Where the routine's first count falls: the music's word, that of the section that it begins with, or as long after an `at`
 * before that as what is not counted lasts.
 *
 * @param lead how long everything lasts that lies before the first count
 */
function firstCountOf({ music }: WrittenRoutine, given: GivenTimes, lead: readonly Fraction[], problems: Problems) {
  const opening = given[lead.length];
  const placed = lead.findLastIndex((_, index) => given[index] !== undefined);
  const firstCount = music.firstCount ?? opening?.seconds ?? given[placed]?.seconds.add(total(lead.slice(placed)));
  if (opening !== undefined && firstCount !== undefined && !opening.seconds.equals(firstCount))
    problems.error(
      "at",
      opening.place,
      `the routine begins with this section, so its \`at\` and the music's \`first-count\` must be the same time; keep one of the two`,
    );
  return firstCount;
}

function nothingToCountFrom(place: Place, problems: Problems): void {
  problems.error(
    "at",
    place,
    "`at` is a time in the track, but nothing says where in the track the routine's first count falls; write that under `music`, such as `first-count: 0:14.2`, or take this `at` out",
  );
}

/** How a section's own track time meets the counts before it: as they arrive, after a wait, with a cut, or too early for that. */
export interface Meeting {
  readonly kind: "arrives" | "wait" | "cut" | "too-early";
  /** Seconds between the two. */
  readonly by: Fraction;
}

/**
 * @param reach where the counts arrive, in seconds
 * @param wanted where the section is to begin, from the same moment
 * @param countsPerMinute of the counts before it
 */
export function meetingOf(reach: Fraction, wanted: Fraction, countsPerMinute: Fraction): Meeting {
  const by = wanted.sub(reach).abs();
  if (by.equals(0)) return { kind: "arrives", by };
  if (wanted.gt(reach)) return { kind: "wait", by };
  return { kind: by.gt(countSeconds(countsPerMinute).div(2)) ? "too-early" : "cut", by };
}

/** A section's track time that comes before the counts have reached it. */
function cutShort(next: GivenTime, reach: Fraction, countsPerMinute: Fraction, problems: Problems): void {
  const { kind, by } = meetingOf(reach, next.seconds, countsPerMinute);
  const [counted, given] = [seconds(reach), seconds(next.seconds)];
  if (kind === "too-early")
    problems.error(
      "at",
      next.place,
      `the counts before this section reach ${counted} s into the track, but its \`at\` says ${given} s, more than half a count earlier; write a later time, or correct the tempo or \`first-count\``,
    );
  else
    problems.note(
      "re-sync",
      next.place,
      `the counts reach ${counted} s into the track and \`at\` says ${given} s: the last move before it is shortened by ${seconds(by)} s`,
    );
}

/** The track time that the file gives for each pass: only the first pass of a section in its time through can have one. */
function givenTrackTimes(routine: WrittenRoutine, passes: readonly Pass[]): GivenTimes {
  const danced = new Set<number>();
  return passes.map(({ written, wall, pass }) => {
    const first = !danced.has(written);
    danced.add(written);
    const given = pass === 1 ? (routine.sections[written]?.at ?? []) : [];
    return (
      given.find(({ time }) => time === wall) ?? (first ? given.find(({ time }) => time === undefined) : undefined)
    );
  });
}

function seconds(time: Fraction): string {
  return time.round(2).valueOf().toString();
}

/** Seconds that a count lasts at a tempo of so many counts a minute: 60 / tempo. */
export function countSeconds(countsPerMinute: Fraction): Fraction {
  return new Fraction(60).div(countsPerMinute);
}

/** Seconds at which a count of a section begins, from the routine's first count: its start + 60 × counts / tempo. */
export function countStart(
  { start, at, countsPerMinute }: Pick<PassTimes, "start" | "at" | "countsPerMinute">,
  count: number | Fraction,
): Fraction {
  return start.add(countSeconds(countsPerMinute).mul(new Fraction(count).sub(at)));
}

/** The place in the track of a moment given in seconds from the routine's first count; none where nobody said where that falls. */
export function trackTime({ music }: WithFirstCount, seconds: Fraction): Fraction | undefined {
  return music.firstCount?.add(seconds);
}

interface WithFirstCount {
  readonly music: Pick<Music, "firstCount">;
}

/** A time as it is shown to people. */
export interface ShownTime {
  readonly seconds: Fraction | number;
  /** True where it follows from a tempo that nobody has measured. */
  readonly secondsAreEstimate: boolean;
}

/**
 * How long a run takes for those who dance it: also what has no counts and comes before the first one or after the last, as long at
 * any speed.
 *
 * @param timed the routine itself, or one of its practice speeds
 */
export function wholeRun(routine: Run & Clocked, timed: Run = routine): Run {
  const { seconds, secondsAreEstimate } = timed;
  const { sections } = routine;
  const [begins, ends] = [sections[0]?.start ?? zero, sections.at(-1)?.end ?? routine.seconds];
  return { seconds: seconds.sub(begins).add(ends.sub(routine.seconds)), secondsAreEstimate };
}

interface Clocked {
  readonly sections: readonly Pick<DancedSection, "start" | "end">[];
}

/** A run from its first count to its last. */
interface Run {
  readonly seconds: Fraction;
  readonly secondsAreEstimate: boolean;
}

/** Where the routine's first count falls, as exact as it is written. */
export function shownFirstCount({ music: { firstCount } }: WithFirstCount): ShownTime | undefined {
  return firstCount && { seconds: firstCount, secondsAreEstimate: false };
}

/** The place in the track of a moment, with word of how far it can be relied on. */
export function shownTrackTime(
  routine: WithFirstCount & { readonly sections: readonly DancedSection[] },
  seconds: Fraction,
): ShownTime | undefined {
  const time = trackTime(routine, seconds);
  // Before the track begins there is no place in it.
  if (time === undefined || time.lt(0)) return undefined;
  const section = sectionAt(routine.sections, seconds);
  const inside = section?.tempoIsEstimate === true && seconds.gt(section.start);
  return { seconds: time, secondsAreEstimate: section?.startIsEstimate === true || inside };
}

/** Time without counts, in seconds from the routine's first count. */
type Uncounted = Pick<PassTimes, "start" | "end">;

/** The times without counts of a run. */
export function uncountedIn(sections: readonly DancedSection[]): readonly Uncounted[] {
  return sections.filter((section) => section.seconds !== undefined);
}

/**
 * When a moment comes if the counts go at another speed, in seconds from the first count: time without counts goes on as the
 * clock does.
 *
 * @param moment seconds at full tempo from the routine's first count
 * @param percent of the tempo
 */
export function practised(uncounted: readonly Uncounted[], moment: Fraction, percent: number): Fraction {
  const still = uncounted.reduce((sum, { start, end }) => {
    if (start.lt(0) || moment.lte(start)) return sum;
    return sum.add((moment.lt(end) ? moment : end).sub(start));
  }, zero);
  return moment.sub(still).mul(100).div(percent).add(still);
}

/** The section that a moment lies in, the last one at the end: they stand in the order of their starts. */
function sectionAt(sections: readonly DancedSection[], seconds: Fraction): DancedSection | undefined {
  let [low, high] = [0, sections.length];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (sections[middle]?.start.lte(seconds)) low = middle + 1;
    else high = middle;
  }
  return sections[low - 1];
}

/** Seconds at which a count position begins: where a wait lies before it, the moment after the wait. */
export function beginAt(clock: Clock, section: number, at: Fraction): Fraction {
  const times = clock.passes[section];
  return times === undefined ? zero : countStart(times, at);
}

/** Seconds at which something that ends on a count position ends: a move that ends a section ends before any wait. */
export function endAt(clock: Clock, section: number, at: Fraction): Fraction {
  for (let index = section; index < clock.passes.length; index++) {
    const pass = clock.passes[index];
    if (pass === undefined) break;
    const reach = at.compare(pass.at + pass.counts);
    if (reach === 0) return pass.end;
    if (reach < 0) return beginAt(clock, index, at);
  }
  return clock.passes.at(-1)?.end ?? zero;
}
