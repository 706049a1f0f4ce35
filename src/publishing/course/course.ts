import type { Library, Workshop } from "../../routine/routine.js";
import type { CoursePlan } from "../../teaching/course/course-plan.js";
import { writePrint } from "../../typesetting/pdf/write.js";
import type { Print } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { bound } from "../paper/binding.js";
import { courseSheet } from "../paper/course-sheet.js";
import { lessonSide } from "../paper/lesson-side.js";
import type { Sheet } from "../paper/sheet.js";
import { lessonSheet } from "./lesson-sheet.js";

/** Draws a course as a PDF: all of it on one page, and then the plan of each lesson on its side. */
export function drawCourse(plan: CoursePlan, workshop: Workshop, library: Library): Promise<Uint8Array> {
  return writePrint(coursePrint(plan, workshop, library));
}

/** The same, laid out and not yet written. */
export function coursePrint(plan: CoursePlan, workshop: Workshop, library: Library): Print {
  const wording = wordingOf(library.language);
  const sides = plan.lessons.map((_, index) => lessonSide(plan, index, workshop, library, wording));
  return footed([courseSheet(plan, workshop, library, wording), ...sides], workshop.title, workshop, library, wording);
}

/** Draws what goes home after a lesson as a PDF; lessons count from 0. */
export function drawLesson(
  plan: CoursePlan,
  lesson: number,
  workshop: Workshop,
  library: Library,
): Promise<Uint8Array> {
  return writePrint(lessonPrint(plan, lesson, workshop, library));
}

export function lessonPrint(plan: CoursePlan, lesson: number, workshop: Workshop, library: Library): Print {
  const wording = wordingOf(library.language);
  const title = wording.course.home.title(workshop.title, lesson + 1);
  return footed([lessonSheet(plan, lesson, workshop, library, wording)], title, workshop, library, wording);
}

function footed(
  sheets: readonly Sheet[],
  title: string,
  workshop: Workshop,
  library: Library,
  wording: Wording,
): Print {
  const foot: readonly Span[] = [{ text: wording.pack.foot(workshop.title, library.name) }];
  const parts = sheets.map((sheet) => ({ sheet, foot }));
  return bound(title, parts, workshop, library, wording);
}
