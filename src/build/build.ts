import type { RoutineFacts } from "../publishing/site/routine-facts.js";
import type { Content } from "../reading/read-content.js";
import { faultWords } from "./fault.js";
import { markIn, markOf } from "./folders.js";
import { readKept, writeKept } from "./kept.js";
import { reusable, share } from "./reuse.js";
import { openStaging, type Staging } from "./staging.js";
import { portions, survey } from "./survey.js";
import { openThreads, type Threads } from "./threads.js";
import { toolDigest } from "./tool.js";
import { keyOf, type Making, makeUnits, type Unit, unitsOf } from "./units.js";
import type { Bench } from "./work.js";

export interface BuildOptions {
  readonly content: string;
  readonly out: string;
  /** Told how far it is, after each piece of work. */
  readonly progress?: Progress;
  /** Calls the build off: what was begun is cleared up. */
  readonly signal?: AbortSignal;
}

/** So many are done of so many, and what the last of them was: "read", "made: Low Tide". */
export type Progress = (done: number, all: number, what: string) => void;

export type BuildResult = { readonly content: Content<RoutineFacts> } & (
  | { readonly done: false }
  | {
      readonly done: true;
      readonly handouts: number;
      /** Routines and workshops that were not as they had been last time. */
      readonly fresh: number;
    }
);

/**
 * Makes the whole pack from a content folder. It is made beside the published folder and takes its place only when it is
 * whole: with any error in the content nothing is published and what was there stays. What has not changed since the last
 * build is taken from there.
 *
 * @throws Error in words that say what to do, where the machine does not let it be made
 */
export async function build(options: BuildOptions): Promise<BuildResult> {
  try {
    const staging = openStaging(options.content, options.out);
    const threads = openThreads();
    try {
      options.signal?.addEventListener("abort", threads.close);
      return await buildInto(staging, threads, options);
    } finally {
      await threads.close();
      staging.close();
    }
  } catch (error) {
    throw new Error(faultWords(error, options.out), { cause: error });
  }
}

async function buildInto(staging: Staging, threads: Threads, options: BuildOptions): Promise<BuildResult> {
  const tool = toolDigest();
  const kept = readKept(staging.kept, tool);
  const seen = await survey(options.content, threads, { known: kept.reads, progress: options.progress });
  const { content } = seen;
  if (content.findings.some(({ severity }) => severity === "error")) return { done: false, content };
  const units = unitsOf(seen).map((unit) => ({ ...unit, key: keyOf(unit, content.library) }));
  const made = new Map(units.flatMap((unit) => reusable(kept.made, staging.published, unit, unit.key)));
  const fresh = units.filter(({ place }) => !made.has(place));
  const filesMade = () => [...made.values()].flatMap(({ files }) => Object.keys(files));
  // Where all is as it was, the published folder stays, and with it the times of its files.
  if (fresh.length > 0 || markOf(filesMade()) !== markIn(staging.published)) {
    share(staging.published, staging.folder, filesMade());
    const bench = { library: content.library, folder: staging.folder };
    for (const [place, unit] of await makeAll(fresh, bench, threads, options.progress)) made.set(place, unit);
    // What the threads hold of memory is free before a large library's list of files is written.
    await threads.close();
    options.signal?.throwIfAborted();
    staging.publish(filesMade());
  }
  writeKept(staging.kept, tool, { reads: seen.reads, made: Object.fromEntries(made) });
  const handouts = filesMade().filter((path) => path.endsWith(".pdf")).length;
  return { done: true, content, handouts, fresh: fresh.filter(({ place }) => place !== "").length };
}

/** Most routines or workshops that one thread makes in one go: Eleventy keeps every page until all of them are made. */
const portion = 25;

async function makeAll(
  units: readonly (Unit & { readonly key: string })[],
  bench: Bench,
  threads: Threads,
  progress: Progress = () => {},
) {
  let done = 0;
  const tell = (title: string) => progress(++done, units.length, `made: ${title}`);
  const make = async <C extends Making>(craft: C) => {
    const own = units.filter((unit): unit is Unit<C> & { readonly key: string } => unit.craft === craft);
    const size = Math.min(portion, Math.ceil(own.length / (4 * threads.most)));
    const each = portions(own, size).map(async (some) => {
      const files = await makeUnits(threads, bench, craft, some, tell);
      return some.map(({ place, key }, index) => [place, { key, files: files[index] ?? {} }] as const);
    });
    return (await Promise.all(each)).flat();
  };
  return (await Promise.all([make("shared"), make("workshops"), make("routines")])).flat();
}
