import type { Move, Routine, Version } from "./routine.js";

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
