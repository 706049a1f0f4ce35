import type { Library, Workshop } from "../../routine/routine.js";
import type { CoursePlan } from "../../teaching/course/course-plan.js";
import { writePrint } from "../../typesetting/pdf/write.js";
import type { Print } from "../../typesetting/print.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { courseSheet } from "../paper/course-sheet.js";
import { feetOf, layoutFeet } from "../paper/page.js";
import type { Sheet } from "../paper/sheet.js";
import { lessonSheet } from "./lesson-sheet.js";

/** Draws a course on one page as a PDF. */
export function drawCourse(plan: CoursePlan, workshop: Workshop, library: Library): Promise<Uint8Array> {
  return writePrint(coursePrint(plan, workshop, library));
}

/** The same, laid out and not yet written. */
export function coursePrint(plan: CoursePlan, workshop: Workshop, library: Library): Print {
  const wording = wordingOf(library.language);
  return footed(courseSheet(plan, workshop, library, wording), workshop.title, workshop, library, wording);
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
  return footed(lessonSheet(plan, lesson, workshop, library, wording), title, workshop, library, wording);
}

function footed(sheet: Sheet, title: string, workshop: Workshop, library: Library, wording: Wording): Print {
  const feet = feetOf([{ text: wording.pack.foot(workshop.title, library.name) }], sheet.pages).map((foot) => ({
    ...foot,
    read: false,
  }));
  return {
    title,
    ...(library.teacher === undefined ? {} : { author: library.teacher }),
    language: wording.language,
    ...(workshop.date === undefined ? {} : { date: workshop.date }),
    paper: library.paper,
    ...sheet,
    decoration: [...sheet.decoration, ...layoutFeet(library.paper, feet, wording)],
  };
}
