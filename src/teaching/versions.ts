import type { Routine, Version } from "../routine/routine.js";
import { versionAt } from "../routine/version-at.js";

/** The version that a class is taught, and the one that is danced for a limit's sake. */
export interface Versions {
  readonly easiest: Version;
  readonly taught: Version;
  /** The highest level, where it is above the taught one: its options are offered. */
  readonly offered?: Version;
}

/** A class at an adaptation has no easier level to go to; a routine without the level asked for is taught at the nearest easier one. */
export function versionsFor(routine: Routine, level: string): Versions {
  const taught = versionAt(routine, level);
  const easiest = routine.versions.find(({ id }) => id === routine.levels[0]);
  if (taught.kind !== "level") return { taught, easiest: taught };
  const highest = routine.versions.find(({ id }) => id === routine.levels.at(-1));
  return { taught, easiest: easiest ?? taught, ...(highest && highest !== taught && { offered: highest }) };
}
