import type { Routine } from "../../routine/routine.js";

/**
 * The classes of something that holds for some versions only: the style sheet hides it while another version is chosen.
 * What holds for all of them needs none.
 *
 * @example classesFor(routine, new Set(["1", "3"])) // "of v0 v2"
 */
export function classesFor(routine: Routine, versions: ReadonlySet<string>): string {
  if (versions.size === routine.versions.length) return "";
  const own = routine.versions.flatMap(({ id }, index) => (versions.has(id) ? [`v${index}`] : []));
  return ["of", ...own].join(" ");
}

/**
 * The part of the style sheet that makes the choice of a version work, without any script: one rule a version.
 *
 * @param most the largest number of versions that a routine of the library has
 */
export function versionStyle(most: number): string {
  const rule = (index: number) => `body:has(#v${index}:checked) .of:not(.v${index}){display:none!important}`;
  return `${Array.from({ length: most }, (_, index) => rule(index)).join("\n")}\n`;
}
