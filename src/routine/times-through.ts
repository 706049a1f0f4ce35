import type { DancedSection, Routine } from "./routine.js";
import type { Facing } from "./vocabulary.js";

/** How a routine is built that is danced several times through. */
export interface TimesThrough {
  /** Counts of a time through without its tags, where none breaks it off. */
  readonly counts: number;
  readonly walls: number;
  readonly times: number;
  /** Sections that are danced on some times through only, and on which. */
  readonly tags: readonly { readonly name: string; readonly counts: number; readonly on: readonly number[] }[];
  readonly restarts: Routine["restarts"];
  /** Where the taught version faces as each time through begins. */
  readonly startFacings: readonly Facing[];
}

/** How a routine is built that is danced several times through; nothing for one that is danced once. */
export function timesThrough(routine: Routine): TimesThrough | undefined {
  const { times, walls, restarts } = routine;
  if (times === 1) return undefined;
  const counts = Math.max(...eachTime(routine).map((sections) => countsOf(sections.filter(({ tag }) => !tag))));
  return { counts, walls, times, tags: tagsOf(routine), restarts, startFacings: startFacings(routine) };
}

function eachTime({ times, sections }: Routine): readonly (readonly DancedSection[])[] {
  return Array.from({ length: times }, (_, index) => sections.filter(({ wall }) => wall === index + 1));
}

function countsOf(sections: readonly DancedSection[]): number {
  return sections.reduce((sum, { counts }) => sum + counts, 0);
}

function tagsOf(routine: Routine): TimesThrough["tags"] {
  const found = new Map<number, DancedSection[]>();
  for (const section of routine.sections)
    if (section.tag) found.set(section.written, [...(found.get(section.written) ?? []), section]);
  return [...found.values()].map((sections) => ({
    name: sections[0]?.name ?? "",
    counts: countsOf(sections.filter(({ wall }) => wall === sections[0]?.wall)),
    on: [...new Set(sections.map(({ wall }) => wall))],
  }));
}

function startFacings(routine: Routine): readonly Facing[] {
  const version = routine.versions.find(({ id }) => id === routine.taught);
  return eachTime(routine).map(([first]) => {
    const before = version?.moves.findLast(({ at }) => at.lt(first?.at ?? 0));
    return before?.after.facing ?? version?.start.facing ?? "front";
  });
}
