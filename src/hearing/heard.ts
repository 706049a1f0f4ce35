import type { CalledRun } from "./runs.js";
import type { Token } from "./tokens.js";
import type { Recording } from "./types.js";
import type { Ballot, Slot } from "./vote.js";

/** All that was found out of a recording before it is put into words. */
export interface Heard {
  readonly tokens: readonly Token[];
  readonly phrase: number;
  readonly runs: readonly CalledRun[];
  /** For each run, which phrase each of its phrases is. */
  readonly at: readonly (readonly number[])[];
  readonly ballots: readonly (readonly Ballot[])[];
  readonly slots: readonly (readonly Slot[])[];
  readonly recording: Recording;
}
