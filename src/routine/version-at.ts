import type { Routine, Version } from "./routine.js";

/**
 * The version of a routine for a class at a level: that level, or the nearest easier one that the routine has, or its
 * easiest. Levels that are no numbers have no order among routines: there the routine is danced as it is taught.
 */
export function versionAt(routine: Routine, level: string): Version {
  const find = (id: string | undefined) => routine.versions.find((version) => version.id === id);
  const easier = routine.levels.filter((id) => Number(id) <= Number(level)).at(-1);
  const numbered = [level, ...routine.levels].every((id) => id.trim() !== "" && Number.isFinite(Number(id)));
  const version = find(level) ?? find(numbered ? (easier ?? routine.levels[0]) : routine.taught) ?? routine.versions[0];
  if (version === undefined) throw new Error(`The routine ${routine.slug} has no version.`);
  return version;
}
