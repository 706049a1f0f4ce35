import type { TextFinding } from "./finding.js";
import { placeOf } from "./place.js";
import type { RoutineKeys } from "./schema/routine.js";
import { tempoFault } from "./schema/tempo.js";
import type { Front } from "./yaml.js";

/** Checks that each section can be danced at its tempo, its own or the music's, halved or doubled where it says so. */
export function tempoFindings({ music, sections }: RoutineKeys, locate: Front["locate"]): TextFinding[] {
  return sections.flatMap(({ tempo, time }, index): TextFinding[] => {
    // Of the music's own tempo everything is said where that stands.
    if (!tempo && !time) return [];
    const message = tempoFault(tempo ?? { countsPerMinute: music.tempo }, time);
    if (message === undefined) return [];
    const key = tempo ? "tempo" : "time";
    return [{ severity: "error", rule: "value", message, ...locate(placeOf(["sections", index, key]), "value") }];
  });
}
