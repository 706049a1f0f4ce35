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
  return path
    .filter((step) => step !== rest)
    .map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`)
    .join("");
}

/** The place that holds this one; the whole file's is "". */
export function parentOf(place: Place): Place {
  return place.slice(0, Math.max(0, place.lastIndexOf("/")));
}
