import type { DancedSection, Move, Routine, Version } from "./routine.js";

/** A section as a sheet prints it: once, with all the times that it is danced just so. */
export interface SheetSection {
  /** Index into the routine's sections of the first time, the one that is printed. */
  readonly section: number;
  /** Indexes of every pass that is danced the same way, the first included. */
  readonly danced: readonly number[];
}

/**
 * The sections to print, in danced order. Repeats and further walls of a section on the same side are one entry; a pass on
 * the other side is an entry of its own. Where a restart breaks the first time off, the first unbroken time is printed.
 */
export function sheetSections(routine: Routine): readonly SheetSection[] {
  const entries = new Map<string, number[]>();
  routine.sections.forEach((section, index) => {
    const key = `${section.written} ${section.mirrored}`;
    const danced = entries.get(key);
    if (danced === undefined) entries.set(key, [index]);
    else danced.push(index);
  });
  const size = (index: number) => routine.sections[index]?.counts ?? 0;
  return [...entries.values()].map((danced) => ({
    section: danced.reduce((longest, index) => (size(index) > size(longest) ? index : longest)),
    danced,
  }));
}

/** A version's moves in one danced section. */
export function movesIn(version: Version, section: number): readonly Move[] {
  return version.moves.filter((move) => move.section === section);
}

/** A section by its name. */
export interface SectionName {
  readonly section: string;
  /** Danced on the other side, where both sides are danced under this name. */
  readonly otherSide: boolean;
}

/** What is danced in one go: a section, or some of its phrases. */
export interface DancedName extends SectionName {
  /** The section, a pick-up and no more, that leads into it. */
  readonly pickUp?: string;
  /** The first and the last phrase, from 1, where it is less than the section. */
  readonly phrases?: readonly [from: number, to: number];
  /** How many phrases the section has. */
  readonly last: number;
  /** Counts in a phrase of the music. */
  readonly phrase: number;
}

/** The name that tells a danced section from the others of its routine. */
export function sectionName(routine: Routine, { name, mirrored }: DancedSection): SectionName {
  const both = routine.sections.some((other) => other.name === name && other.mirrored !== mirrored);
  return { section: name, otherSide: both && mirrored };
}
