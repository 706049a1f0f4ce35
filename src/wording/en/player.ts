import { counts } from "./counts.js";
import { ordinal } from "./language.js";

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
  /** @param seconds into the learner's file; absent where nobody has said it yet */
  firstCount: (seconds: number | undefined): string =>
    seconds === undefined
      ? "Where the first count falls in this file is not known yet: play it, and press the button on the count."
      : `The routine's first count is ${seconds.toFixed(2)} s into this file.`,
  /** Where the browser's audio stands still. */
  inSilence: "This browser finds nothing to play sound on, so the counts go on in silence.",
  cannotPlay: "This browser can't play that. Try another file of the song.",
  cannotOpen: "This browser can't play that file. Try the song as MP3, M4A or WAV.",
};
