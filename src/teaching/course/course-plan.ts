import type { DancedName } from "../../routine/sheet.js";
import type { ClassPlan } from "../class-plan.js";

/** A course: the same slot several times over, all its lessons planned at once. Plain data, values and no sentences. */
export interface CoursePlan
  extends Pick<ClassPlan, "slug" | "title" | "venue" | "minutes" | "level" | "asked" | "routines" | "settings"> {
  /** A class plan each, in order. */
  readonly lessons: readonly LessonPlan[];
  readonly fit: CourseFit;
}

/** A lesson's class plan, and its place in the course. */
export interface LessonPlan extends ClassPlan {
  readonly lesson: LessonContent;
}

export interface LessonContent {
  /** From 1. */
  readonly number: number;
  /** Sections that nobody has danced before, in the order of the course. */
  readonly fresh: readonly CourseSection[];
  /** Known sections that are gone through again on their own, what was taught last first. */
  readonly recalled: readonly CourseSection[];
  /** Those that were due as well, and are danced in the run at the end alone: there is no time for more. */
  readonly inRun: readonly CourseSection[];
  /** What is known at its end and danced in its run, routine by routine. */
  readonly run: readonly KnownRoutine[];
  /** Where time is likely to be wanted: the densest of what is new, or of all that is known where nothing is. */
  readonly hard: readonly HardPart[];
}

export interface CourseSection {
  /** The routine's slug, and its title. */
  readonly routine: string;
  readonly title: string;
  readonly section: string;
}

export interface KnownRoutine {
  readonly routine: string;
  readonly title: string;
  readonly sections: readonly string[];
  /** Whether that is all that the course has of it; otherwise the section as far as which it is known without a gap, where there is one. */
  readonly whole: boolean;
  readonly upTo?: string;
}

export interface HardPart {
  readonly title: string;
  readonly name: DancedName;
}

export interface CourseFit {
  readonly fits: boolean;
  /** Lessons that there are, and that all of it would take; absent where no number of them is enough. */
  readonly lessons: number;
  readonly needed?: number;
  /** What it leaves out, in order. Where no number of lessons is enough, the first of them is what none can hold. */
  readonly left: readonly CourseSection[];
}
