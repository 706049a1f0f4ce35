import type { Routine, Workshop } from "../../routine/routine.js";
import { type Lesson, lessonOf, type SectionNames } from "../lesson.js";
import { heaviestOf, type Load, plus } from "../load.js";
import type { Material } from "../material.js";
import type { CourseSection } from "./course-plan.js";
import type { Unit } from "./share.js";

/** A section as a course comes by it: all that is danced under its name. */
export interface SectionUnit extends Unit, CourseSection {
  /** Indexes of its chunks in the course's material. */
  readonly chunks: readonly number[];
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
  return { units: [...before, ...of(taught)], known: before.length };
}

/** Some sections of a routine in the order of the dance, each once. */
function inOrder({ sections }: Routine, names: readonly string[]): readonly string[] {
  return [...new Set(sections.map(({ name }) => name))].filter((name) => names.includes(name));
}

/** Nothing of a section that has nothing to teach, such as time without counts. */
function unitOf({ slug, title }: Routine, section: string, { chunks }: Material): readonly SectionUnit[] {
  const own = chunks.flatMap((chunk, index) =>
    chunk.routine.slug === slug && chunk.section.name === section ? [{ ...chunk, index }] : [],
  );
  if (own.length === 0) return [];
  const load = own.reduce((sum: Load, { loads }) => plus(sum, heaviestOf(loads).taught), {});
  const points = own.reduce((sum, chunk) => sum + chunk.points, 0);
  return [{ routine: slug, title, section, points, load, chunks: own.map(({ index }) => index) }];
}

/** Some units as the class planner takes them. */
export function namesOf(units: readonly CourseSection[]): SectionNames {
  const names: Record<string, string[]> = {};
  for (const { routine, section } of units) names[routine] = [...(names[routine] ?? []), section];
  return names;
}

/** A lesson that teaches and recalls some units, and runs them together with all that is known. */
export function lessonWith(
  taught: readonly CourseSection[],
  recalled: readonly CourseSection[],
  known: readonly CourseSection[],
): Lesson {
  return {
    taught: namesOf(taught),
    recalled: namesOf(recalled),
    danced: namesOf(known.filter((unit) => !recalled.includes(unit))),
    endsInRun: true,
  };
}
