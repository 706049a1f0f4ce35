/*
 * The front door: what a program may use of this package. Everything else is private and may change from one version to the next.
 * The examples beside these functions read on from those of `readLibrary` and `readRoutine`.
 */

export { countCaptions } from "./publishing/captions/count-captions.js";
export { descriptionText } from "./publishing/description/description.js";
export { type RoutineJson, routineJson } from "./publishing/routine-json.js";
export { type LibraryRead, readLibrary } from "./reading/read-library.js";
export { type RoutineRead, readRoutine } from "./reading/read-routine.js";
export { type Cell, type ChartPhrase, chart, type Dancers, dancersOf } from "./routine/chart.js";
export { rules } from "./routine/checks/check.js";
export { type Click, clicks } from "./routine/clicks.js";
export { mirror } from "./routine/mirror.js";
export type { Library, Move, Routine, Version } from "./routine/routine.js";
