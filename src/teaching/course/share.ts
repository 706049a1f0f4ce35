import { type Load, loadParts } from "../load.js";
import { dueIn } from "./recall.js";

/** What a course teaches in one go, in the order in which it can be taught. */
export interface Unit {
  /** What there is to learn in it. */
  readonly points: number;
  /** In how many goes it is taught: each takes its time, however little there is to learn in it. */
  readonly goes?: number;
  /** Of dancing it once. */
  readonly load: Load;
}

/** What a lesson is for: units by their numbers, the first `from` of which are known when it begins. */
export interface Aim {
  /** Units from `from` up to, not including, `to` are new. */
  readonly from: number;
  readonly to: number;
  /** Known units that are danced on their own again. */
  readonly recalled: readonly number[];
}

/** Seconds of the least that a lesson with this aim takes, its run of all that is known by then included. It never falls with a larger `to`. */
export type Price = (aim: Aim) => number;

export interface Lesson extends Aim {
  /** What is due for recalling, and danced in the run at the end alone, since there is no time for more. */
  readonly inRun: readonly number[];
}

/** A course shared out over its lessons. */
export interface Share {
  readonly lessons: readonly Lesson[];
  /** How many units are known at its end. */
  readonly reached: number;
  /** Lessons that all of it would take; absent where no number of them is enough. */
  readonly needed?: number;
}

export interface Course {
  readonly units: readonly Unit[];
  /** How many of them, the first, are known before the course. */
  readonly known: number;
  readonly lessons: number;
  /** For teaching, in a lesson. */
  readonly seconds: number;
  readonly price: Price;
}

/** A course of so many lessons keeps the last one free of anything new, where the others hold it (common practice, no source). */
const finaleFrom = 4;
/** How often the sharing is tried again with more room for what is due. */
const rounds = 4;

/**
 * Shares a course out: in order, each unit once, as much as fits; new material and load as even as can be over the lessons that
 * teach, and what is due for recalling wherever there is time for it.
 */
export function shareOut(course: Course): Share {
  const { units, lessons, seconds } = course;
  const ends = fullest(course);
  const reached = ends[Math.min(lessons, ends.length) - 1] ?? course.known;
  const all = ends.at(-1) ?? course.known;
  const needed = all === units.length ? { needed: Math.max(1, ends.length) } : {};
  const free = lessons >= finaleFrom && (ends[Math.min(lessons - 1, ends.length) - 1] ?? course.known) === reached;

  let room = Array.from({ length: free ? lessons - 1 : lessons }, () => seconds);
  let best: readonly Lesson[] | undefined;
  for (let round = 0; round < rounds; round++) {
    const cuts = evenest(course, reached, room);
    if (cuts === undefined) break;
    const shared = withRecalls(course, free ? [...cuts, reached] : cuts);
    if (best === undefined || squeezed(shared) < squeezed(best)) best = shared;
    if (squeezed(best) === 0) break;
    room = room.map((now, index) => Math.min(now, roomIn(course, shared[index])));
  }
  return { lessons: best ?? [], reached, ...needed };
}

const squeezed = (lessons: readonly Lesson[]): number => lessons.reduce((sum, { inRun }) => sum + inRun.length, 0);

/** What is left for new things in a lesson that dances on its own all that is due. */
function roomIn({ price, seconds }: Course, lesson: Lesson | undefined): number {
  if (lesson === undefined) return seconds;
  const { from, to, recalled, inRun } = lesson;
  return seconds - price({ from, to, recalled: [...recalled, ...inRun] }) + price({ from, to, recalled: [] });
}

/** How far each lesson comes where each is as full as it gets, for as many lessons as it takes, or as come any further. */
function fullest({ units, known, seconds, price }: Course): readonly number[] {
  const ends: number[] = [];
  for (let from = known; from < units.length; ) {
    let to = from;
    while (to < units.length && price({ from, to: to + 1, recalled: [] }) <= seconds) to++;
    if (to === from) break;
    ends.push(to);
    from = to;
  }
  return ends;
}

/**
 * How far each lesson comes where the squares of the lessons' shares are least: of all points, of all goes of teaching, and of all contacts of each part
 * of the body, these on an average of the parts. Of several ways, the one that teaches earlier.
 *
 * @param room seconds that each lesson has
 */
function evenest(course: Course, reached: number, room: readonly number[]): readonly number[] | undefined {
  const { known, price } = course;
  const squares = squaredShares(course.units.slice(0, reached), known);
  const fits = (from: number, to: number, seconds: number) =>
    from === to || price({ from, to, recalled: [] }) <= seconds;
  /* From the last lesson back: for each place from which a lesson may go on, the least that is still to come, and where it ends then. */
  let rest = (from: number) => (from === reached ? 0 : Number.POSITIVE_INFINITY);
  const ways = room
    .toReversed()
    .map((seconds) => {
      const later = rest;
      const row = Array.from({ length: reached + 1 }, (_, from) => {
        let best = { cost: Number.POSITIVE_INFINITY, to: from };
        for (let to = from; to <= reached && fits(from, to, seconds); to++) {
          const cost = squares(from, to) + later(to);
          if (cost <= best.cost + alike) best = { cost, to };
        }
        return best;
      });
      rest = (from) => row[from]?.cost ?? Number.POSITIVE_INFINITY;
      return row;
    })
    .toReversed();
  if (rest(known) === Number.POSITIVE_INFINITY) return undefined;
  let at = known;
  return ways.map((row) => {
    at = row[at]?.to ?? at;
    return at;
  });
}

/** Two figures that differ by less were meant to be the same. */
const alike = 1e-12;

/** The sum of squares of what a lesson has of everything, for every choice of its first and last unit. */
export function squaredShares(units: readonly Unit[], known: number): (from: number, to: number) => number {
  const fresh = units.map(({ points, goes = 0, load }, index) =>
    [points, goes, ...loadParts.map((part) => load[part] ?? 0)].map((amount) => (index < known ? 0 : amount)),
  );
  const sums = (fresh[0] ?? []).map((_, of) => {
    let sum = 0;
    return [0, ...fresh.map((amounts) => (sum += amounts[of] ?? 0))];
  });
  const shares = sums.map((of) => {
    const all = of.at(-1) ?? 0;
    return (from: number, to: number) => (all === 0 ? 0 : ((of[to] ?? 0) - (of[from] ?? 0)) / all);
  });
  const [points, goes, ...loads] = shares;
  const loaded = Math.max(1, sums.slice(2).filter((of) => of.at(-1) !== 0).length);
  return (from, to) =>
    (points?.(from, to) ?? 0) ** 2 +
    (goes?.(from, to) ?? 0) ** 2 +
    loads.reduce((sum, share) => sum + share(from, to) ** 2, 0) / loaded;
}

/** The lessons with what each recalls: what is due, as far as there is time. */
function withRecalls({ units, known, seconds, price }: Course, ends: readonly number[]): readonly Lesson[] {
  const taughtIn = units.map((_, unit): number | undefined => (unit < known ? 0 : undefined));
  let from = known;
  return ends.map((to, index) => {
    const [recalled, inRun]: [number[], number[]] = [[], []];
    for (const unit of dueIn(index + 1, taughtIn)) {
      const fits = price({ from, to, recalled: [...recalled, unit] }) <= seconds;
      (fits ? recalled : inRun).push(unit);
    }
    taughtIn.fill(index + 1, from, to);
    const lesson = { from, to, recalled, inRun };
    from = to;
    return lesson;
  });
}
