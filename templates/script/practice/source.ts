import type { Practice } from "./schedule.js";

/** Where a practice has got to. */
export interface Where {
  /** Seconds at full tempo from the routine's first count. */
  readonly position: number;
  /** Where a count-in of this round leads to, same origin. */
  readonly leadsTo: number;
  /** From 0. */
  readonly round: number;
  /** Of the tempo. */
  readonly percent: number;
  /** True once a practice without loops is danced through. */
  readonly over: boolean;
}

/** What a practice is danced to: clicks, or a track. */
export interface Source {
  readonly start: (practice: Practice, percent: number) => Promise<void>;
  readonly stop: () => void;
  /** Goes on without a break as another practice of the same run; false where it can't. */
  readonly change: (practice: Practice) => boolean;
  /** Takes another speed at the next count. */
  readonly setSpeed: (percent: number) => void;
  /** To be called several times a second: it keeps the source ahead of its clock. */
  readonly wake: () => void;
  /** What is heard now; undefined before the start. */
  readonly where: () => Where | undefined;
}
