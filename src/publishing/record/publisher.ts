import type { Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { Publisher } from "../publisher.js";
import { routineJson } from "../routine-json.js";

/** Everything about a routine as data, and what was found in its file: `routines/<slug>/routine.json`. */
export const record: Publisher<Routine> = {
  name: "record",
  publish: (routine, { library, findings }) => [
    {
      path: `routines/${routine.slug}/routine.json`,
      kind: "data",
      mediaType: "application/json",
      label: wordingOf(library.language).outputs.record,
      content: `${JSON.stringify(routineJson(routine, library, findings), null, 2)}\n`,
    },
  ],
};
