import type { Library, Workshop } from "../../routine/routine.js";
import type { ClassPlan } from "../class-plan.js";
import { lessonOf } from "../lesson.js";
import { type Material, nameOf } from "../material.js";
import { materialOf } from "../material-of.js";
import { askedOf, planClass } from "../plan.js";
import { settingsFor } from "../settings.js";
import { slotOf } from "../timetable.js";
import type { CoursePlan, CourseSection, HardPart, KnownRoutine, LessonPlan } from "./course-plan.js";
import { lessonPrice } from "./price.js";
import { type Lesson, type Share, shareOut } from "./share.js";
import { lessonWith, type SectionUnit, unitsOf } from "./units.js";

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
  const { teaching } = slotOf(workshop);
  const price = lessonPrice(units, material, settings);
  const context = { workshop, library, material, units, known };

  /* What a lesson is reckoned to take and what it is planned to take may differ by what the planner adds: then it is shared out again with that much less. */
  let seconds = teaching;
  let share = shareOut({ units, known, lessons: workshop.lessons, seconds, price });
  let plans = plansOf(context, share);
  for (let over = overrun(plans); over > 0 && seconds > over; over = overrun(plans)) {
    seconds -= over;
    share = shareOut({ units, known, lessons: workshop.lessons, seconds, price });
    plans = plansOf(context, share);
  }
  const { slug, title, venue, minutes, level } = workshop;
  const [first] = plans;
  return {
    ...{ slug, title, minutes, level },
    ...(venue !== undefined && { venue }),
    ...askedOf(workshop),
    lessons: plans,
    fit: {
      fits: share.reached === units.length,
      lessons: workshop.lessons,
      ...(share.needed !== undefined && { needed: share.needed }),
      left: units.slice(share.reached).map(sectionOf),
    },
    routines: (first?.routines ?? []).map(({ slug, title, version, easiest }) => ({ slug, title, version, easiest })),
    settings,
  };
}

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
  return {
    ...plan,
    lesson: {
      number: index + 1,
      fresh: fresh.map(sectionOf),
      recalled: of(lesson.recalled).map(sectionOf),
      inRun: of(lesson.inRun).map(sectionOf),
      run: knownRoutines(units, lesson.to),
      hard: hardParts(material, fresh.length > 0 ? fresh : before.slice(known)),
    },
  };
}

const sectionOf = ({ routine, title, section }: SectionUnit): CourseSection => ({ routine, title, section });

function knownRoutines(units: readonly SectionUnit[], to: number): readonly KnownRoutine[] {
  const known = units.slice(0, to);
  const titles = new Map(known.map(({ routine, title }) => [routine, title]));
  return [...titles].map(([routine, title]) => {
    const sections = known.filter((unit) => unit.routine === routine).map(({ section }) => section);
    return { routine, title, sections, whole: units.slice(to).every((unit) => unit.routine !== routine) };
  });
}

/** How many places a lesson is told to have time for. */
const mostHard = 2;

/** The densest chunks of some sections. */
function hardParts({ chunks }: Material, units: readonly SectionUnit[]): readonly HardPart[] {
  return units
    .flatMap((unit) => unit.chunks.flatMap((index) => chunks[index] ?? []))
    .filter(({ improvised }) => !improvised)
    .toSorted((a, b) => b.points / b.counts - a.points / a.counts)
    .slice(0, mostHard)
    .map((chunk) => ({ title: chunk.routine.title, name: nameOf(chunk) }));
}
