import { type FSWatcher, statSync, watch } from "node:fs";
import { join } from "node:path";
import { ignoreErrors } from "../ignore-errors.js";

/** Milliseconds of quiet after which a save counts as done: editors write a file in several steps. */
const quiet = 25;
/** Milliseconds after which folders are looked at that the system can't watch, or that have been replaced. */
const patience = 1000;

interface Watched {
  readonly watcher: FSWatcher;
  /** The folder itself: another one may have taken its place, of which the system says nothing. */
  readonly inode: bigint;
}

/**
 * Calls back when something in a content folder was written, added or removed.
 *
 * @returns what ends the watch
 */
export function watchContent(contentDir: string, changed: () => void): () => void {
  const watched = new Map<string, Watched>();
  let waiting: NodeJS.Timeout | undefined;
  const soon = () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      watchAll();
      changed();
    }, quiet);
  };
  const lose = (folder: string) => {
    watched.get(folder)?.watcher.close();
    return watched.delete(folder);
  };
  /** Watches a folder, or the one that has taken its place; true where it may have changed unseen. */
  const watchOne = (folder: string): boolean => {
    const inode = ignoreErrors(() => statSync(folder, { bigint: true }).ino);
    if (inode === undefined) return lose(folder);
    if (watched.get(folder)?.inode === inode) return false;
    lose(folder);
    const watcher = ignoreErrors(() => watch(folder, soon).on("error", () => lose(folder)));
    if (watcher) watched.set(folder, { watcher, inode });
    return true;
  };
  const folders = [contentDir, join(contentDir, "routines"), join(contentDir, "workshops")];
  const watchAll = () => folders.map(watchOne).includes(true);
  watchAll();
  const looking = setInterval(() => {
    if (watchAll()) soon();
  }, patience);
  return () => {
    clearTimeout(waiting);
    clearInterval(looking);
    for (const folder of folders) lose(folder);
  };
}
