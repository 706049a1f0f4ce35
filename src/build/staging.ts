import { existsSync, mkdirSync, renameSync, rmdirSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { OutFile } from "../publishing/publisher.js";
import {
  foreignFile,
  isComplete,
  listFiles,
  markName,
  markOf,
  missingFile,
  outFolderTrouble,
  realPath,
} from "./folders.js";
import { ignoreErrors } from "./ignore-errors.js";
import { giveBack, takeLock } from "./lock.js";

/** A folder beside the published one, in which a build is made before it takes the published one's place. */
export interface Staging {
  readonly folder: string;
  /** The published folder, every link in its path followed. */
  readonly published: string;
  /** A file beside the published folder for the cache. */
  readonly cache: string;
  /**
   * Swaps: from here on the published folder is this build's, which has made these files.
   *
   * @throws where one of them is not there
   */
  readonly publish: (files: readonly string[]) => void;
  /** Removes what was made and not published, and lets the next build begin. To be called in the end, whatever happened. */
  readonly close: () => void;
}

/**
 * Opens a staging folder beside `out`, after clearing what a build that was killed has left behind.
 *
 * @throws where the folder can't be published into, another build of the same folder is at work, or the
 * place can't be written
 */
export function openStaging(content: string, out: string): Staging {
  const full = realPath(out);
  // Beside the published folder, so that the swap is a mere change of names.
  const work = join(dirname(full), `.countleaf-${basename(full)}`);
  const [folder, old, lock] = [join(work, "new"), join(work, "old"), join(work, "lock")];
  refuseForeign(content, out, old);
  takeLock(lock, out);
  let swapped = false;
  const close = () => {
    try {
      // What can't be removed now is removed by the next run.
      if (swapped) ignoreErrors(() => drop(old, work));
      else settle(full, old, work);
    } finally {
      ignoreErrors(() => removeLeft(work));
      giveBack(lock);
      ignoreErrors(() => rmdirSync(work));
    }
  };
  const publish = (files: readonly string[]) => {
    refuseMissing(folder, files, out);
    writeFileSync(join(folder, markName), markOf(files));
    // Making it took a while: what somebody has put into the published folder since must not go with the earlier pack.
    refuseForeign(content, out, old);
    /* Node has no call that exchanges two folders, so there are two changes of names. Killed between them, the published
     * folder is missing until the next run, which puts the earlier one back before it does anything else. */
    if (existsSync(full)) renameSync(full, old);
    renameSync(folder, full);
    swapped = true;
  };
  try {
    settle(full, old, work);
    removeLeft(work);
    mkdirSync(folder);
  } catch (error) {
    giveBack(lock);
    throw error;
  }
  return { folder, published: full, cache: join(work, "cache.json"), publish, close };
}

/** Writes a file into a staging folder. */
export function writeInto(folder: string, { path, content }: OutFile): void {
  const target = join(folder, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, content);
}

function refuseForeign(content: string, out: string, old: string): void {
  const trouble = outFolderTrouble(content, out);
  if (trouble === undefined) return;
  if (!existsSync(old)) throw new Error(trouble);
  throw new Error(
    `${trouble}. The pack that was published before lies in ${old}, and comes back with the next build once ${out} is moved away`,
  );
}

/** Somebody, or a program that tidies up, may have reached into the staging folder meanwhile. */
function refuseMissing(folder: string, files: readonly string[], out: string): void {
  const missing = missingFile(folder, files);
  if (missing === undefined) return;
  throw new Error(
    `${join(folder, missing)} was made and is gone again: something has moved, emptied or cleaned that folder meanwhile. Build again. Nothing was changed in ${out}.`,
  );
}

/**
 * Where a swap went only half the way, the earlier pack is put back: to where nothing is, in place of an empty folder, or of
 * what is left of a pack of ours. It goes where the later one is in place, whole.
 *
 * @throws where something of somebody else's lies in its place
 */
function settle(full: string, old: string, work: string): void {
  if (!existsSync(old)) return;
  const here = existsSync(full);
  if (here && (isComplete(full) || listFiles(old).length === 0)) {
    drop(old, work);
    return;
  }
  const foreign = here ? foreignFile(full) : undefined;
  if (foreign !== undefined)
    throw new Error(
      `${join(full, foreign)} was not made by countleaf, and the pack that was published before lies in ${old}. Move ${full} away and build again: then that pack comes back`,
    );
  if (here) drop(full, work);
  renameSync(old, full);
}

/** What is no longer needed, under a name from which nothing is ever put back, should its removal go only half the way. */
const dropped = "dropped";

function drop(folder: string, work: string): void {
  rmSync(join(work, dropped), { recursive: true, force: true });
  if (existsSync(folder)) renameSync(folder, join(work, dropped));
}

/** Removes what else a build has left there. */
function removeLeft(work: string): void {
  for (const name of ["new", dropped]) rmSync(join(work, name), { recursive: true, force: true });
}
