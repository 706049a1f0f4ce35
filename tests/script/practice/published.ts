import { figuresOf, type RoutineFigures } from "../../../src/publishing/record/figures-of.js";
import type { Routine } from "../../../src/routine/routine.js";
import { library } from "../../publishing/fixtures/written.js";

/** A routine as the page reads it: published, and read back from the text of the file. */
export function published(routine: Routine): RoutineFigures {
  return JSON.parse(JSON.stringify(figuresOf(routine, library, []))) as RoutineFigures;
}
