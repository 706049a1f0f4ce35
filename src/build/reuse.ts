import { copyFileSync, linkSync, mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { holds } from "./digest.js";
import type { Kept, KeptUnit } from "./kept.js";
import type { Unit } from "./units.js";

/** What was made last time, would come out the same again, and still lies in the published folder byte by byte; or none. */
export function reusable(
  kept: Kept["made"],
  published: string,
  { place }: Unit,
  key: string,
): readonly [string, KeptUnit][] {
  const made = kept[place];
  return made?.key === key && holds(published, made.files) ? [[place, made]] : [];
}

/** Has files of one folder in another one as well: without a copy, where the disk can do that. */
export function share(from: string, to: string, files: readonly string[]): void {
  for (const folder of new Set(files.map((path) => dirname(path)))) mkdirSync(join(to, folder), { recursive: true });
  for (const path of files) {
    try {
      linkSync(join(from, path), join(to, path));
    } catch {
      copyFileSync(join(from, path), join(to, path));
    }
  }
}
