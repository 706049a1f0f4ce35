import type { DancedSection, Routine } from "../routine/routine.js";

/**
 * How a routine that is danced several times through is built, in sentences: its counts, walls and times, its tags, its
 * restarts, and where each time starts facing. Nothing for a routine that is danced once.
 *
 * @example formText(lineDance) // ["32 counts, 4 walls, 6 times through.", "Tag: 4 counts, on walls 2 and 4.", …]
 */
export function formText(routine: Routine): readonly string[] {
  const { times, walls, restarts } = routine;
  if (times === 1) return [];
  // Line dancers call each time through a wall, whichever way it faces.
  const time = walls > 1 ? "wall" : "time";
  const plain = Math.max(...wallsOf(routine).map((sections) => countsOf(sections.filter(({ tag }) => !tag))));
  return [
    `${plain} counts, ${walls > 1 ? `${walls} walls, ` : ""}${times} times through.`,
    ...tags(routine).map(([name, counts, on]) => `${name}: ${counts} counts, on ${timesText(time, on)}.`),
    ...restarts.map(({ wall, after }) => `Restart: ${time} ${wall} breaks off after ${after} counts.`),
    ...(walls > 1 ? [`The walls start facing ${startFacings(routine).join(", ")}.`] : []),
  ];
}

function wallsOf({ times, sections }: Routine): readonly (readonly DancedSection[])[] {
  return Array.from({ length: times }, (_, index) => sections.filter(({ wall }) => wall === index + 1));
}

function countsOf(sections: readonly DancedSection[]): number {
  return sections.reduce((sum, { counts }) => sum + counts, 0);
}

function tags(routine: Routine): readonly (readonly [name: string, counts: number, on: readonly number[]])[] {
  const found = new Map<number, DancedSection[]>();
  for (const section of routine.sections)
    if (section.tag) found.set(section.written, [...(found.get(section.written) ?? []), section]);
  return [...found.values()].map((sections) => [
    sections[0]?.name ?? "",
    countsOf(sections.filter(({ wall }) => wall === sections[0]?.wall)),
    [...new Set(sections.map(({ wall }) => wall))],
  ]);
}

/** Where the taught version faces as each time through begins. */
function startFacings(routine: Routine): readonly string[] {
  const version = routine.versions.find(({ id }) => id === routine.taught);
  return wallsOf(routine).map(([first]) => {
    const before = version?.moves.findLast(({ at }) => at.lt(first?.at ?? 0));
    return before?.after.facing ?? version?.start.facing ?? "front";
  });
}

function timesText(time: string, times: readonly number[]): string {
  const last = times.at(-1);
  return times.length === 1 ? `${time} ${last}` : `${time}s ${times.slice(0, -1).join(", ")} and ${last}`;
}
