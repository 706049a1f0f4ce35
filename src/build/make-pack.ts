import type { RoutineFacts } from "../publishing/site/routine-facts.js";
import type { ContentFiles } from "../reading/files.js";
import type { Content } from "../reading/read-content.js";
import type { BuildOptions, Progress } from "./build.js";
import { markIn, markOf } from "./folders.js";
import { filesOf, type Kept, type KeptUnit } from "./kept.js";
import { reusable, share } from "./reuse.js";
import type { Staging } from "./staging.js";
import { portions, survey } from "./survey.js";
import { openThreads, type Threads } from "./threads.js";
import { keyOf, type Making, makeUnits, type Unit, unitsOf } from "./units.js";
import type { Bench } from "./work.js";

/** What a pack was made from, and what for the next build is to be kept of it. */
export interface Packed {
  readonly content: Content<RoutineFacts>;
  readonly reads: Kept["reads"];
  /** Absent where errors in the content stand in the way. */
  readonly made?: Kept["made"];
  /** Routines and workshops that were not as they had been last time. */
  readonly fresh: number;
}

/** Reads a content folder's files, makes what is not as it was last time, and publishes the pack. */
export async function makePack(
  files: ContentFiles,
  staging: Staging,
  kept: Kept,
  options: BuildOptions,
): Promise<Packed> {
  options.signal?.throwIfAborted();
  const threads = openThreads();
  try {
    options.signal?.addEventListener("abort", threads.close);
    return await packWith(threads, files, staging, kept, options);
  } finally {
    await threads.close();
  }
}

async function packWith(
  threads: Threads,
  files: ContentFiles,
  staging: Staging,
  kept: Kept,
  { progress, signal }: BuildOptions,
): Promise<Packed> {
  const seen = await survey(files, threads, { known: kept.reads, progress });
  const { content, reads } = seen;
  if (content.findings.some(({ severity }) => severity === "error")) return { content, reads, fresh: 0 };
  const units = unitsOf(seen).map((unit) => ({ ...unit, key: keyOf(unit, content.library) }));
  const made = Object.fromEntries(units.flatMap((unit) => reusable(kept.made, staging.published, unit, unit.key)));
  const fresh = units.filter(({ place }) => !Object.hasOwn(made, place));
  // Where all is as it was, the published folder stays, and with it the times of its files.
  if (fresh.length > 0 || markOf(filesOf(made)) !== markIn(staging.published)) {
    share(staging.published, staging.folder, filesOf(made));
    const bench = { library: content.library, folder: staging.folder };
    Object.assign(made, await makeAll(fresh, bench, threads, progress));
    // What the threads hold of memory is free before a large library's list of files is written.
    await threads.close();
    signal?.throwIfAborted();
    staging.publish(filesOf(made));
  }
  return { content, reads, made, fresh: fresh.filter(({ place }) => place !== "").length };
}

/** Most routines or workshops that one thread makes in one go: Eleventy keeps every page until all of them are made. */
const portion = 25;

async function makeAll(
  units: readonly (Unit & { readonly key: string })[],
  bench: Bench,
  threads: Threads,
  progress: Progress = () => {},
): Promise<Kept["made"]> {
  let done = 0;
  const tell = (title: string) => progress(++done, units.length, `made: ${title}`);
  const make = async <C extends Making>(craft: C) => {
    const own = units.filter((unit): unit is Unit<C> & { readonly key: string } => unit.craft === craft);
    const size = Math.min(portion, Math.ceil(own.length / (4 * threads.most)));
    const each = portions(own, size).map(async (some) => {
      const files = await makeUnits(threads, bench, craft, some, tell);
      return some.map(({ place, key }, index): [string, KeptUnit] => [place, { key, files: files[index] ?? {} }]);
    });
    return (await Promise.all(each)).flat();
  };
  const all = await Promise.all([make("shared"), make("workshops"), make("routines")]);
  return Object.fromEntries(all.flat());
}
