import { existsSync, mkdirSync, renameSync, rmdirSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { OutFile } from "../publishing/publisher.js";
import { markName, markOf, outFolderTrouble, realPath } from "./folders.js";
import { ignoreErrors } from "./ignore-errors.js";
import { giveBack, takeLock } from "./lock.js";

/** A folder beside the published one, in which a build is made before it takes the published one's place. */
export interface Staging {
  readonly folder: string;
  /** The published folder, every link in its path followed. */
  readonly published: string;
  /** A file beside the published folder for the cache. */
  readonly cache: string;
  /** Swaps: from here on the published folder is this build's, which has made these files. */
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
  refuseForeign(content, out);
  const full = realPath(out);
  // Beside the published folder, so that the swap is a mere change of names.
  const work = join(dirname(full), `.countleaf-${basename(full)}`);
  const [folder, old, lock] = [join(work, "new"), join(work, "old"), join(work, "lock")];
  takeLock(lock, out);
  const close = () => {
    try {
      putBack(full, old);
    } finally {
      // What can't be removed now is removed by the next run.
      ignoreErrors(() => removeLeft(work));
      giveBack(lock);
      ignoreErrors(() => rmdirSync(work));
    }
  };
  const publish = (files: readonly string[]) => {
    writeFileSync(join(folder, markName), markOf(files));
    // Making it took a while: what somebody has put into the published folder since must not go with the earlier pack.
    refuseForeign(content, out);
    /* Node has no call that exchanges two folders, so there are two changes of names. Killed between them, the published
     * folder is missing until the next run, which puts the earlier one back before it does anything else. */
    if (existsSync(full)) renameSync(full, old);
    renameSync(folder, full);
  };
  try {
    putBack(full, old);
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

function refuseForeign(content: string, out: string): void {
  const trouble = outFolderTrouble(content, out);
  if (trouble !== undefined) throw new Error(trouble);
}

/** Puts the earlier pack back where the swap went only half the way. */
function putBack(full: string, old: string): void {
  if (existsSync(old) && !existsSync(full)) renameSync(old, full);
}

/** Removes what else a build has left there. */
function removeLeft(work: string): void {
  for (const name of ["new", "old"]) rmSync(join(work, name), { recursive: true, force: true });
}
