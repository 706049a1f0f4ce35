import { readdirSync, renameSync, rmdirSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { ignoreErrors } from "./ignore-errors.js";
import { makeFolder } from "./make-folder.js";

/** Held by this process. */
const held = new Set<string>();

/**
 * Takes a lock: a folder that holds the process's number as a name. It is made aside and moved into place in one step, which
 * fails where one lies there already; so a lock that is held never lies there without its number. That of a process which
 * has ended no longer counts: its number is changed into one's own, in one step that succeeds for one process alone.
 *
 * @param lock path of the folder; what it lies in is made where it is missing
 * @throws where another process holds it; `what` is named in the words
 */
export function takeLock(lock: string, what: string): void {
  const own = `${lock}-${process.pid}`;
  for (let attempt = 1; ; attempt++) {
    makeAside(own, lock);
    const trouble = moved(own, lock);
    if (trouble === undefined) break;
    rmSync(own, { recursive: true, force: true });
    const holder = holderOf(lock);
    if (holder !== undefined && isRunning(holder, lock))
      throw new Error(
        `another build of ${what} is at work (process ${holder}); wait until it is done. If there is none, delete ${lock}`,
      );
    if (holder !== undefined && moved(numberIn(lock, holder), numberIn(lock)) === undefined) break;
    if (attempt === 10) throw trouble;
  }
  held.add(lock);
  clearAside(lock);
}

function makeAside(own: string, lock: string): void {
  try {
    makeFolder(numberIn(own));
  } catch (error) {
    // Half of it may be there.
    ignoreErrors(() => rmSync(own, { recursive: true, force: true }));
    ignoreErrors(() => rmdirSync(dirname(lock)));
    throw error;
  }
}

const numberIn = (lock: string, pid = process.pid) => join(lock, String(pid));

/** Moves a folder; where that can't be done, why. */
function moved(from: string, to: string): unknown {
  try {
    renameSync(from, to);
    return undefined;
  } catch (error) {
    return error;
  }
}

/** The process that a lock says it is held by; none where it has been given back meanwhile. What else lies in it is cleared. */
function holderOf(lock: string): number | undefined {
  const names = ignoreErrors(() => readdirSync(lock)) ?? [];
  const number = names.find((name) => /^[1-9]\d*$/.test(name));
  for (const name of names) if (name !== number) rmSync(join(lock, name), { recursive: true, force: true });
  if (names.length === 0) ignoreErrors(() => rmdirSync(lock));
  return number === undefined ? undefined : Number(number);
}

/** Removes what processes that were killed while they took the lock have left beside it. */
function clearAside(lock: string): void {
  const start = `${basename(lock)}-`;
  for (const name of readdirSync(dirname(lock))) {
    const pid = name.startsWith(start) ? Number(name.slice(start.length)) : 0;
    if (pid > 0 && !isRunning(pid, lock)) rmSync(join(dirname(lock), name), { recursive: true, force: true });
  }
}

/** Gives a lock back; one that another process takes in the middle of it stays. A lock that can't be removed ends with the process. */
export function giveBack(lock: string): void {
  ignoreErrors(() => rmdirSync(numberIn(lock)));
  ignoreErrors(() => rmdirSync(lock));
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
