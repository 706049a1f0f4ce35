import type { TextFinding } from "./finding.js";
import type { RoutineKeys } from "./schema/routine.js";
import type { Front } from "./yaml.js";

/** Checks that nothing is said of a mirrored film that is not there, and that it is not the plain one again. */
export function videoFindings({ video }: RoutineKeys, locate: Front["locate"]): TextFinding[] {
  const { breakdown, "breakdown-mirrored": mirrored, "mirrored-by": by } = video;
  const error = (key: string, message: string): TextFinding[] => [
    { severity: "error", rule: "video", message, ...locate(`/video/${key}`) },
  ];
  if (by !== undefined && mirrored === undefined)
    return error(
      "mirrored-by",
      "`mirrored-by` says how the film at `breakdown-mirrored` was made, and there is none: add its link, or take this line out.",
    );
  if (mirrored !== undefined && mirrored === breakdown)
    return error(
      "breakdown-mirrored",
      "This is the link of `breakdown` again: write that of the mirrored film, or take this line out.",
    );
  return [];
}
