import { type ContentFiles, readFiles } from "../reading/files.js";
import { formatFindings, gravestFirst } from "../reading/report.js";
import { type Cache, type CachedBuild, filesOf, readCache, writeCache } from "./cache.js";
import { digestOf, holds } from "./digest.js";
import type { Unready } from "./drafts.js";
import { buildErrorText } from "./error-text.js";
import { markIn, markOf } from "./folders.js";
import type { BuildOptions } from "./options.js";
import { type Counts, sumOf } from "./publish.js";
import { openStaging, type Staging } from "./staging.js";
import { toolDigest } from "./tool.js";

/** With what is to mend or to look at in the content, for a person to read. */
export type BuildResult = { readonly report: string } & (
  | { readonly done: false }
  | {
      readonly done: true;
      readonly routines: number;
      readonly workshops: number;
      /** Files of the pack. */
      readonly counts: Counts;
      /** Routines and workshops that were not as they had been last time. */
      readonly fresh: number;
      readonly unready: Unready;
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
    try {
      return await buildInto(staging, options);
    } finally {
      staging.close();
    }
  } catch (error) {
    throw new Error(buildErrorText(error, options.out), { cause: error });
  }
}

async function buildInto(staging: Staging, options: BuildOptions): Promise<BuildResult> {
  const tool = toolDigest();
  const files = await readFiles(options.content);
  const source = sourceKey(files);
  const cache = readCache(staging.cache, tool);
  if (cache.last?.source === source && isWhole(staging.published, cache.made)) return built(cache.last, cache.made, 0);
  // What reads and makes takes longer to load than all that was done so far.
  const { makePack } = await import("./make-pack.js");
  const { content, unready, reads, made, refused, fresh } = await makePack(files, staging, cache, options);
  const telling = content.findings.filter(({ severity }) => severity !== "note");
  const report = formatFindings(gravestFirst(telling), content.sources);
  if (made === undefined) return { done: false, report: refused === undefined ? report : `${report}${refused}\n` };
  const last: CachedBuild = {
    source,
    report,
    routines: content.routines.length - unready.drafts.length,
    workshops: content.workshops.length - unready.workshops.length,
    unready,
  };
  writeCache(staging.cache, tool, { last, reads, made });
  return built(last, made, fresh);
}

/** A digest of every file that says something, and of how they are called in what is said about them. */
function sourceKey({ folder, library, routines, workshops }: ContentFiles): string {
  return digestOf(folder, ...[library, ...routines, ...workshops].map((file) => digestOf(file)));
}

/** Whether a folder holds all that was made last time, byte by byte. */
function isWhole(folder: string, made: Cache["made"]): boolean {
  return markOf(filesOf(made)) === markIn(folder) && Object.values(made).every(({ files }) => holds(folder, files));
}

function built({ source: _, ...last }: CachedBuild, made: Cache["made"], fresh: number): BuildResult {
  const counts = sumOf(Object.values(made).map(({ counts }) => counts));
  return { done: true, ...last, counts, fresh };
}
