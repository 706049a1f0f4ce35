import { counts } from "./counts.js";
import { ordinal } from "./language.js";

/** How the routine lies on the learner's file. */
export interface OnCopy {
  readonly first: number;
  /** Above 1 where the file is slower. */
  readonly stretch: number;
}

/** What taps say of the learner's file. */
export interface TappedCopy {
  readonly copy: OnCopy;
  /** The first count is right within so many seconds. */
  readonly within: number;
  readonly certainty: "sure" | "likely" | "unsure";
  readonly countsPerMinute: number;
  readonly unsteady?: { readonly slowest: number; readonly fastest: number };
  readonly complete: boolean;
}

/** What the player says and shows while somebody practises. */
export const player = {
  start: "Start",
  pause: "Pause",
  goOn: "Go on",
  /** What stands above a cue that is not danced yet. */
  countInThen: "Count-in, then",
  waitThen: "Wait, then",
  /** Called in place of a move that is never danced slowly, below full tempo. */
  markIt: "Mark it",
  careFor: (label: string): string => `Take care: ${label}. Never slowly.`,
  round: (number: number): string => `round ${number}`,
  hold: counts.hold,
  ownMove: counts.ownMove,
  /** The counts of a move: "5–6". */
  span: counts.span,
  /** With its length, in counts as an exact text, where its number does not tell: "5 (10 counts)". */
  longSpan: (on: string, length: string): string => `${on} (${length} counts)`,
  /** A call that comes next, so that it can't be read as its counts. */
  called: (call: string): string => `“${call}”`,
  pass: (number: number): string => `${ordinal(number)} time`,
  wall: (number: number): string => `wall ${number}`,
  otherSide: "other side",
  percent: (percent: number): string => `${percent} %`,
  speed: (percent: number, countsPerMinute: number, isEstimate: boolean): string =>
    `${percent} %, ${isEstimate ? "about " : ""}${countsPerMinute} counts a minute`,
  /** Places in the learner's song: "0:14 of 3:20". */
  songClock: (at: string, whole: string): string => `${at} of ${whole}`,
  pauseSong: "Pause the song",
  playSong: "Play the song alone",
  started: (section: string, percent: number): string => `Started: ${section}, ${percent} %.`,
  paused: "Paused.",
  ended: "End of the run.",
  /** @param copy in seconds into the learner's file, which may be slower or faster; absent where nobody has said it yet */
  firstCount: (copy: OnCopy | undefined): string => {
    if (!copy)
      return "Where the first count falls in this file is not known yet: play it, and press the button on the count, or tap along.";
    const first = `The routine's first count is ${copy.first.toFixed(2)} s into this file.`;
    return copy.stretch === 1
      ? first
      : `${first} The file runs at ${(100 / copy.stretch).toFixed(1)} % of the routine's tempo, and the counts follow it.`;
  },
  tapWhilePlaying: "Play the song first, then tap while it plays.",
  /**
   * What taps say, or how many more are needed at least: none where there are enough, which follow no beat.
   *
   * @param perMinute the routine's counts a minute
   */
  tapped: (said: { readonly more: number } | TappedCopy, perMinute: number): string => {
    if ("more" in said)
      return said.more === 0
        ? "These taps follow no even beat. Tap once on every count; to begin again, pause the song."
        : `Tap on: ${said.more} more at least.`;
    const { copy, within, certainty, countsPerMinute, unsteady, complete } = said;
    const tempo = unsteady
      ? `between ${unsteady.slowest.toFixed(0)} and ${unsteady.fastest.toFixed(0)} counts a minute, so that the counts may drift from the song`
      : copy.stretch === 1
        ? "at the routine's tempo"
        : `at ${countsPerMinute.toFixed(1)} counts a minute where the routine has ${perMinute.toFixed(1)}`;
    const how = { sure: "Sure", likely: "Likely", unsure: "Not sure yet" }[certainty];
    const more = certainty === "sure" || complete ? "" : " Tap on, and it gets surer.";
    return `${how}: give or take ${Math.max(0.01, within).toFixed(2)} s, ${tempo}.${more}`;
  },
  /** Where clicks were wanted over the learner's song. */
  withoutClicks: "This browser finds nothing to sound the clicks on, so the song plays without them.",
  /** Where the browser's audio stands still. */
  inSilence: "This browser finds nothing to play sound on, so the counts go on in silence.",
  cannotPlay: "This browser can't play that. Try another file of the song.",
  cannotOpen: "This browser can't play that file. Try the song as MP3, M4A or WAV.",
};
