import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";

/** Held by this process. */
const held = new Set<string>();

/**
 * Takes a lock: a folder that holds the process's number as a name. It is made aside and moved into place in one step, which
 * fails where one lies there already, on every system; so a lock never lies there without its number. That of a process
 * which has ended no longer counts.
 *
 * @param lock path of the folder; what it lies in is made where it is missing
 * @throws where another process holds it; `what` is named in the words
 */
export function takeLock(lock: string, what: string): void {
  const own = `${lock}-${process.pid}`;
  for (let attempt = 1; ; attempt++) {
    mkdirSync(join(own, String(process.pid)), { recursive: true });
    try {
      renameSync(own, lock);
      held.add(lock);
      clearAside(lock);
      return;
    } catch (error) {
      rmSync(own, { recursive: true, force: true });
      const holder = existsSync(lock) ? Number(readdirSync(lock)[0]) : 0;
      if (isRunning(holder, lock))
        throw new Error(
          `another build of ${what} is at work (process ${holder}); wait until it is done. If there is none, delete ${lock}`,
        );
      if (attempt === 10) throw error;
      rmSync(lock, { recursive: true, force: true });
    }
  }
}

/** Removes what processes that were killed while they took the lock have left beside it. */
function clearAside(lock: string): void {
  const start = `${basename(lock)}-`;
  for (const name of readdirSync(dirname(lock))) {
    const pid = name.startsWith(start) ? Number(name.slice(start.length)) : 0;
    if (pid > 0 && !isRunning(pid, lock)) rmSync(join(dirname(lock), name), { recursive: true, force: true });
  }
}

export function giveBack(lock: string): void {
  rmSync(lock, { recursive: true, force: true });
  held.delete(lock);
}

/** A number may come again: one's own on a lock that this process does not hold is left from an earlier run. */
function isRunning(pid: number, lock: string): boolean {
  if (!(pid > 0)) return false;
  if (pid === process.pid) return held.has(lock);
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
