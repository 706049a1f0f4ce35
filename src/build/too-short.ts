import type { WorkshopOf } from "../reading/read-workshop.js";
import type { Library, Workshop } from "../routine/routine.js";
import { planClass } from "../teaching/plan.js";
import { type RoutineText, reader } from "./recent.js";

/** The minutes that a class would need which has no time to teach anything. */
export function minutesNeeded(library: Library, workshop: WorkshopOf<RoutineText>): number | undefined {
  const { lessons: _, dates: _days, ...one } = workshop;
  const routines = workshop.routines.flatMap((routine) => reader(library)(routine).routine ?? []);
  const { chunks, fit } = planClass({ ...one, routines } satisfies Workshop, library);
  return !fit.fits && !chunks.some(({ taught }) => taught) ? fit.minutesNeeded : undefined;
}
