import { type Dancers, dancersOf } from "./chart.js";
import type { Routine, Version } from "./routine.js";
import type { Risk } from "./vocabulary.js";

/**
 * The groups of a version that meet a risk; nobody by name where all do, or where what they wear brings it along.
 *
 * @example groupsMeeting(routine, routine.versions[0], "jump") // []
 */
export function groupsMeeting(routine: Routine, version: Version, risk: Risk): readonly string[] {
  const all = dancersOf(routine, version);
  const those = all.filter(({ moves }) => moves.some(({ risks }) => risks.includes(risk)));
  return those.length === all.length ? [] : those.flatMap(({ group }) => group ?? []);
}

/** The same over several versions, of one routine or of many: by name only where no version has all of its dancers meet it. */
export function whoMeets(
  dances: readonly { readonly routine: Routine; readonly version: Version }[],
  risk: Risk,
): readonly string[] {
  const met = dances.filter(({ version }) => version.cautions.includes(risk));
  const groups = met.map(({ routine, version }) => groupsMeeting(routine, version, risk));
  return groups.some(({ length }) => length === 0) ? [] : [...new Set(groups.flat())];
}

/** Dancers that are alike in some way, with their names where not all are. */
export interface Alike {
  readonly dancers: Dancers;
  readonly names: readonly string[];
}

/** The dancers of a version, those together that look alike; one entry without names where all do. */
export function alike(routine: Routine, version: Version, look: (dancers: Dancers) => string): readonly Alike[] {
  const found = new Map<string, Dancers[]>();
  for (const dancers of dancersOf(routine, version)) {
    const same = found.get(look(dancers));
    if (same === undefined) found.set(look(dancers), [dancers]);
    else same.push(dancers);
  }
  return [...found.values()].flatMap(([dancers, ...others]): readonly Alike[] => {
    if (dancers === undefined) return [];
    const names = found.size === 1 ? [] : [dancers, ...others].flatMap(({ group }) => group ?? []);
    return [{ dancers, names }];
  });
}

/** Groups that dance as the first one does, on the other side. */
export function oppositeGroups({ versions }: Routine): ReadonlySet<string> {
  const opposite = versions.flatMap(({ moves, groups }) => {
    const first = new Map(moves.map((move) => [move.place, move]));
    return groups.filter((group) => {
      const pairs = group.moves.flatMap((move) => {
        const model = first.get(move.place);
        return model === undefined ? [] : [[move, model] as const];
      });
      const exchanged = ([move, model]: (typeof pairs)[number]) => move.cue.text === model.mirroredCue.text;
      const differs = ([move, model]: (typeof pairs)[number]) => move.cue.text !== model.cue.text;
      return pairs.every(exchanged) && pairs.some(differs);
    });
  });
  return new Set(opposite.map(({ name }) => name));
}
