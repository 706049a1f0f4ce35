import type { Routine, Workshop } from "../../routine/routine.js";
import { type Lesson, lessonOf, type SectionNames } from "../lesson.js";
import { heaviestOf, type Load, plus } from "../load.js";
import { type Material, sectionsIn } from "../material.js";
import type { CourseSection } from "./course-plan.js";
import type { Unit } from "./share.js";

/** A section as a course comes by it: all that is danced under its name. */
export interface SectionUnit extends Unit, CourseSection {
  /** Indexes of its chunks in the course's material. */
  readonly chunks: readonly number[];
  /** All names that are danced in it, in order: its own, and before it that of a pick-up, unless a unit before has that too. */
  readonly names: readonly string[];
}

/** Everything that a course has, in the order in which it is taught: what was known before it, then each routine in the order of the dance. */
export function unitsOf(
  workshop: Pick<Workshop, "routines" | "sections" | "known">,
  material: Material,
): { readonly units: readonly SectionUnit[]; readonly known: number } {
  const { taught, recalled } = lessonOf(workshop);
  const of = (names: SectionNames) =>
    workshop.routines.flatMap((routine) =>
      inOrder(routine, names[routine.slug] ?? []).flatMap((section) => unitOf(routine, section, material)),
    );
  const before = of(recalled);
  return { units: eachOnce([...before, ...of(taught)]), known: before.length };
}

/** Every name with the first unit that has it. */
function eachOnce(units: readonly SectionUnit[]): readonly SectionUnit[] {
  return units.map((unit, index) => {
    const earlier = units.slice(0, index).filter(({ routine }) => routine === unit.routine);
    return { ...unit, names: unit.names.filter((name) => earlier.every(({ names }) => !names.includes(name))) };
  });
}

/** The sections of a unit, as people know them. */
export function sectionsOf({ routine, title, names }: SectionUnit): readonly CourseSection[] {
  return names.map((section) => ({ routine, title, section }));
}

/** Some sections of a routine in the order of the dance, each once. */
function inOrder({ sections }: Routine, names: readonly string[]): readonly string[] {
  return [...new Set(sections.map(({ name }) => name))].filter((name) => names.includes(name));
}

/** Nothing of a section that is taught along with another one: a pick-up. */
function unitOf({ slug, title }: Routine, section: string, { chunks }: Material): readonly SectionUnit[] {
  const own = chunks.flatMap((chunk, index) =>
    chunk.routine.slug === slug && chunk.section.name === section ? [{ ...chunk, index }] : [],
  );
  if (own.length === 0) return [];
  const load = own.reduce((sum: Load, { loads }) => plus(sum, heaviestOf(loads).taught), {});
  const points = own.reduce((sum, chunk) => sum + chunk.points, 0);
  const names = [...new Set(own.flatMap(sectionsIn))];
  return [
    { routine: slug, title, section, points, load, goes: own.length, chunks: own.map(({ index }) => index), names },
  ];
}

/** Some units as the class planner takes them. */
function namesOf(units: readonly SectionUnit[]): SectionNames {
  const all: Record<string, readonly string[]> = {};
  for (const { routine, names } of units) all[routine] = [...(all[routine] ?? []), ...names];
  return all;
}

/** A lesson that teaches and recalls some units, and runs them together with all that is known. */
export function lessonWith(
  taught: readonly SectionUnit[],
  recalled: readonly SectionUnit[],
  known: readonly SectionUnit[],
): Lesson {
  return {
    taught: namesOf(taught),
    recalled: namesOf(recalled),
    danced: namesOf(known.filter((unit) => !recalled.includes(unit))),
    endsInRun: true,
  };
}
