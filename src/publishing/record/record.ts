import type { Library, Routine } from "../../routine/routine.js";
import type { OutFile } from "../publisher.js";
import { figuresOf, type RecordFinding } from "./figures-of.js";

/** `routine.json`. Not like the other outputs: beside the routine it tells what was found in the routine's file. */
export function routineRecord(routine: Routine, library: Library, findings: readonly RecordFinding[]): OutFile {
  const figures = figuresOf(routine, library, findings);
  return { path: `routines/${routine.slug}/routine.json`, content: `${JSON.stringify(figures, null, 2)}\n` };
}
