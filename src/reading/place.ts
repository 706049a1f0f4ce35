import type { Place } from "../routine/problem.js";

/** Keys and list indexes that lead to a part of the front matter. */
export type Path = readonly (string | number)[];

/**
 * The name under which the schemas keep the keys of a mapping that are no fixed keys (counts, versions). It never stands in
 * a file: a text with a control character is refused before.
 */
export const rest = "\u0000rest";

/** The place of a part of a file: its path as a JSON Pointer (RFC 6901). */
export function placeOf(path: Path): Place {
  let place = "";
  for (const step of path) if (step !== rest) place += `/${escaped(String(step))}`;
  return place;
}

function escaped(step: string): string {
  return /[~/]/.test(step) ? step.replaceAll("~", "~0").replaceAll("/", "~1") : step;
}

/** The place that holds this one; the whole file's is "". */
export function parentOf(place: Place): Place {
  return place.slice(0, Math.max(0, place.lastIndexOf("/")));
}
