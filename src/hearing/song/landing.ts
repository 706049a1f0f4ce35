import Fraction from "fraction.js";
import { countSeconds, type Meeting, meetingOf } from "../../routine/clock.js";
import type { Grid } from "./types.js";

/** A section as it is danced. */
export interface LandingSection {
  /** Which section of the file, from 0. */
  readonly written: number;
  /** Which time through, and which of its repeats, from 1. */
  readonly wall: number;
  readonly pass: number;
  /** 0 of time without counts, which lasts `seconds`. */
  readonly counts: number;
  readonly seconds?: number;
  readonly countsPerMinute: number;
  /** The track time that the file gives it now. */
  readonly at?: number;
}

/** A moment at which somebody heard a section begin. */
export interface Mark {
  /** Index into the sections as danced. */
  readonly section: number;
  /** Seconds from the start of the track. */
  readonly at: number;
}

/** Where a section begins in the track, and what follows from it. In seconds. */
export interface Landing {
  readonly section: number;
  /** Where the counts before it arrive. */
  readonly arrives: number;
  /** Where it begins in the end. */
  readonly begins: number;
  /** What the section before it gets for that: nothing, a wait, the end of its last move cut; `too-early` is more than can be cut. */
  readonly follows: Meeting["kind"];
  /** How long that is. */
  readonly by: number;
  /** What the mark said, where there was one. */
  readonly mark?: {
    readonly at: number;
    /** The count nearest to it, from where the counts arrive: 0 is there, 2 two counts later. */
    readonly count: number;
    /** How long after that count it came; negative where before. */
    readonly off: number;
    /** False where it lay too far from any count to be meant for one: then it holds as it was heard. */
    readonly snapped: boolean;
  };
  /** The track time that the file has to give; absent where the counts arrive by themselves. */
  readonly at?: number;
  /** True where it has to and can't: a repeat of a section has no track time of its own. */
  readonly unwritable?: true;
}

/** A part of a count, and seconds: a hand that marks what it hears is not further off (*common practice, no source*). */
const [nearPart, nearSeconds] = [0.25, 0.15];

/**
 * Where each section begins: where the counts arrive, at its mark, or at the track time that the file gives it. A mark snaps to the nearest of
 * the counts that run on at the tempo of the section before.
 *
 * @param sections in danced order
 * @param grid the routine's first count; the sections have their own tempos
 */
export function landingsOf(
  sections: readonly LandingSection[],
  grid: Pick<Grid, "firstCount">,
  marks: readonly Mark[],
): readonly Landing[] {
  const opening = sections.findIndex(({ counts }) => counts > 0);
  if (opening < 0) return [];
  const landings: Landing[] = [];
  let reach = milliseconds(grid.firstCount);
  for (const [index, section] of sections.entries()) {
    if (index < opening) continue;
    const mark = marks.findLast((one) => one.section === index);
    const before = sections[index - 1];
    const landing =
      index === opening
        ? atFirstCount(index, reach, section, mark)
        : landingOf({ index, section, before, reach, ...(mark && { mark }) });
    landings.push(landing);
    const begins = landing.at ?? (landing.follows === "arrives" ? undefined : landing.begins);
    reach = (begins === undefined ? reach : milliseconds(begins)).add(lengthOf(section));
  }
  return landings;
}

function lengthOf({ counts, seconds, countsPerMinute }: LandingSection): Fraction {
  return seconds === undefined ? periodOf({ countsPerMinute }).mul(counts) : milliseconds(seconds);
}

/** Of a tempo as a routine file writes it, to the hundredth at most. */
function periodOf({ countsPerMinute }: Pick<LandingSection, "countsPerMinute">): Fraction {
  return countSeconds(new Fraction(countsPerMinute));
}

/** As it is written in a file. */
function milliseconds(seconds: number): Fraction {
  return new Fraction(Math.round(seconds * 1000), 1000);
}

/** The first section begins on the first count; its mark tells how far off that is. */
function atFirstCount(section: number, reach: Fraction, { countsPerMinute }: LandingSection, mark?: Mark): Landing {
  const begins = reach.valueOf();
  const heard = mark && { at: mark.at, ...nearest(mark.at, reach, periodOf({ countsPerMinute })) };
  return { section, arrives: begins, begins, follows: "arrives", by: 0, ...(heard && { mark: heard }) };
}

interface Meets {
  readonly index: number;
  readonly section: LandingSection;
  readonly before: LandingSection | undefined;
  /** Where the counts before it arrive. */
  readonly reach: Fraction;
  readonly mark?: Mark;
}

function landingOf({ index, section, before, reach, mark }: Meets): Landing {
  const tempo = before?.counts ? before.countsPerMinute : section.countsPerMinute;
  const period = periodOf({ countsPerMinute: tempo });
  const heard = mark && { at: mark.at, ...nearest(mark.at, reach, period, before?.counts !== 0) };
  const arrives = reach.valueOf();
  const wanted = wantedBy(section, reach, period, heard);
  const canWrite = section.pass === 1;
  const { kind, by } = wanted === undefined || !canWrite ? arrival : meetingOf(reach, wanted, new Fraction(tempo));
  return {
    section: index,
    arrives,
    begins: kind === "arrives" ? arrives : (wanted?.valueOf() ?? arrives),
    follows: kind,
    by: by.valueOf(),
    ...(heard && { mark: heard }),
    ...(kind !== "arrives" && wanted && { at: wanted.valueOf() }),
    ...(wanted && !wanted.equals(reach) && !canWrite && { unwritable: true as const }),
  };
}

const arrival: Meeting = { kind: "arrives", by: new Fraction(0) };

type Heard = NonNullable<Landing["mark"]>;

/** Where a section is to begin: at its mark, or where the file says; nothing where nobody said. */
function wantedBy({ at }: LandingSection, reach: Fraction, period: Fraction, heard: Heard | undefined) {
  if (heard === undefined) return at === undefined ? undefined : milliseconds(at);
  if (!heard.snapped) return milliseconds(heard.at);
  return heard.count === 0 ? reach : milliseconds(reach.add(period.mul(heard.count)).valueOf());
}

/** @param counted whether counts run on before it: after time without counts there is nothing to snap to */
function nearest(at: number, reach: Fraction, period: Fraction, counted = true): Omit<Heard, "at"> {
  const [from, length] = [reach.valueOf(), period.valueOf()];
  // Never -0.
  const count = Math.round((at - from) / length) + 0;
  const off = at - from - count * length;
  return { count, off, snapped: counted && Math.abs(off) <= Math.min(nearSeconds, nearPart * length) };
}

/** A section's track times as its `at` has them: one for its first time, or one for each time through. */
export interface AtLine {
  /** Which section of the file, from 0. */
  readonly written: number;
  readonly at: number | Readonly<Record<number, number>>;
}

/** The `at` that each section of the file needs; a section that is not named needs none. */
export function atLines(sections: readonly LandingSection[], landings: readonly Landing[]): readonly AtLine[] {
  const firstWall = new Map<number, number>();
  const times = new Map<number, Record<number, number>>();
  for (const { written, wall } of sections) if (!firstWall.has(written)) firstWall.set(written, wall);
  for (const { section, at } of landings) {
    const danced = sections[section];
    if (danced === undefined || at === undefined) continue;
    times.set(danced.written, { ...times.get(danced.written), [danced.wall]: at });
  }
  return [...times].map(([written, byWall]) => {
    const [first, ...others] = Object.entries(byWall);
    const plain = first !== undefined && others.length === 0 && Number(first[0]) === firstWall.get(written);
    return { written, at: plain ? first[1] : byWall };
  });
}
