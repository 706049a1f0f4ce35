import { routineJson } from "../../../src/publishing/record/routine-json.js";
import type { Routine } from "../../../src/routine/routine.js";
import type { RoutineFile } from "../../../templates/script/practice/score.js";
import { library } from "../../publishing/fixtures/written.js";

/** A routine as the page reads it: published, and read back from the text of the file. */
export function published(routine: Routine): RoutineFile {
  return JSON.parse(JSON.stringify(routineJson(routine, library, []))) as RoutineFile;
}
