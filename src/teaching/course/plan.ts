import type { Library, Workshop } from "../../routine/routine.js";
import type { ClassPlan } from "../class-plan.js";
import { isRisky } from "../hard-moves.js";
import { lessonOf } from "../lesson.js";
import { type Chunk, isUncounted, type Material, nameOf } from "../material.js";
import { materialOf } from "../material-of.js";
import { askedOf, planClass } from "../plan.js";
import { settingsFor } from "../settings.js";
import { slotOf } from "../timetable.js";
import { versionsFor } from "../versions.js";
import type { CoursePlan, HardPart, KnownRoutine, LessonPlan } from "./course-plan.js";
import { lessonPrice } from "./price.js";
import { type Lesson, type Share, shareOut } from "./share.js";
import { lessonWith, type SectionUnit, sectionsOf, unitsOf } from "./units.js";

/** A workshop that is a course. */
export type CourseWorkshop = Workshop & { readonly lessons: number };

export function isCourse(workshop: Workshop): workshop is CourseWorkshop {
  return workshop.lessons !== undefined;
}

/**
 * Plans a course: what each lesson teaches, recalls and runs, and a class plan for each. Nothing is taught before what stands
 * before it in its routine, and everything once; what does not fit is said, with how many lessons it would take.
 */
export function planCourse(workshop: CourseWorkshop, library: Library): CoursePlan {
  const settings = settingsFor(library);
  const material = materialOf(workshop.routines, workshop.level, settings, lessonOf(workshop));
  const { units, known } = unitsOf(workshop, material);
  const slot = slotOf(workshop);
  const price = lessonPrice(units, material, slot.seconds, settings);
  const context = { workshop, library, material, units, known };

  /* What a lesson is reckoned to take and what it is planned to take may differ by what the planner adds: then it is shared out again with that much less. */
  const shared = (seconds: number) => {
    const share = shareOut({ units, known, lessons: workshop.lessons, seconds, price });
    return { share, plans: plansOf(context, share) };
  };
  let seconds = slot.teaching;
  let { share, plans } = shared(seconds);
  for (let round = 0; round < rounds && overrun(plans) > 0; round++) {
    seconds = Math.max(0, seconds - overrun(plans));
    ({ share, plans } = shared(seconds));
  }
  const { slug, title, venue, minutes, level } = workshop;
  return {
    ...{ slug, title, minutes, level },
    ...(venue !== undefined && { venue }),
    ...askedOf(workshop),
    lessons: plans,
    fit: {
      fits: share.reached === units.length,
      lessons: workshop.lessons,
      ...(share.needed !== undefined && { needed: share.needed }),
      left: units.slice(share.reached).flatMap(sectionsOf),
    },
    routines: workshop.routines.map((routine) => {
      const { taught, easiest } = versionsFor(routine, level);
      return { slug: routine.slug, title: routine.title, version: taught.id, easiest: easiest.id };
    }),
    settings,
  };
}

/** How often a course is shared out again at the most. */
const rounds = 3;

const overrun = (plans: readonly ClassPlan[]): number => Math.max(0, ...plans.map(({ fit }) => fit.short));

interface Context {
  readonly workshop: CourseWorkshop;
  readonly library: Library;
  readonly material: Material;
  readonly units: readonly SectionUnit[];
  readonly known: number;
}

function plansOf(context: Context, { lessons }: Share): readonly LessonPlan[] {
  return lessons.map((lesson, index) => lessonPlan(context, lesson, index));
}

function lessonPlan({ workshop, library, material, units, known }: Context, lesson: Lesson, index: number): LessonPlan {
  const of = (numbers: readonly number[]) => numbers.flatMap((unit) => units[unit] ?? []);
  const fresh = units.slice(lesson.from, lesson.to);
  const before = units.slice(0, lesson.from);
  const { date: _day, dates, lessons: _number, sections: _some, known: _before, ...slot } = workshop;
  const date = dates?.[index];
  const asked = lessonWith(fresh, of(lesson.recalled), before);
  const plan = planClass({ ...slot, ...(date !== undefined && { date }) }, library, asked);
  const run = knownRoutines(workshop, units, lesson.to);
  return {
    ...plan,
    // What comes in another lesson is not left out.
    routines: plan.routines
      .filter(({ slug }) => run.some(({ routine }) => routine === slug))
      .map(({ leftOut: _, ...routine }) => routine),
    lesson: {
      number: index + 1,
      fresh: fresh.flatMap(sectionsOf),
      recalled: of(lesson.recalled).flatMap(sectionsOf),
      inRun: of(lesson.inRun).flatMap(sectionsOf),
      run,
      hard: hardParts(material, fresh.length > 0 ? fresh : before.slice(known)),
    },
  };
}

/** What is known of each routine after so many units, in the order of the dance. */
function knownRoutines(
  { routines }: Pick<Workshop, "routines">,
  units: readonly SectionUnit[],
  to: number,
): readonly KnownRoutine[] {
  return routines.flatMap(({ slug, title, sections: danced }): KnownRoutine[] => {
    const own = units.flatMap((unit, index) =>
      unit.routine === slug ? unit.names.map((section) => ({ section, known: index < to })) : [],
    );
    const inOrder = [...new Set(danced.map(({ name }) => name))].flatMap((name) =>
      own.filter(({ section }) => section === name),
    );
    const sections = inOrder.filter(({ known }) => known).map(({ section }) => section);
    if (sections.length === 0) return [];
    const whole = sections.length === inOrder.length;
    const gapless = inOrder.slice(0, sections.length).every(({ known }) => known);
    const upTo = whole || !gapless ? undefined : sections.at(-1);
    return [{ routine: slug, title, sections, whole, ...(upTo !== undefined && { upTo }) }];
  });
}

/** How many places a lesson is told to have time for. */
const mostHard = 2;

/** Of some sections the chunks with a risk, then the densest; what was danced before on this side or the other comes last. */
function hardParts({ chunks }: Material, units: readonly SectionUnit[]): readonly HardPart[] {
  return units
    .flatMap((unit) => unit.chunks.flatMap((index) => chunks[index] ?? []))
    .filter((chunk) => !chunk.improvised && !isUncounted(chunk))
    .toSorted((a, b) => rankOf(a) - rankOf(b) || b.points / b.counts - a.points / a.counts)
    .slice(0, mostHard)
    .map((chunk) => ({ title: chunk.routine.title, name: nameOf(chunk) }));
}

function rankOf({ before, moves }: Chunk): number {
  if (before) return 2;
  return moves.some(isRisky) ? 0 : 1;
}
