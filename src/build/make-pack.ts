import type { RoutineFacts } from "../publishing/site/routine-facts.js";
import type { ContentFiles } from "../reading/files.js";
import type { Finding } from "../reading/finding.js";
import type { Content } from "../reading/read-content.js";
import { type Cache, type CachedUnit, filesOf } from "./cache.js";
import { type Unready, unreadyOf, withoutDrafts } from "./drafts.js";
import { emptiedText } from "./emptied.js";
import { markIn, markOf } from "./folders.js";
import type { BuildOptions, Progress } from "./options.js";
import { portions } from "./portions.js";
import { countsOf, digestsOf, type MadeFile, type MakeOptions } from "./publish.js";
import { linkFiles, reusable } from "./reuse.js";
import type { Staging } from "./staging.js";
import { surveyIn } from "./survey-in.js";
import { openThreads, type Threads } from "./threads.js";
import { keyOf, type MakingJob, makeUnits, type Unit, unitsOf } from "./units.js";

/** What a pack was made from, and what the next build can use again of it. */
export interface PackResult {
  readonly content: Content<RoutineFacts>;
  readonly unready: Unready;
  readonly reads: Cache["reads"];
  /** Absent where errors in the content stand in the way, or what follows. */
  readonly made?: Cache["made"];
  /** Why what is published should stay though the content has no errors. */
  readonly refused?: string;
  /** Routines and workshops that were not as they had been last time. */
  readonly fresh: number;
}

/** Reads a content folder's files, makes what is not as it was last time, and publishes the pack. */
export async function makePack(
  files: ContentFiles,
  staging: Staging,
  cache: Cache,
  options: BuildOptions,
): Promise<PackResult> {
  options.signal?.throwIfAborted();
  const threads = openThreads();
  try {
    options.signal?.addEventListener("abort", threads.close);
    return await packWith(threads, files, staging, cache, options);
  } finally {
    await threads.close();
  }
}

async function packWith(
  threads: Threads,
  files: ContentFiles,
  staging: Staging,
  cache: Cache,
  { out, allowEmpty = false, progress, signal }: BuildOptions,
): Promise<PackResult> {
  const seen = await surveyIn(threads, files, { cached: cache.reads, progress });
  const reads = seen.reads;
  const content = allowEmpty ? withoutEmptyError(seen.content) : seen.content;
  const published = withoutDrafts(content);
  const unready = unreadyOf(seen, published);
  const errors = content.findings.filter(({ severity }) => severity === "error");
  // That there is no routine is the one error that may be meant.
  const isRead = errors.every(isEmptyError);
  const refused =
    allowEmpty || !isRead ? undefined : emptiedText(staging.published, out, files, published, unready.drafts);
  if (errors.length > 0 || refused !== undefined)
    return { content, unready, reads, fresh: 0, ...(refused === undefined ? {} : { refused }) };
  const units = unitsOf({ ...seen, content: published }).map((unit) => ({
    ...unit,
    key: keyOf(unit, content.library),
  }));
  const made = Object.fromEntries(units.flatMap((unit) => reusable(cache.made, staging.published, unit, unit.key)));
  const fresh = units.filter(({ place }) => !Object.hasOwn(made, place));
  // Where all is as it was, the published folder stays, and with it the times of its files.
  if (fresh.length > 0 || markOf(filesOf(made)) !== markIn(staging.published)) {
    linkFiles(staging.published, staging.folder, filesOf(made));
    const options = { library: content.library, folder: staging.folder };
    Object.assign(made, await makeAll(fresh, options, threads, progress));
    // What the threads hold of memory is free before a large library's list of files is written.
    await threads.close();
    signal?.throwIfAborted();
    staging.publish(filesOf(made));
  }
  return { content, unready, reads, made, fresh: fresh.filter(({ place }) => place !== "").length };
}

const isEmptyError = ({ severity, rule }: Finding) => severity === "error" && rule === "no-routines";

function withoutEmptyError(content: Content<RoutineFacts>): Content<RoutineFacts> {
  return { ...content, findings: content.findings.filter((finding) => !isEmptyError(finding)) };
}

type KeyedUnit<J extends MakingJob = MakingJob> = Unit<J> & { readonly key: string };

function unitsFor<J extends MakingJob>(job: J, units: readonly KeyedUnit[]): readonly KeyedUnit<J>[] {
  return units.filter((unit): unit is KeyedUnit<J> => unit.job === job);
}

/** Most routines or workshops that one thread makes in one go: Eleventy keeps every page until all of them are made. */
const portion = 25;

/** Makes units from end to end, as many at once as there are threads. */
async function makeAll(
  units: readonly KeyedUnit[],
  options: MakeOptions,
  threads: Threads,
  progress: Progress = () => {},
): Promise<Cache["made"]> {
  let done = 0;
  const tell = (title: string) => progress(++done, units.length, `made: ${title}`);
  const make = async <J extends MakingJob>(job: J) => {
    const own = unitsFor(job, units);
    const size = Math.min(portion, Math.ceil(own.length / (4 * threads.most)));
    const each = portions(own, size).map(async (some) => {
      const made = await makeUnits(threads, options, job, some, tell);
      return some.map((unit, index) => cachedUnit(unit, made[index] ?? []));
    });
    return (await Promise.all(each)).flat();
  };
  const all = await Promise.all([make("library"), make("workshops"), make("routines")]);
  return Object.fromEntries(all.flat());
}

function cachedUnit({ place, key }: KeyedUnit, files: readonly MadeFile[]): [string, CachedUnit] {
  return [place, { key, files: digestsOf(files), counts: countsOf(files) }];
}
