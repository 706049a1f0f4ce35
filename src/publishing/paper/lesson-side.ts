import type { Library, Workshop } from "../../routine/routine.js";
import type { CoursePlan } from "../../teaching/course/course-plan.js";
import type { Wording } from "../../wording/wording.js";
import { gearBySection } from "../course-text.js";
import { planSheet } from "./plan-side.js";
import type { Sheet } from "./sheet.js";

/** The plan of a lesson on its side, with what that lesson needs. Lessons count from 0. */
export function lessonSide(
  { lessons, title, venue }: CoursePlan,
  index: number,
  workshop: Workshop,
  library: Library,
  wording: Wording,
): Sheet {
  const { course } = wording;
  const plan = lessons[index];
  if (!plan) throw new RangeError(`No lesson ${index}`);
  const about = {
    title: course.ofLesson(index + 1),
    bookmark: course.lessonOn(index + 1, plan.date),
    gear: gearBySection(workshop, wording)(plan.lesson.run),
  };
  return planSheet({ ...plan, title, ...(venue !== undefined && { venue }) }, about, library, wording);
}
