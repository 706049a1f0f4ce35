import { randomBytes } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import type { OutFile } from "../publishing/publisher.js";
import { listFiles, markName } from "./folders.js";

/** A folder beside the published one, in which a build is made before it takes the published one's place. */
export interface Staging {
  readonly folder: string;
  readonly write: (file: OutFile) => void;
  /** Swaps: from here on the published folder is this build's. */
  readonly publish: () => void;
  /** Leaves the published folder as it is and removes what was made. */
  readonly abandon: () => void;
}

/**
 * Opens a staging folder beside `out`, after clearing what a build that was killed has left behind.
 *
 * @throws where another build of the same folder is at work, or the place can't be written
 */
export function openStaging(out: string): Staging {
  const full = resolve(out);
  const parent = dirname(full);
  const prefix = `.${basename(full)}.`;
  mkdirSync(parent, { recursive: true });
  recover(parent, prefix, full);
  const folder = join(parent, `${prefix}new-${process.pid}-${randomBytes(4).toString("hex")}`);
  const old = folder.replace(`${prefix}new-`, `${prefix}old-`);
  mkdirSync(folder);
  return {
    folder,
    write: ({ path, content }) => {
      const target = join(folder, path);
      mkdirSync(dirname(target), { recursive: true });
      writeFileSync(target, content);
    },
    publish: () => {
      writeFileSync(join(folder, markName), `${listFiles(folder).join("\n")}\n`);
      if (existsSync(full)) renameSync(full, old);
      renameSync(folder, full);
      rmSync(old, { recursive: true, force: true });
    },
    abandon: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Cleans up after a build that was killed; if it was killed in the middle of the swap, puts the earlier pack back. */
function recover(parent: string, prefix: string, full: string): void {
  for (const name of readdirSync(parent)) {
    const match = name.startsWith(prefix) ? /^(new|old)-(\d+)-[0-9a-f]{8}$/.exec(name.slice(prefix.length)) : null;
    if (match === null) continue;
    if (Number(match[2]) !== process.pid && isRunning(Number(match[2])))
      throw new Error(`another build of ${full} is at work; wait until it is done`);
    const left = join(parent, name);
    if (match[1] === "old" && !existsSync(full)) renameSync(left, full);
    else rmSync(left, { recursive: true, force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
