import type { Routine } from "./routine.js";

/** The whole routine on the other side: reflected about the room's front-back line, its start included. Twice is the original. */
export function reflect(routine: Routine): Routine {
  return { ...routine, mirrored: !routine.mirrored };
}
