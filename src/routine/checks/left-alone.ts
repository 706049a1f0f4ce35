import type { Cue } from "../cue.js";
import { everyMove } from "../every-move.js";
import { mirroredWords } from "../mirror-cue.js";
import type { Place } from "../problem.js";
import { counts, type Remark, type Rule } from "./rule.js";

export const leftAlone: Rule = {
  name: "left-alone",
  severity: "note",
  why: "Every left or right that the mirror left as it was, or was unsure of, so that an author can look at it. A word in backticks is never exchanged and is not listed.",
  good: counts("1-4: Reach to the right\n5-8: Hit the `right` height"),
  bad: counts("1-4: Reach to the right\n5-8: Hit the right height"),
  find: ({ written, library }) => {
    const look = (cue: Cue | undefined, place: Place): readonly Remark[] =>
      cue === undefined
        ? []
        : mirroredWords(cue, library.mirrorWords).leftAlone.map(({ word, reason }) => ({
            place,
            message: `the mirror ${reason.startsWith("unsure") ? "is not sure of" : "leaves"} "${word}": ${reason.replace(/^unsure:?\s*/, "")}`,
          }));
    return everyMove(written).flatMap((move) => [
      ...look(move.cue, `${move.place}/do`),
      ...(move.say?.calls ?? []).flatMap((call) => look(call, `${move.place}/say`)),
      ...look(move.note, `${move.place}/note`),
      ...move.choose.flatMap((cue) => look(cue, `${move.place}/choose`)),
    ]);
  },
};
