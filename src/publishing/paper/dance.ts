import type { Routine, Version } from "../../routine/routine.js";

/** A version of a routine; a pack has several. */
export interface Dance {
  readonly routine: Routine;
  readonly version: Version;
  /** The group whose sheet it is, where it is not for all. */
  readonly group?: string;
  /** The mark of its counts. */
  readonly mark?: string;
}
