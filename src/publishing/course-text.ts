import type { Workshop } from "../routine/routine.js";
import type {
  CoursePlan,
  CourseSection,
  KnownRoutine,
  LessonContent,
  LessonPlan,
} from "../teaching/course/course-plan.js";
import type { Wording } from "../wording/wording.js";
import { gearIn, type Offered, type OfferedGear, offeredIn } from "./offered.js";
import { sharedSections } from "./paper/printed-moves.js";

/** What a course says: the planner's values through the catalogue, the same on page and paper. */
export interface CourseText {
  /** In a few plain sentences: what fits, and what does not. */
  readonly summary: readonly string[];
  readonly lessons: readonly LessonText[];
}

/** A lesson in one line. */
export interface LessonText {
  readonly number: number;
  /** "Lesson 2" */
  readonly name: string;
  /** ISO 8601 calendar date. */
  readonly date?: string;
  /** Under the head of its column what stands there; nothing in some. */
  readonly columns: readonly { readonly head: string; readonly texts: readonly string[] }[];
}

export function courseText(plan: CoursePlan, workshop: Workshop, wording: Wording): CourseText {
  const bring = gearBySection(workshop, wording);
  return {
    summary: summaryOf(plan, wording),
    lessons: plan.lessons.map((lesson) => lessonText(lesson, bring, wording)),
  };
}

function lessonText({ date, lesson }: LessonPlan, bring: GearOf, wording: Wording): LessonText {
  const { course, plan } = wording;
  const { columns } = course;
  const { number, fresh, recalled, inRun, run, hard } = lesson;
  const column = (head: string, texts: readonly string[]) => ({ head, texts });
  return {
    number,
    name: course.lesson(number),
    ...(date !== undefined && { date }),
    columns: [
      column(columns.fresh, fresh.length === 0 ? [course.nothingNew] : sectionTexts(fresh, run, wording)),
      column(columns.recalled, [
        ...sectionTexts(recalled, run, wording),
        ...sectionTexts(inRun, run, wording).map(course.inRun),
      ]),
      column(columns.run, run.map(course.run)),
      column(
        columns.hard,
        hard.map(({ title, name }) => course.hard(title, plan.danced(name))),
      ),
      column(columns.bring, inOne(bring(run), course.items)),
    ],
  };
}

/** Several texts as one, where there are any. */
const inOne = (texts: readonly string[], join: (texts: readonly string[]) => string): readonly string[] =>
  texts.length === 0 ? [] : [join(texts)];

/**
 * Sections by their routines: "“Harbour wall” and “Tag” in Low Tide".
 *
 * @param run what is known of each routine
 */
export function sectionTexts(
  sections: readonly CourseSection[],
  run: readonly KnownRoutine[],
  { course }: Wording,
): readonly string[] {
  const titles = new Map(sections.map(({ routine, title }) => [routine, title]));
  return [...titles].map(([slug, title]) => {
    const own = sections.filter(({ routine }) => routine === slug).map(({ section }) => section);
    const known = run.find(({ routine }) => routine === slug);
    return course.sections({
      title,
      sections: own,
      whole: known?.whole === true && known.sections.length === own.length,
    });
  });
}

function summaryOf({ fit, minutes, lessons }: CoursePlan, wording: Wording): readonly string[] {
  const { course } = wording;
  const [first] = fit.left;
  const of = (some: (lesson: LessonContent) => boolean) =>
    lessons.flatMap(({ lesson }) => (some(lesson) ? [lesson.number] : []));
  const squeezed = of(({ inRun }) => inRun.length > 0);
  const recalls = [
    ...(of(({ recalled }) => recalled.length > 0).length > 0 ? [course.recalls] : []),
    ...(squeezed.length > 0 ? [course.inRunAlone(squeezed)] : []),
  ];
  if (first === undefined) return [course.fits(fit.lessons, minutes), ...recalls];
  const [name = ""] = sectionTexts([first], [], wording);
  return [
    course.tooLong(fit.lessons, minutes, name),
    fit.needed === undefined ? course.neverFits(minutes) : course.needed(fit.needed),
    ...recalls,
  ];
}

type GearOf = (run: LessonContent["run"]) => readonly string[];

/**
 * What a lesson needs that dances some sections, in any version that the class offers: what they need, and what belongs to the
 * whole routine. Each item once, with whose it is.
 */
export function gearBySection(workshop: Workshop, wording: Wording): GearOf {
  const gear = offeredIn(workshop).map((one) => ({ slug: one.routine.slug, items: itemsOf(one, wording) }));
  return (run) => {
    const needed = run.flatMap(({ routine, sections }) =>
      gear
        .filter(({ slug }) => slug === routine)
        .flatMap(({ items }) => items.filter(({ usedIn }) => usedIn?.some((name) => sections.includes(name)) ?? true)),
    );
    return [...new Set(needed.map(({ item }) => item))].map((name) => {
      const uses = needed.filter(({ item }) => item === name);
      // Whoever needs it in one of the routines, the class needs it.
      const whose = uses.some(({ only }) => only === undefined)
        ? []
        : [...new Set(uses.flatMap(({ only }) => only ?? []))];
      return wording.print.item(
        name,
        uses.every(({ optional }) => optional),
        whose.length === 0 ? undefined : whose.join("; "),
      );
    });
  };
}

/** Names of the sections whose moves need an item; absent where none names it, so that all do. */
type Item = OfferedGear & { readonly usedIn?: readonly string[] };

function itemsOf(offered: Offered, wording: Wording): readonly Item[] {
  const printed = sharedSections(offered);
  return gearIn(offered, wording).map((gear) => {
    const usedIn = printed
      .filter(({ moves }) =>
        moves.some((move) => move.gear.some((one) => one.toLowerCase() === gear.item.toLowerCase())),
      )
      .map(({ section }) => section.name);
    return { ...gear, ...(usedIn.length > 0 && { usedIn }) };
  });
}
