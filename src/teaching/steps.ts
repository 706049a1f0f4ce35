import type { TimesThrough } from "../routine/times-through.js";
import type { RatedMove } from "./difficulty.js";
import type { DancedKind } from "./kinds.js";
import type { GroupLoads } from "./load.js";
import type { Passage, PieceEntry, SongCue } from "./material.js";
import type { ShownOption } from "./options.js";
import type { ClassSettings } from "./settings.js";

/** Something that a class may do, once or several times over. */
export interface Step {
  readonly kind: DancedKind;
  /** Index of the part that it belongs to. */
  readonly part: number;
  /** Steps of one block are one activity: no water between them. */
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
  readonly once: number;
  /** Seconds of a run, count-in and the way back to the place included. */
  readonly each: number;
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
  /** Of options: what is shown. */
  readonly options: readonly ShownOption[];
  /** Which times through of its routine it dances; empty of what is danced as it is taught, part by part. */
  readonly times: readonly number[];
  /** Explained before the song: how the times through differ. */
  readonly form?: TimesThrough;
  /** Of a recap: where it does not go on from what is danced before. */
  readonly entries?: readonly PieceEntry[];
  /** With the song: where in it the pieces begin that do not begin with the dance. */
  readonly cues: readonly SongCue[];
}

/** Where in the class a step stands. */
export type PlaceInClass = Pick<Step, "part" | "block" | "routine">;

/** What a step has that is not usual for its kind. */
export interface Particulars
  extends Partial<
    Pick<
      Step,
      | "speed"
      | "least"
      | "most"
      | "each"
      | "loads"
      | "kept"
      | "pieces"
      | "moves"
      | "options"
      | "times"
      | "form"
      | "entries"
      | "cues"
    >
  > {
  /** Seconds beside the usual overhead. */
  readonly once?: number;
}

export function maker(settings: ClassSettings, place: PlaceInClass) {
  return (kind: DancedKind, passage: Passage, chunks: readonly number[], particulars: Particulars = {}): Step => {
    const { once = 0, speed = 100, least = settings.least[kind], most = settings.most[kind], ...more } = particulars;
    return {
      ...{ kind, ...place, chunks, speed, least },
      most: Math.max(least, most),
      once: settings.overhead[kind] + once,
      each: runSeconds(passage, speed, settings),
      loads: speed < 100 ? passage.slowLoads : passage.loads,
      spared: more.loads ?? passage.slowLoads,
      ...{ kept: 0, pieces: 1, moves: [], options: [], times: [], cues: [] },
      ...more,
    };
  };
}

/** Seconds that a step takes with so many runs. */
export function secondsOf({ once, each }: Step, runs: number): number {
  return runs === 0 ? 0 : once + each * runs;
}

/** Seconds in whole units; sums of seconds are as exact as numbers are. */
export function inUnits(seconds: number, { unit }: ClassSettings): number {
  return Math.ceil(seconds / unit - 1e-6) * unit;
}

/** A count-in and a passage at a speed, and the way back to the place. */
export function runSeconds(passage: Passage, speed: number, settings: ClassSettings): number {
  const [countIn, seconds] = [passage.countIn.valueOf(), passage.seconds.valueOf()];
  const uncounted = passage.uncounted.valueOf();
  return ((countIn + seconds - uncounted) * 100) / speed + uncounted + settings.again;
}

/** Seconds of explaining: points are a rule of thumb and no exact figure. */
export function explaining(points: number, settings: ClassSettings): number {
  return Math.round(settings.explain * points * 100) / 100;
}

/** No load at all, for as many groups as some loads are of. */
export function unloaded(loads: GroupLoads): GroupLoads {
  return loads.map(() => ({ easiest: {}, taught: {} }));
}
