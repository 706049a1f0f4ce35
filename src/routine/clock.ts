import Fraction from "fraction.js";
import type { Material } from "./material.js";
import type { Pass } from "./order.js";
import type { Problems } from "./problems.js";
import type { WrittenMusic, WrittenRoutine } from "./written.js";

/** When a pass begins and ends on the track's clock, in seconds from the routine's first count. */
export interface PassTimes {
  /** In counts from the routine's first count. */
  readonly at: number;
  readonly counts: number;
  readonly start: Fraction;
  /** End of its last count: earlier than its counts reach where the next section's own track time cuts in. */
  readonly end: Fraction;
  readonly countsPerMinute: Fraction;
}

export interface Clock {
  /** Where the routine's first count falls in the track, in seconds. */
  readonly firstCount: Fraction;
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
 * time leaves a wait, a time up to half a count earlier cuts the last count short, anything earlier is an error.
 */
export function runClock(routine: WrittenRoutine, passes: readonly Pass[], problems: Problems): Clock {
  const firstDanced = new Map<number, number>();
  for (const [index, pass] of passes.entries())
    if (!firstDanced.has(pass.written)) firstDanced.set(pass.written, index);
  const trackTimeOf = (index: number) => givenTrackTime(routine, passes[index], firstDanced, index);

  const opening = trackTimeOf(0);
  const firstCount = routine.music.firstCount ?? opening?.seconds ?? zero;
  if (opening !== undefined && !opening.seconds.equals(firstCount))
    problems.error(
      "at",
      opening.place,
      `the routine begins with this section, so its \`at\` and the music's \`first-count\` must be the same time; keep one of the two`,
    );

  const times: PassTimes[] = [];
  let start = zero;
  for (const [index, pass] of passes.entries()) {
    const countsPerMinute = sectionTempo(pass.material, routine.music);
    const reach = start.add(new Fraction(60 * pass.counts).div(countsPerMinute));
    const next = trackTimeOf(index + 1);
    const wanted = next?.seconds.sub(firstCount);
    const cut = wanted?.lt(reach) === true;
    times.push({ at: pass.at, counts: pass.counts, start, end: cut && wanted ? wanted : reach, countsPerMinute });
    if (next !== undefined && cut && wanted) {
      const early = reach.sub(wanted);
      const [counted, given] = [seconds(reach.add(firstCount)), seconds(next.seconds)];
      if (early.gt(new Fraction(30).div(countsPerMinute)))
        problems.error(
          "at",
          next.place,
          `the counts before this section reach ${counted} s into the track, but its \`at\` says ${given} s, more than half a count earlier; write a later time, or correct the tempo or \`first-count\``,
        );
      else
        problems.note(
          "re-sync",
          next.place,
          `the counts reach ${counted} s into the track and \`at\` says ${given} s: the last move before it is shortened by ${seconds(early)} s`,
        );
    }
    start = wanted ?? reach;
  }
  return { firstCount, passes: times };
}

/** The track time that the file gives for a pass: only the first pass of a section in its time through can have one. */
function givenTrackTime(
  routine: WrittenRoutine,
  pass: Pass | undefined,
  firstDanced: ReadonlyMap<number, number>,
  index: number,
) {
  if (pass === undefined || pass.pass !== 1) return undefined;
  const given = routine.sections[pass.written]?.at ?? [];
  const forTime = given.find(({ time }) => time === pass.wall);
  return (
    forTime ?? (firstDanced.get(pass.written) === index ? given.find(({ time }) => time === undefined) : undefined)
  );
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

/** The place in the track of a moment given in seconds from the routine's first count. */
export function trackTime(
  { music }: { readonly music: { readonly firstCount: Fraction } },
  seconds: Fraction,
): Fraction {
  return music.firstCount.add(seconds);
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
