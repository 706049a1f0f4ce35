import { type FSWatcher, watch } from "node:fs";
import { join } from "node:path";

/** Milliseconds of quiet after which a save counts as done: editors write a file in several steps. */
const quiet = 25;
/** Milliseconds after which a folder that the system can't watch is looked at again. */
const patience = 1000;

/**
 * Calls back when something in a content folder was written, added or removed.
 *
 * @returns what ends the watch
 */
export function watchContent(contentDir: string, changed: () => void): () => void {
  const watchers = new Map<string, FSWatcher>();
  let waiting: NodeJS.Timeout | undefined;
  const soon = () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      watchAll();
      changed();
    }, quiet);
  };
  const lost = (folder: string) => {
    watchers.get(folder)?.close();
    watchers.delete(folder);
  };
  /** A folder may come and go while it is watched, so each is tried again after every change. */
  const watchAll = () => {
    for (const folder of [contentDir, join(contentDir, "routines"), join(contentDir, "workshops")]) {
      if (watchers.has(folder)) continue;
      try {
        watchers.set(
          folder,
          watch(folder, soon).on("error", () => lost(folder)),
        );
      } catch {}
    }
  };
  watchAll();
  const again = watchers.has(contentDir) ? undefined : setInterval(changed, patience);
  return () => {
    clearTimeout(waiting);
    clearInterval(again);
    for (const folder of [...watchers.keys()]) lost(folder);
  };
}
