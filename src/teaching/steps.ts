import Fraction from "fraction.js";
import { moveEnd } from "../routine/chart.js";
import type { Move } from "../routine/routine.js";
import { loadsOf } from "./dancers.js";
import { plain, type RatedMove } from "./difficulty.js";
import type { DancedKind } from "./kinds.js";
import type { GroupLoads } from "./load.js";
import {
  type Chunk,
  countsTake,
  joined,
  type Material,
  type Passage,
  type Recap,
  type RoutinePart,
} from "./material.js";
import { asMarked, isNeverSlowed } from "./never-slowed.js";
import type { ClassSettings } from "./settings.js";

/** Something that a class may do, once or several times over. */
export interface Step {
  readonly kind: DancedKind;
  /** Index of the part that it belongs to. */
  readonly part: number;
  /** Steps of one block stay together: no water between them. */
  readonly block: number;
  /** The routine's slug. */
  readonly routine: string;
  /** Indexes of the chunks that it dances. */
  readonly chunks: readonly number[];
  /** Per cent of the tempo. */
  readonly speed: number;
  /** Runs that teaching asks for, and that are worth having. */
  readonly least: number;
  readonly most: number;
  /** Seconds beside the runs. */
  readonly once: Fraction;
  /** Seconds of a run, count-in and the way back to the place included. */
  readonly each: Fraction;
  /** Load of a run, group by group. */
  readonly loads: GroupLoads;
  /** The same of a run without what is never slowed. */
  readonly spared: GroupLoads;
  /** Runs that stay at the taught level, whatever limit is set: nobody meets a move for the first time at full tempo. */
  readonly kept: number;
  /** Pieces of the routine that are danced one after the other, what is between left out. */
  readonly pieces: number;
  /** Of a detail: the moves that are taken on their own. */
  readonly moves: readonly RatedMove[];
}

/** Seconds of a step with so many runs, in whole units. */
export function secondsOf(step: Step, runs: number, settings: ClassSettings): number {
  return runs === 0 ? 0 : inUnits(step.once.add(step.each.mul(runs)), settings);
}

export function inUnits(seconds: Fraction, settings: ClassSettings): number {
  return seconds.div(settings.unit).ceil().valueOf() * settings.unit;
}

/** A count-in and a passage at a speed, and the way back to the place. */
export function runSeconds(passage: Passage, speed: number, settings: ClassSettings): Fraction {
  const { countIn, seconds, uncounted } = passage;
  return countIn.add(seconds).sub(uncounted).mul(100).div(speed).add(uncounted).add(settings.again);
}

/** Seconds of explaining, to the hundredth: points are a rule of thumb and no exact figure. */
export function explaining(points: number, settings: ClassSettings): Fraction {
  return new Fraction(Math.round(settings.explain * points * 100), 100);
}

/**
 * Teaches one chunk: show, mark, the hard moves alone, drill at rising speeds, link. What is the dancers' own is explained as it is shown.
 *
 * @param replaced hard moves that are not taken on their own
 */
export function chunkSteps(
  material: Material,
  index: number,
  link: number | undefined,
  place: PlaceInClass,
  settings: ClassSettings,
  replaced: ReadonlySet<RatedMove> = new Set(),
): readonly Step[] {
  const chunk = material.chunks[index];
  if (!chunk) return [];
  const make = maker(settings, place);
  const fresh = chunk.moves.some((move) => move.known !== "yes");
  const before = link === undefined ? undefined : material.chunks[link];
  const hard = hardMoves(chunk, settings).filter((move) => !replaced.has(move));
  const atTempo = chunk.moves.filter((one) => isNeverSlowed(one.move) && one.known === "no" && !one.move.improvised);
  const show = { loads: chunk.loads.map(() => ({ easiest: {}, taught: {} })) };
  if (chunk.improvised) return [make("show", chunk, [index], { ...show, once: explaining(chunk.points, settings) })];
  const steps = [
    make("show", chunk, [index], show),
    make("mark", chunk, [index], {
      speed: settings.markSpeed,
      once: explaining(chunk.points, settings),
      kept: 1,
      ...(!fresh && { least: 0 }),
    }),
  ];
  if (hard.length > 0)
    steps.push(
      make("detail", alone(chunk, hard), [index], {
        speed: settings.markSpeed,
        once: explaining(pointsOf(hard), settings),
        moves: hard,
      }),
    );
  settings.drillSpeeds.forEach((speed, order) => {
    if (speed === 100 && atTempo.length > 0)
      steps.push(
        make("detail", alone(chunk, atTempo), [index], {
          ...{ least: 1, most: 1, kept: 1, moves: atTempo },
          once: explaining(pointsOf(atTempo), settings),
        }),
      );
    const full = order === settings.drillSpeeds.length - 1;
    const needed = full || (order === 0 && fresh && chunk.counts >= chunk.routine.music.phrase);
    steps.push(make("drill", chunk, [index], { speed, ...(!needed && { least: 0 }), kept: full ? 1 : 0 }));
  });
  if (before && link !== undefined)
    steps.push(make("link", joined(before, chunk), [link, index], { speed: settings.linkSpeed }));
  return steps;
}

/** What is known of a routine, before anything new of it: slowly, and at full tempo. */
export function recapSteps(recap: Recap, place: PlaceInClass, settings: ClassSettings): readonly Step[] {
  const make = maker(settings, place);
  const once = new Fraction(settings.overhead.recap);
  return [
    make("recap", recap, recap.chunks, { speed: settings.linkSpeed }),
    make("recap", recap, recap.chunks, { once: once.neg() }),
  ];
}

/** After a part: from the top up to its end; asked for where the class goes no further in this routine. */
export function topSteps(
  part: RoutinePart,
  ending: boolean,
  place: PlaceInClass,
  settings: ClassSettings,
): readonly Step[] {
  const { fromTheTop } = part;
  if (fromTheTop.chunks.length < 2) return [];
  const make = maker(settings, place);
  return [
    make("from-the-top", fromTheTop, fromTheTop.chunks, { speed: settings.linkSpeed, least: 0 }),
    make("from-the-top", fromTheTop, fromTheTop.chunks, { ...(!ending && { least: 0 }) }),
  ];
}

/** The end of a routine in this class: with the song, without the mirror, on the other side, in groups. */
export function finishSteps(part: RoutinePart, place: PlaceInClass, settings: ClassSettings): readonly Step[] {
  const make = maker(settings, place);
  const { withSong, fromTheTop, routine } = part;
  const song = songSeconds(part, settings);
  const { pieces } = withSong;
  return [
    make("run-through", withSong, withSong.chunks, { each: song, kept: 1, pieces }),
    make("away-from-mirror", fromTheTop, fromTheTop.chunks, {}),
    // A routine that starts in several directions has its other sides already.
    ...(routine.walls === 1 ? [make("mirrored", fromTheTop, fromTheTop.chunks, { speed: settings.linkSpeed })] : []),
    make("groups", withSong, withSong.chunks, { each: song.mul(settings.groups), pieces }),
  ];
}

/** Each routine once more at the end of a class that has taught several. */
export function onceMoreStep(part: RoutinePart, place: PlaceInClass, settings: ClassSettings, least = 0): Step {
  const { withSong } = part;
  const { pieces } = withSong;
  return maker(settings, place)("run-through", withSong, withSong.chunks, {
    ...{ pieces, each: songSeconds(part, settings), least, most: Math.min(1, settings.most["run-through"]) },
  });
}

/** The song from shortly before the first count, to the end of what is taught. */
function songSeconds(part: RoutinePart, settings: ClassSettings): Fraction {
  const { firstCount } = part.routine.music;
  const { countIn, seconds } = part.withSong;
  const [opening] = part.routine.sections;
  // Time without counts before the first one is danced through already.
  const before = firstCount?.add(opening?.seconds === undefined ? 0 : opening.start) ?? countIn;
  const listening = before.gt(settings.leadIn) ? new Fraction(settings.leadIn) : before;
  return (listening.gt(countIn) ? listening : countIn).add(seconds).add(settings.again);
}

/** Where in the class a step stands. */
type PlaceInClass = Pick<Step, "part" | "block" | "routine">;

interface Particulars {
  readonly speed?: number;
  readonly least?: number;
  readonly most?: number;
  /** Seconds beside the usual overhead. */
  readonly once?: Fraction;
  readonly each?: Fraction;
  readonly loads?: GroupLoads;
  readonly kept?: number;
  readonly pieces?: number;
  readonly moves?: readonly RatedMove[];
}

function maker(settings: ClassSettings, place: PlaceInClass) {
  return (kind: DancedKind, passage: Passage, chunks: readonly number[], particulars: Particulars): Step => {
    const speed = particulars.speed ?? 100;
    const least = particulars.least ?? settings.least[kind];
    return {
      ...{ kind, ...place, chunks, speed, least },
      most: Math.max(least, particulars.most ?? settings.most[kind]),
      once: new Fraction(settings.overhead[kind]).add(particulars.once ?? 0),
      each: particulars.each ?? runSeconds(passage, speed, settings),
      loads: particulars.loads ?? (speed < 100 ? passage.slowLoads : passage.loads),
      spared: particulars.loads ?? passage.slowLoads,
      kept: particulars.kept ?? 0,
      pieces: particulars.pieces ?? 1,
      moves: particulars.moves ?? [],
    };
  };
}

function pointsOf(moves: readonly RatedMove[]): number {
  return moves.reduce((sum, { points }) => sum + points, 0);
}

/** At most three new moves of a chunk that cost half as much again as a plain one, or more: the hardest first. */
function hardMoves(chunk: Chunk, settings: ClassSettings): readonly RatedMove[] {
  return chunk.moves
    .filter(({ move }) => !move.improvised && !isNeverSlowed(move))
    .filter((move) => move.known === "no" && move.points >= 1.5 * settings.points.move)
    .toSorted((a, b) => b.points - a.points)
    .slice(0, 3);
}

/** The hard moves one by one, each with a count-in of its own. */
function alone(chunk: Chunk, hard: readonly RatedMove[]): Passage {
  const counts = hard.reduce((sum, { move }) => sum.add(move.length), new Fraction(0));
  return {
    seconds: countsTake(counts, chunk.section),
    uncounted: new Fraction(0),
    countIn: chunk.countIn.mul(hard.length),
    loads: loadsOf(dancingAlone(chunk, hard)),
    slowLoads: loadsOf(asMarked(dancingAlone(chunk, hard))),
  };
}

/** What each group dances where only some moves of a chunk are taken. */
export function dancingAlone({ dancers }: Chunk, hard: readonly RatedMove[]): Chunk["dancers"] {
  return dancers.map(({ taught: all, easiest, ...group }) => {
    const taught = hard.flatMap((one) => asDanced(one, all) ?? []);
    const meanwhile = easiest.filter(({ at }) => taught.some((each) => at.gte(each.at) && at.lt(moveEnd(each))));
    return { ...group, taught, easiest: meanwhile };
  });
}

/** Of a detail: the moves that nobody dances whose runs are all in the easiest option. */
export function replacedIn(step: Step, material: Material): readonly RatedMove[] {
  const dancers = step.chunks.flatMap((index) => material.chunks[index]?.dancers ?? []);
  return step.moves.filter((one) =>
    dancers.every(({ taught, easiest }) => {
      const danced = asDanced(one, taught);
      return danced === undefined || easiest.every(({ place }) => place !== danced.place);
    }),
  );
}

/** A move as one group dances it: with the same words, or on the other side; nothing where it does not. */
function asDanced({ move }: RatedMove, moves: readonly Move[]): Move | undefined {
  const called = (text: string) => moves.find(({ cue }) => plain(cue.text) === plain(text));
  return called(move.cue.text) ?? called(move.mirroredCue.text);
}
