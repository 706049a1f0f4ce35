import type { Library } from "../routine/routine.js";

/** A file of the published pack. */
export interface OutFile {
  /** Relative to the output folder, with forward slashes. */
  readonly path: string;
  readonly content: string | Uint8Array;
}

/**
 * What every output looks like from outside: something whole goes in (a routine, a workshop), named files come out. It
 * reads nothing else and writes nothing itself, and the same input gives the same bytes.
 */
export interface Publisher<Subject> {
  readonly name: string;
  readonly publish: (subject: Subject, library: Library) => readonly OutFile[] | Promise<readonly OutFile[]>;
  /** Of an output that takes a while: the paths of its files, so that what links to them need not wait until they are made. */
  readonly paths?: (subject: Subject, library: Library) => readonly string[];
}
