import type Fraction from "fraction.js";
import { trackTime } from "../../routine/clock.js";
import type { Routine } from "../../routine/routine.js";

/** When a caption is shown: on the track's clock, or from the routine's first count where nobody said where that falls. */
export function captionTime(routine: Pick<Routine, "music">, seconds: Fraction): Fraction {
  return trackTime(routine, seconds) ?? seconds;
}
