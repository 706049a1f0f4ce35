/** Even counts in a track: where one of them falls, the routine's first where that is known, and how fast they come. */
export interface Grid {
  /** Seconds from the start of the track. */
  readonly firstCount: number;
  readonly countsPerMinute: number;
}

/** How far a figure is to be believed: enough fits and nothing speaks against it; likely; hardly more than a guess. */
export type Certainty = "sure" | "likely" | "unsure";

/** From the slowest to the fastest that it goes, in counts a minute. */
export interface TempoRange {
  readonly slowest: number;
  readonly fastest: number;
}

/** A tap, with what the counts make of it. */
export interface JudgedTap {
  /** Seconds from the start of the track. */
  readonly at: number;
  /** The count that it lies nearest to, 0 for the first one. */
  readonly count: number;
  /** Seconds after that count; negative where it comes before. */
  readonly off: number;
  /** `late`: one of the first, from before the hand had found the counts. `doubled`: another tap meant the same count. */
  readonly kind: "on" | "off" | "late" | "doubled";
}

/** Even counts laid through taps. */
export interface TapFit extends Grid {
  /** The tempo is right within so many counts a minute, 19 times in 20. */
  readonly spread: number;
  /** The first count is right within so many seconds, 19 times in 20. */
  readonly firstCountSpread: number;
  readonly certainty: Certainty;
  /** How far the taps lie from their counts: a standard deviation in seconds, those that are not on a count left out. */
  readonly unevenness: number;
  /** Where one tempo does not fit the taps: how far they range. */
  readonly unsteady?: TempoRange;
  /** In the order of their times. */
  readonly taps: readonly JudgedTap[];
  /** Counts between the first and the last that nobody tapped. */
  readonly missed: readonly number[];
}

/** Why taps give no counts: fewer than four, or they follow no beat. */
export interface NoFit {
  readonly why: "too-few" | "no-beat";
}

/** What a tempo is to the first one offered, in plain ratios: `double` is counted twice as fast. */
export type Relation =
  | "first"
  | "half"
  | "double"
  | "third"
  | "triple"
  | "two-thirds"
  | "three-halves"
  | "three-quarters"
  | "four-thirds"
  | "other";

/** Where the routine may begin, and why: the music begins there; the first bar does, once it is under way; it gets strong. */
export interface FirstCountGuess {
  /** Seconds from the start of the track. */
  readonly at: number;
  readonly why: "music-begins" | "first-strong" | "bar-begins";
  /** Of all guesses for this tempo, how much of the trust: from 0 to 1. */
  readonly trust: number;
}

export interface TempoCandidate {
  readonly countsPerMinute: number;
  readonly relation: Relation;
  /** Of all candidates, how much of the trust: from 0 to 1. */
  readonly trust: number;
  /** The likeliest first. */
  readonly firstCounts: readonly FirstCountGuess[];
}

/** What a track sounds like it might be counted as. Guesses, all of them. */
export interface SongGuess {
  /** Two or three, the likeliest first. */
  readonly tempos: readonly TempoCandidate[];
  /** Where no one tempo holds from beginning to end: how far it ranges, counted as the first candidate is. */
  readonly unsteady?: TempoRange;
  /** Length of the track. */
  readonly seconds: number;
}

/** Why a track gives no guess. */
export interface NoGuess {
  readonly why: "too-short" | "silent" | "no-beat";
}
