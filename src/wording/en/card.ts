import { counted } from "./language.js";
import { cutCall, shortForms } from "./short-call.js";

/* What stands on a cue card: as few words as can be called. */
export const card = {
  /** What is called of a cue, the longest first. */
  forms: shortForms,
  /** The same in so many letters where no rule makes it short enough. */
  cut: cutCall,
  own: "yours",
  hold: "hold",
  /** Of what began on the row before. */
  goesOn: "goes on",
  otherSide: "other side",
  continued: "(continued)",
  /** A section that is danced as one further up is: "= Harbour wall, other side". */
  same: (name: string, otherSide: boolean): string => `= ${name}${otherSide ? ", other side" : ""}`,
  repeated: (times: number): string => `× ${times}`,
  side: (side: number, sides: number): string => `side ${side} of ${sides}`,
  counts: (number: number): string => counted(number, "count", "counts"),
  tempo: (tempo: string): string => `${tempo} a minute`,
  countIn: (counts: number): string => `count in ${counts}`,
  times: (walls: number, times: number): string => (walls > 1 ? `${walls} walls` : `${times} times`),
  pauses: (counts: readonly number[]): string => `pauses on ${counts.join(", ")}`,
  takeCare: "Take care: ",
  /** To those who listen, beside the words that are called. */
  caution: (labels: readonly string[]): string => `take care, ${labels.join(", ")}`,
};
