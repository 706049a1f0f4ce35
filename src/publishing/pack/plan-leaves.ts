import type { Library, Workshop } from "../../routine/routine.js";
import type { ClassPlan } from "../../teaching/class-plan.js";
import type { KnownRoutine } from "../../teaching/course/course-plan.js";
import type { Wording } from "../../wording/wording.js";
import { gearBySection } from "../course-text.js";
import { offeredIn } from "../offered.js";
import { courseSheet } from "../paper/course-sheet.js";
import { lessonSide } from "../paper/lesson-side.js";
import { detailsSheet } from "../paper/plan-details.js";
import { planSheet } from "../paper/plan-side.js";
import type { Sheet } from "../paper/sheet.js";
import { planOf } from "../plan-of.js";

/** A part of a pack: pages with a name in the contents, and what else is said there. */
export interface Leaf {
  /** Absent of what the contents do not name. */
  readonly title?: string;
  readonly about?: string;
  readonly sheet: Sheet;
}

/** The class plan on its side and in detail; of a course all of it on a page, and then the plan of each lesson. */
export function planLeaves(workshop: Workshop, library: Library, wording: Wording): readonly Leaf[] {
  const { course, planSide } = wording;
  const plan = planOf(workshop, library);
  const details = (one: ClassPlan, title: string): Sheet => detailsSheet(one, title, library, wording);
  if (!("lessons" in plan))
    return [
      { title: planSide.title, sheet: classSide(plan, workshop, library, wording) },
      { title: planSide.details.title, sheet: details(plan, planSide.details.title) },
    ];
  return [
    { title: course.title, sheet: courseSheet(plan, workshop, library, wording) },
    ...plan.lessons.flatMap((one, index): readonly Leaf[] => {
      const title = course.lessonOn(index + 1, one.date);
      return [
        { title, sheet: lessonSide(plan, index, workshop, library, wording) },
        { sheet: details(one, course.inDetail(index + 1)) },
      ];
    }),
  ];
}

/** The plan of a class on its side, with all that it needs. */
function classSide(plan: ClassPlan, workshop: Workshop, library: Library, wording: Wording): Sheet {
  const { planSide } = wording;
  const run = offeredIn(workshop).map(({ routine, sections }): KnownRoutine => {
    const { slug, title } = routine;
    return { routine: slug, title, sections: sections ?? routine.sections.map(({ name }) => name), whole: !sections };
  });
  const gear = gearBySection(workshop, wording)(run);
  return planSheet(plan, { title: planSide.of, bookmark: planSide.title, gear }, library, wording);
}
