import type { Workshop } from "../routine/routine.js";

/** Names of sections, by the slug of their routine. */
export type SectionNames = Readonly<Record<string, readonly string[]>>;

/**
 * What one class teaches, recalls and runs, given by values. A single class has it from its file (`lessonOf`); a course says
 * it lesson by lesson: `planClass(workshop, library, { taught, recalled, danced })`. A section that none of the three names is
 * no part of the class, and its runs leave it out.
 */
export interface Lesson {
  /** Taught from nothing, in the order of the dance. */
  readonly taught: SectionNames;
  /** Danced before, and gone through again before anything new: the recap. */
  readonly recalled: SectionNames;
  /** Danced before: no time of its own, but the runs dance it along with all the rest. */
  readonly danced: SectionNames;
}

/** How a class comes by a section; absent where it does not. */
export type SectionUse = keyof Lesson;

/** What a file asks for: all its sections, or those that it names, and of these the known ones as a recap. */
export function lessonOf({ routines, sections, known }: Pick<Workshop, "routines" | "sections" | "known">): Lesson {
  const taught: Record<string, readonly string[]> = {};
  const recalled: Record<string, readonly string[]> = {};
  for (const { slug, sections: danced } of routines) {
    const asked = of(sections, slug) ?? danced.map(({ name }) => name);
    const before = of(known, slug) ?? [];
    const names = [...new Set(asked)];
    taught[slug] = names.filter((name) => !before.includes(name));
    recalled[slug] = names.filter((name) => before.includes(name));
  }
  return { taught, recalled, danced: {} };
}

/** How a lesson comes by a section of a routine. */
export function useOf(lesson: Lesson, slug: string, section: string): SectionUse | undefined {
  const uses = ["taught", "recalled", "danced"] as const;
  return uses.find((use) => of(lesson[use], slug)?.includes(section));
}

function of(names: SectionNames | undefined, slug: string): readonly string[] | undefined {
  return names !== undefined && Object.hasOwn(names, slug) ? names[slug] : undefined;
}
