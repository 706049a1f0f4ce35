import { copyFileSync, linkSync, mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Cache, CachedUnit } from "./cache.js";
import { holds } from "./digest.js";
import type { Unit } from "./units.js";

/** What was made last time, would come out the same again, and still lies in the published folder byte by byte; or none. */
export function reusable(
  cached: Cache["made"],
  published: string,
  { place }: Unit,
  key: string,
): readonly [string, CachedUnit][] {
  const made = cached[place];
  return made?.key === key && holds(published, made.files) ? [[place, made]] : [];
}

/** Hard-links files of one folder into another one, else copies them. */
export function linkFiles(from: string, to: string, files: readonly string[]): void {
  for (const folder of new Set(files.map((path) => dirname(path)))) mkdirSync(join(to, folder), { recursive: true });
  for (const path of files) {
    try {
      linkSync(join(from, path), join(to, path));
    } catch {
      copyFileSync(join(from, path), join(to, path));
    }
  }
}
