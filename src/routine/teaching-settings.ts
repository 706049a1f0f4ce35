import type { DancedKind, LoadPart, RecordingStyle } from "./vocabulary.js";

/** What the class planner counts with, every default filled in. Speeds are per cent of the tempo. */
export interface TeachingSettings {
  /** Seconds: every activity is rounded up to a multiple of it. */
  readonly unit: number;
  /** Longest chunk, in counts. */
  readonly chunkCounts: number;
  /** Fullest chunk, in points. */
  readonly chunkPoints: number;
  readonly points: MovePoints;
  /** Seconds of explaining a point while a chunk is marked. */
  readonly explain: number;
  readonly markSpeed: number;
  readonly linkSpeed: number;
  /** Absent: the library's practice speeds. */
  readonly drillSpeeds?: readonly number[];
  /** Seconds after a run to get back to the place. */
  readonly again: number;
  /** Seconds that an activity takes beside its runs. */
  readonly overhead: ByActivity;
  /** Runs of an activity: what a class has at the least, and what it has at the most where time is left. */
  readonly least: ByActivity;
  readonly most: ByActivity;
  /** How much a further run helps, against others of the same density. */
  readonly worth: ByActivity;
  /** Longest stretch of the song that is listened to before the first count, in seconds. */
  readonly leadIn: number;
  readonly groups: number;
  /** Minutes of dancing between water breaks. */
  readonly waterEvery: number;
  /** Minutes of floor work after which there is water or talk at the latest. */
  readonly breatheEvery: number;
  /** Seconds for questions for every move that is new. */
  readonly questions: number;
  /** The library's own limits for a class, in times. */
  readonly limits: Readonly<Partial<Record<LoadPart, number>>>;
  readonly recording: RecordingSettings;
}

export type ByActivity = Readonly<Record<DancedKind, number>>;

/**
 * Limits where a library sets none of its own: defaults of the planning, so that a plan does not pile up lifts and times
 * upside down; nobody's safety figure.
 */
export const planningLimits: TeachingSettings["limits"] = { lift: 12, inversions: 8 };

/** What makes a move hard, in points, and what share of it a known move costs. */
export interface MovePoints {
  readonly move: number;
  readonly turn: number;
  readonly drop: number;
  readonly partCount: number;
  readonly risk: number;
  readonly otherSide: number;
  readonly repeat: number;
}

export interface RecordingSettings {
  readonly style: RecordingStyle;
  /** How often each take is shot, where it is shot in takes. */
  readonly takes: number;
  /** Seconds to place the camera. */
  readonly setup: number;
  /** Seconds of talking for each thing that is said. */
  readonly talk: number;
}
