import { type ChartPhrase, chart } from "../routine/chart.js";
import type { DancedPhrase, Routine } from "../routine/routine.js";
import { type SheetSection, sheetSections } from "../routine/sheet.js";
import { chunksIn, isPickUp, uncountedChunk } from "./chunks.js";
import { dancedBefore, type PhrasesDanced, withPhrases } from "./danced-before.js";
import { type GroupMoves, learnt, loadsOf, movesBySection } from "./dancers.js";
import { rateMoves } from "./difficulty.js";
import { type Lesson, lessonOf, type SectionUse, useOf } from "./lesson.js";
import type { GroupLoads } from "./load.js";
import type { Chunk, Material, Recap, RoutinePart } from "./material.js";
import { asMarked } from "./never-slowed.js";
import { optionsBy } from "./options.js";
import { type Entry, partsOf, recapOf } from "./parts.js";
import type { TeachingSettings } from "./settings.js";
import { type Versions, versionsFor } from "./versions.js";

/** A section of the sheet as a class comes by it, with the pick-up that leads into it. */
interface UsedSection extends SheetSection {
  readonly use: SectionUse;
  readonly pickUp?: number;
}

/** What a class has met by now, and what there is of it so far. */
interface Gathered {
  readonly parts: RoutinePart[];
  readonly recaps: Recap[];
  readonly chunks: Chunk[];
  met: ReadonlySet<string>;
}

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
  const gathered: Gathered = { parts: [], recaps: [], chunks: [], met: new Set() };
  for (const routine of routines) gather(gathered, preparedOf(routine, level), sheetIn(lesson, routine), settings);
  const { recaps, chunks } = gathered;
  // A routine that is only danced again comes last: a class ends with what it knows.
  const isRunOnly = ({ routine, chunks: taught }: RoutinePart) =>
    taught.length === 0 && !recaps.some((recap) => recap.routine === routine);
  const parts = [...gathered.parts.filter((part) => !isRunOnly(part)), ...gathered.parts.filter(isRunOnly)];
  return { parts, recaps, chunks };
}

/** What of a routine at a level is so in every class. */
interface Prepared {
  readonly routine: Routine;
  readonly versions: Versions;
  readonly moves: readonly (readonly GroupMoves[])[];
  readonly charted: readonly ChartPhrase[];
  readonly options: ReturnType<typeof optionsBy>;
  readonly loads: readonly GroupLoads[];
  readonly slowLoads: readonly GroupLoads[];
}

const prepared = new WeakMap<Routine, Map<string, Prepared>>();

/** Worked out once for all the lessons of a course. */
function preparedOf(routine: Routine, level: string): Prepared {
  const known = prepared.get(routine) ?? new Map<string, Prepared>();
  prepared.set(routine, known);
  const there = known.get(level);
  if (there) return there;
  const versions = versionsFor(routine, level);
  const moves = movesBySection(routine, versions);
  const made = {
    ...{ routine, versions, moves },
    charted: chart(routine, versions.taught),
    options: optionsBy(routine, versions.taught),
    loads: moves.map(loadsOf),
    slowLoads: moves.map((one) => loadsOf(asMarked(one))),
  };
  known.set(level, made);
  return made;
}

function gather(to: Gathered, of: Prepared, sheet: readonly UsedSection[], settings: TeachingSettings): void {
  const { routine, versions, moves, charted, options, loads, slowLoads } = of;
  let phrases: PhrasesDanced = new Map();
  const meet = ({ section }: UsedSection) => {
    const danced = routine.sections[section];
    if (danced) phrases = withPhrases(phrases, danced, moves[section] ?? []);
  };
  const rated = ({ section, pickUp }: UsedSection) => {
    const rating = rateMoves(learntIn(moves, section, pickUp), settings.points, to.met);
    to.met = rating.met;
    return rating.rated;
  };
  // What was danced before is met before anything new is, wherever it stands in the dance.
  for (const used of sheet)
    if (used.use !== "taught") {
      rated(used);
      meet(used);
    }
  const entries = sheet.map((used): Entry => {
    const { section, use, pickUp, ...entry } = used;
    const dancers = [section, ...(pickUp === undefined ? [] : [pickUp])].map((one) => moves[one] ?? []);
    const uncut = {
      ...{ routine, sectionIndex: section, rated: rated(used), dancers, options },
      phrases: charted.filter((one) => one.section === section || one.section === pickUp),
      ...(pickUp !== undefined && { pickUp }),
      before: (phrase: DancedPhrase) => {
        const danced = routine.sections[section];
        return use === "taught" && danced ? dancedBefore(phrases, danced, phrase, moves[section] ?? []) : undefined;
      },
    };
    const isUncounted = routine.sections[section]?.seconds !== undefined;
    const cut = isUncounted ? [uncountedChunk(routine, section, dancers[0] ?? [])] : chunksIn(uncut, settings);
    meet(used);
    const first = to.chunks.length;
    to.chunks.push(...cut);
    return { sheet: { section, ...entry }, use, chunks: cut.map((_, index) => first + index) };
  });
  const entryAt = new Map(entries.flatMap(({ sheet }, entry) => sheet.danced.map((index) => [index, entry] as const)));
  const danced = { routine, versions, entries, entryAt, loads, slowLoads };
  const recap = recapOf(danced);
  to.parts.push(...partsOf(danced));
  if (recap) to.recaps.push(recap);
}

function learntIn(moves: readonly (readonly GroupMoves[])[], section: number, pickUp: number | undefined) {
  const led = pickUp === undefined ? [] : learnt(moves[pickUp] ?? []);
  return [...led, ...learnt(moves[section] ?? [])];
}

/** The sections that a class dances; a pick-up goes with the section that it leads into. */
function sheetIn(lesson: Lesson, routine: Routine): readonly UsedSection[] {
  const used = sheetSections(routine).flatMap((entry): UsedSection[] => {
    const use = useOf(lesson, routine.slug, routine.sections[entry.section]?.name ?? "");
    return use === undefined ? [] : [{ ...entry, use }];
  });
  const leads = ({ section }: SheetSection) => {
    const { phrases = [] } = routine.sections[section] ?? {};
    return phrases.length > 0 && phrases.every((phrase) => isPickUp(phrase, routine));
  };
  const ledBy = (entry: UsedSection) =>
    leads(entry) ? undefined : used.find((other) => leads(other) && other.danced.includes(entry.section - 1));
  const joined = new Set(used.flatMap((entry) => ledBy(entry) ?? []));
  return used
    .filter((entry) => !joined.has(entry))
    .map((entry) => {
      const pickUp = ledBy(entry);
      if (pickUp === undefined) return entry;
      const danced = [...pickUp.danced, ...entry.danced].sort((a, b) => a - b);
      return { ...entry, danced, pickUp: entry.section - 1 };
    });
}
