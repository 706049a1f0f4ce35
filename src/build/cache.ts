import { readFileSync, renameSync, writeFileSync } from "node:fs";
import type { RoutineFacts } from "../publishing/site/routine-facts.js";
import type { RoutineRead } from "../reading/read-routine.js";
import { type Digests, digestOfBytes } from "./digest.js";
import type { Unready } from "./drafts.js";
import type { Counts } from "./publish.js";

/**
 * What the next build can use again, in a file beside the published folder: only digests and facts, since the bytes
 * themselves lie in the published folder. It may be deleted at any time; then everything is made again.
 */
export interface Cache {
  /** The last build as a whole. */
  readonly last?: CachedBuild;
  /** What was read of each routine, by its slug. */
  readonly reads: Readonly<Record<string, CachedRead>>;
  /** What was made, by its folder in the pack. */
  readonly made: Readonly<Record<string, CachedUnit>>;
}

/** What a build says in the end. */
export interface CachedBuild {
  /** A digest of every file that it was made from. */
  readonly source: string;
  readonly report: string;
  readonly routines: number;
  readonly workshops: number;
  readonly unready: Unready;
}

export interface CachedRead {
  /** A digest of all that it came from. */
  readonly key: string;
  readonly read: RoutineRead<RoutineFacts>;
}

export interface CachedUnit {
  /** A digest of all that it came from. */
  readonly key: string;
  readonly files: Digests;
  readonly counts: Counts;
}

/** The paths of all that was made. */
export function filesOf(made: Cache["made"]): readonly string[] {
  return Object.values(made).flatMap(({ files }) => Object.keys(files));
}

const empty: Cache = { reads: {}, made: {} };

/** How a cache begins: a digest of all that follows, so that one that was changed or cut off is known for it. */
const head = /^\{"digest":"([\w-]+)",/;

/** The cache of the last build; an empty one where there is none, where it is not as it was written, or where another tool made it. */
export function readCache(file: string, tool: string): Cache {
  try {
    const text = readFileSync(file, "utf8");
    const [begin = "", digest] = head.exec(text) ?? [];
    const body = `{${text.slice(begin.length)}`;
    if (digestOfBytes(body) !== digest) return empty;
    const { tool: of, ...cache } = JSON.parse(body) as Cache & { readonly tool: string };
    return of === tool ? cache : empty;
  } catch {
    return empty;
  }
}

/** Writes the cache for the next build; where that fails, that one makes more than it would have to. */
export function writeCache(file: string, tool: string, cache: Cache): void {
  const body = JSON.stringify({ tool, ...cache });
  try {
    writeFileSync(`${file}.new`, `{"digest":"${digestOfBytes(body)}",${body.slice(1)}`);
    renameSync(`${file}.new`, file);
  } catch {}
}
