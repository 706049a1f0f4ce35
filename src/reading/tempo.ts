import type { TextFinding } from "./finding.js";
import { placeOf } from "./place.js";
import type { RoutineKeys, SectionKeys } from "./schema/routine.js";
import { tempoFault } from "./schema/tempo.js";
import type { Front } from "./yaml.js";

/** Checks that each section can be danced at its tempo, its own or what it takes over, halved or doubled where it says so. */
export function tempoFindings({ music, sections }: RoutineKeys, locate: Front["locate"]): TextFinding[] {
  return sections.flatMap((section, index): TextFinding[] => {
    // Of what a section takes over everything is said where that stands.
    if (!section.tempo && !section.time) return [];
    const { tempo, time } = takenOver(section, sections);
    const message = tempoFault(tempo ?? { countsPerMinute: music.tempo.countsPerMinute }, time);
    if (message === undefined) return [];
    const key = section.tempo ? "tempo" : "time";
    return [{ severity: "error", rule: "value", message, ...locate(placeOf(["sections", index, key]), "value") }];
  });
}

/** A section's tempo and time with what `same-as` brings along, as far as that leads anywhere. */
function takenOver(section: SectionKeys, sections: readonly SectionKeys[]): Pick<SectionKeys, "tempo" | "time"> {
  const seen = new Set([section]);
  let { tempo, time } = section;
  for (const one of seen) {
    tempo ??= one.tempo;
    time ??= one.time;
    const next = sections.find((other) => other !== one && other.name === one["same-as"]);
    if (next) seen.add(next);
  }
  return { tempo, time };
}
