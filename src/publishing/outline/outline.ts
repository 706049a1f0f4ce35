import type { Library, Routine } from "../../routine/routine.js";
import * as parts from "./parts.js";

/** Parts in the order in which they are read. */
const printed = [
  parts.title,
  parts.summary,
  parts.gear,
  parts.levels,
  parts.form,
  parts.contents,
  parts.speeds,
  parts.links,
  parts.cautions,
  parts.music,
  parts.credit,
  parts.tags,
] as const;

/**
 * Parts in the order of their claim to the space. A part that no longer fits is left out whole, so that nothing is cut; what
 * comes after it still gets in where it fits. What must be said for safety and for credit comes first.
 */
const claims = [
  parts.title,
  parts.summary,
  parts.cautions,
  parts.credit,
  parts.music,
  parts.links,
  parts.gear,
  parts.levels,
  parts.form,
  parts.contents,
  parts.speeds,
  parts.tags,
] as const;

/**
 * The text for the video's description box: plain text without markup, since the box shows none. Its first two lines stand
 * alone. Within the library's limit, which counts Unicode code points (a letter with an accent or an emoji is one, however
 * many units of storage it takes), the last line break included; only the first line stays whatever the limit.
 */
export function outlineText(routine: Routine, library: Library): string {
  let kept = new Map(printed.slice(0, 1).map((part) => [part, part(routine, library)]));
  for (const part of claims.slice(1)) {
    const more = new Map(kept).set(part, part(routine, library));
    if ([...joined(more)].length <= library.outlineLimit) kept = more;
  }
  return joined(kept);
}

/** The first two lines follow each other; every other part has an empty line before it. */
function joined(texts: ReadonlyMap<parts.Part, string>): string {
  const opening = [parts.title, parts.summary].map((part) => texts.get(part)).filter(Boolean);
  const rest = printed
    .slice(2)
    .map((part) => texts.get(part))
    .filter(Boolean);
  return `${[opening.join("\n"), ...rest].join("\n\n")}\n`;
}
