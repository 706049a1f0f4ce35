import { slotOf } from "../teaching/timetable.js";

/** A class with more seconds for teaching than these teaches something. */
const plenty = 30 * 60;

/** Whether a class has so little time beside what frames its teaching that it is worth planning it to see whether it teaches anything. */
export function mayBeTooShort(workshop: Parameters<typeof slotOf>[0]): boolean {
  return slotOf(workshop).teaching <= plenty;
}
