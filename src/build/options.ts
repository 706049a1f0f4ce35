/** What a build is asked for. */
export interface BuildOptions {
  readonly content: string;
  readonly out: string;
  /** That every routine, or all of several workshops, may go from what is published. */
  readonly allowEmpty?: boolean;
  /** Told how far it is, after each piece of work. */
  readonly progress?: Progress;
  /** Calls the build off: what was begun is cleared up. */
  readonly signal?: AbortSignal;
}

/** So many are done of so many, and what the last of them was: "read", "made: Low Tide". */
export type Progress = (done: number, all: number, what: string) => void;
