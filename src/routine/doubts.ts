import { everyMove } from "./every-move.js";
import type { Place } from "./problem.js";
import type { WrittenRoutine } from "./written.js";

/** Something that the author is not sure of yet. */
export interface Doubt {
  /** Of the routine, the section or the move that it is about. */
  readonly place: Place;
  readonly text: string;
}

/** All that the author of a routine is not sure of yet, in the order of the file. */
export function doubtsOf(written: WrittenRoutine): readonly Doubt[] {
  return [written, ...written.sections, ...everyMove(written)].flatMap(({ place, doubt }) =>
    doubt === undefined ? [] : [{ place, text: doubt }],
  );
}
