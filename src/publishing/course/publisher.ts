import type { Workshop } from "../../routine/routine.js";
import { isCourse, planCourse } from "../../teaching/course/plan.js";
import { wordingOf } from "../../wording/wording.js";
import { lessonSheetName } from "../lesson-sheet-name.js";
import type { DeclaredFile, OutFile, Publisher } from "../publisher.js";

/** Of a course: all of it on one page and a side a lesson, `workshops/<slug>/course.pdf`, and what goes home after each lesson, `lesson-<n>.pdf`. */
export const course: Publisher<Workshop> = {
  name: "course",
  async publish(workshop, { library }) {
    if (!isCourse(workshop)) return [];
    // What draws takes a while to load, and pages are made without it.
    const { drawCourse, drawLesson } = await import("./course.js");
    const plan = planCourse(workshop, library);
    const [page, ...sheets] = declared(workshop, library.language);
    const files: OutFile[] = page ? [{ ...page, content: await drawCourse(plan, workshop, library) }] : [];
    // One after the other: while one is drawn, no other lies about in memory.
    for (const [index, sheet] of sheets.entries())
      files.push({ ...sheet, content: await drawLesson(plan, index, workshop, library) });
    return files;
  },
  declare: (workshop, { library }) => declared(workshop, library.language),
};

/** The sheets have no label: the page offers each beside its lesson. */
function declared(workshop: Workshop, language: string): readonly DeclaredFile[] {
  if (!isCourse(workshop)) return [];
  const file = (name: string) =>
    ({ path: `workshops/${workshop.slug}/${name}`, kind: "handout", mediaType: "application/pdf" }) as const;
  const sheets = Array.from({ length: workshop.lessons }, (_, index) => file(lessonSheetName(index + 1)));
  const { course, savedCourse } = wordingOf(language).outputs;
  return [{ ...file("course.pdf"), label: course, saveAs: savedCourse(workshop.title) }, ...sheets];
}
