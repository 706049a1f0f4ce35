import { readFileSync, renameSync, writeFileSync } from "node:fs";
import type { RoutineFacts } from "../publishing/site/routine-facts.js";
import type { RoutineRead } from "../reading/read-routine.js";
import type { Digests } from "./digest.js";

/**
 * What a build keeps for the next one, in a file beside the published folder: only digests and facts, since the bytes
 * themselves lie in the published folder. It may be deleted at any time; then everything is made again.
 */
export interface Kept {
  /** The last build as a whole. */
  readonly last?: KeptBuild;
  /** What was read of each routine, by its slug. */
  readonly reads: Readonly<Record<string, KeptRead>>;
  /** What was made, by its folder in the pack. */
  readonly made: Readonly<Record<string, KeptUnit>>;
}

/** What a build says in the end. */
export interface KeptBuild {
  /** A digest of every file that it was made from. */
  readonly source: string;
  readonly report: string;
  readonly routines: number;
  readonly workshops: number;
}

export interface KeptRead {
  /** A digest of all that it came from. */
  readonly key: string;
  readonly read: RoutineRead<RoutineFacts>;
}

export interface KeptUnit {
  /** A digest of all that it came from. */
  readonly key: string;
  readonly files: Digests;
}

/** The paths of all that was made. */
export function filesOf(made: Kept["made"]): readonly string[] {
  return Object.values(made).flatMap(({ files }) => Object.keys(files));
}

const nothing: Kept = { reads: {}, made: {} };

/** What the last build kept; nothing where there is none, where it can't be read, or where another tool made it. */
export function readKept(file: string, tool: string): Kept {
  try {
    const { tool: of, ...kept } = JSON.parse(readFileSync(file, "utf8")) as Kept & { readonly tool: string };
    return of === tool ? kept : nothing;
  } catch {
    return nothing;
  }
}

/** Keeps something for the next build; where that fails, it will make more than it would have to. */
export function writeKept(file: string, tool: string, kept: Kept): void {
  try {
    writeFileSync(`${file}.new`, JSON.stringify({ tool, ...kept }));
    renameSync(`${file}.new`, file);
  } catch {}
}
