import type { WrittenRoutine } from "../routine/written.js";
import type { TextFinding } from "./finding.js";
import type { Front } from "./yaml.js";

/** Checks that no section says two things at once about where its counts come from. */
export function sectionFindings({ sections }: WrittenRoutine, locate: Front["locate"]): TextFinding[] {
  return sections.flatMap(({ place, counts, sameAs, change }) => {
    const error = (key: string, message: string): TextFinding[] => [
      { severity: "error", rule: "section", message, ...locate(`${place}/${key}`) },
    ];
    if (counts && sameAs !== undefined) {
      return error(
        "same-as",
        "This section has `counts` of its own and is danced as another: take one of the two out. What differs from the other goes under `change`, by the number of the phrase.",
      );
    }
    if (change.length > 0 && sameAs === undefined) {
      return error("change", "`change` goes with `same-as`: here, change the counts themselves.");
    }
    return [];
  });
}
