import { chart } from "../routine/chart.js";
import type { Routine } from "../routine/routine.js";
import { type SheetSection, sheetSections } from "../routine/sheet.js";
import { chunksIn } from "./chunks.js";
import { learnt, loadsOf, movesBySection } from "./dancers.js";
import { rateMoves } from "./difficulty.js";
import { type Lesson, lessonOf, type SectionUse, useOf } from "./lesson.js";
import type { Chunk, Material, Recap, RoutinePart } from "./material.js";
import { asMarked } from "./never-slowed.js";
import { type Entry, partsOf, recapOf } from "./parts.js";
import type { TeachingSettings } from "./settings.js";
import { versionsFor } from "./versions.js";

/**
 * Everything that a class teaches and recalls.
 *
 * @param lesson what of it a class comes by, and how; absent: all of it is taught
 */
export function materialOf(
  routines: readonly Routine[],
  level: string,
  settings: TeachingSettings,
  lesson: Lesson = lessonOf({ routines }),
): Material {
  const parts: RoutinePart[] = [];
  const recaps: Recap[] = [];
  const chunks: Chunk[] = [];
  let met: ReadonlySet<string> = new Set();
  for (const routine of routines) {
    const versions = versionsFor(routine, level);
    const moves = movesBySection(routine, versions);
    const charted = chart(routine, versions.taught);
    const sheet = sheetIn(lesson, routine);
    const learntIn = (section: number) => learnt(moves[section] ?? []);
    // What was danced before is met before anything new is, wherever it stands in the dance.
    for (const { section, use } of sheet)
      if (use !== "taught") met = rateMoves(learntIn(section), settings.points, met).met;
    const entries = sheet.map(({ section, use, ...entry }): Entry => {
      const rating = rateMoves(learntIn(section), settings.points, met);
      met = rating.met;
      const here = charted.filter((one) => one.section === section);
      const cut = chunksIn(routine, section, here, rating.rated, moves[section] ?? [], settings);
      const first = chunks.length;
      chunks.push(...cut);
      return { sheet: { section, ...entry }, use, chunks: cut.map((_, index) => first + index) };
    });
    const danced = {
      routine,
      versions,
      entries,
      loads: moves.map(loadsOf),
      slowLoads: moves.map((one) => loadsOf(asMarked(one))),
    };
    const recap = recapOf(danced);
    parts.push(...partsOf(danced));
    if (recap) recaps.push(recap);
  }
  return { parts, chunks, recaps, endsInRun: lesson.endsInRun ?? false };
}

/** The sections that a class dances. There is nothing to teach in time without counts; it is waited for wherever a run comes by it. */
function sheetIn(lesson: Lesson, routine: Routine): readonly (SheetSection & { readonly use: SectionUse })[] {
  return sheetSections(routine).flatMap((entry) => {
    const section = routine.sections[entry.section];
    if (section === undefined || section.seconds !== undefined) return [];
    const use = useOf(lesson, routine.slug, section.name);
    return use === undefined ? [] : [{ ...entry, use }];
  });
}
