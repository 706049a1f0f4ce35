import type { Library, Workshop } from "../routine/routine.js";
import type { ClassPlan } from "../teaching/class-plan.js";
import type { CoursePlan } from "../teaching/course/course-plan.js";
import { isCourse, planCourse } from "../teaching/course/plan.js";
import { planClass } from "../teaching/plan.js";

/** The plan of a workshop: of a class, or of a course with all its lessons. */
export function planOf(workshop: Workshop, library: Library): ClassPlan | CoursePlan {
  return isCourse(workshop) ? planCourse(workshop, library) : planClass(workshop, library);
}
