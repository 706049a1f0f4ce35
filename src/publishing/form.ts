import type { Routine } from "../routine/routine.js";
import { timesThrough } from "../routine/times-through.js";
import { wordingOf } from "../wording/wording.js";

export function formText(routine: Routine): readonly string[] {
  const built = timesThrough(routine);
  return built ? wordingOf("en").run.timesThrough(built) : [];
}
