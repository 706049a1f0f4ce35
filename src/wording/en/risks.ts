import type { Risk } from "../../routine/vocabulary.js";
import { list } from "./language.js";

/* The usual cautions of the trade (common practice, no source). None of them states a dose. */
const texts: Record<Risk, readonly [label: string, text: string]> = {
  "floor-drop": [
    "fast to the floor",
    "Learn it from lower down first, and control the way to the floor before you bring it up to speed. Clear the floor first.",
  ],
  inversion: [
    "upside down",
    "Try this only where a qualified teacher in the room has taught you how to enter it, how to leave it and how to be spotted.",
  ],
  backbend: ["backbend", "Warm the whole spine first, spread the bend over its length and stop where it pinches."],
  split: ["split", "Go only as far as your own range allows, warm, and never bounce into it."],
  jump: ["jump", "Land through the feet with soft knees, on a sprung or forgiving floor where there is one."],
  spin: ["spin", "Mark the turn before you spin it, give yourself room, and rest when you are dizzy."],
  lift: ["lift", "Only with a partner and a spotter who have been taught it in the room, and with everybody's say-so."],
  kneework: [
    "weight on the knees",
    "Wear knee pads, place the knees rather than drop them, and choose another option on a hard floor, or leave it out.",
  ],
  heels: ["heels", "Learn it flat first. Check the fit, the tips and the floor before you put heels on."],
  climb: [
    "climbing",
    "Only onto what stands fast and is made to bear you, or onto a partner who has been taught it in the room. Have somebody hold it or spot you, and learn the way down first.",
  ],
  throw: [
    "throwing",
    "Look where it will land before it leaves the hand. Leave room around you, begin with something soft, and let go of a bad catch.",
  ],
  neck: [
    "the neck",
    "Take weight on the head or neck only where a qualified teacher in the room has taught you. Whatever goes round it lies loose, comes off at a tug and is never pulled by anybody.",
  ],
};

/* What each of them asks for where it is danced at full tempo or not at all (common practice, no source). */
const asks: Partial<Record<Risk, string>> = {
  "floor-drop": "a clear floor and pads or a mat",
  inversion: "a mat, room to come down, and a spotter who has been taught it",
  jump: "a forgiving floor and room to land",
  lift: "partner and spotter who have been taught it, and everybody's say-so",
  climb: "somebody who holds what bears you, and the way down first",
  throw: "room around, and eyes on where it lands",
};

/** Risks and what is said about them, on page and paper alike. */
export const risks = {
  /** A short name, for beside the move. */
  label: (risk: Risk): string => texts[risk][0],
  /**
   * The same, with the groups whose it is where not all meet it: "spin (Flood)".
   *
   * @param only the versions that meet it, where not all do: "spin (Flood, level 2)"
   */
  of(risk: Risk, groups: readonly string[], only?: string): string {
    const whose = [...(groups.length === 0 ? [] : [list(groups)]), ...(only === undefined ? [] : [only])].join(", ");
    return whose === "" ? texts[risk][0] : `${texts[risk][0]} (${whose})`;
  },
  /** One or two sentences for the top of a page. */
  caution: (risk: Risk): string => texts[risk][1],
  /** What the cautions ask for that have to be there before a move is danced: "a mat; room". */
  asks: (risks: readonly Risk[]): string => risks.flatMap((risk) => asks[risk] ?? []).join("; "),
  /** Stands under every list of cautions. */
  generalCaution:
    "The venue's rules and local codes come first, then what a qualified teacher in the room tells you. With pain, an injury, " +
    "a pregnancy or a health condition, ask a clinician before you try it. Leaving a move out is always an option.",
};
