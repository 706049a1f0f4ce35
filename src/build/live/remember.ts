import { statSync } from "node:fs";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { type ReadFile, readTextFile, type TextFile } from "../../reading/files.js";

/** Reads files, and for as long as the program runs reads again only those that were written since. */
export function rememberingReader(): ReadFile {
  const known = new Map<string, { readonly stamp: string; readonly file: TextFile }>();
  return async (contentDir, ...names) => {
    const path = join(contentDir, ...names);
    const stamp = stampOf(path);
    const before = known.get(path);
    if (stamp !== undefined && before?.stamp === stamp) return before.file;
    const file = await readWhole(before?.file, () => readTextFile(contentDir, ...names));
    if (stamp === undefined) known.delete(path);
    else known.set(path, { stamp, file });
    return file;
  };
}

/** Milliseconds between looks at a file that has nothing in it, and most of them. */
const [pause, looks] = [50, 10];

/** Programs empty a file and then write it anew: one that had something in it is looked at again before its emptiness is believed. */
async function readWhole(before: TextFile | undefined, read: () => Promise<TextFile>): Promise<TextFile> {
  let file = await read();
  for (let look = 1; look < looks && file.text === "" && before?.text; look++) {
    await setTimeout(pause);
    file = await read();
  }
  return file;
}

/** Changes whenever a file is written: the time of its last change, which nobody can set back, to the nanosecond. */
function stampOf(path: string): string | undefined {
  const stats = statSync(path, { bigint: true, throwIfNoEntry: false });
  return stats && [stats.ino, stats.size, stats.mtimeNs, stats.ctimeNs].join(" ");
}
