import { type RoutineJson, routineJson } from "../../../src/publishing/routine-json.js";
import type { Routine } from "../../../src/routine/routine.js";
import { library } from "../../fixtures/written.js";

/** A routine as the page reads it: published, and read back from the text of the file. */
export function published(routine: Routine): RoutineJson {
  return JSON.parse(JSON.stringify(routineJson(routine, library, []))) as RoutineJson;
}
