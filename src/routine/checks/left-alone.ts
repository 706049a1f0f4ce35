import { dancersOf } from "../chart.js";
import type { Cue } from "../cue.js";
import { everyMove } from "../every-move.js";
import { mirroredWords } from "../mirror-cue.js";
import type { Place } from "../problem.js";
import type { Routine } from "../routine.js";
import { counts, type Remark, type Rule } from "./rule.js";

export const leftAlone: Rule = {
  name: "left-alone",
  severity: "note",
  why: "Every left or right that the mirror left as it was, or was unsure of, so that an author can look at it. A word in backticks is never exchanged and is not listed.",
  good: counts("1-4: Reach to the right\n5-8: Hit the `right` height"),
  bad: counts("1-4: Reach to the right\n5-8: Hit the right height"),
  find: ({ written, routine, library }) => {
    const look = (cue: Cue | undefined, place: Place): readonly Remark[] =>
      cue === undefined
        ? []
        : mirroredWords(cue, library.mirrorWords).leftAlone.map(({ word, reason }) => ({
            place,
            message: `the mirror ${reason.startsWith("unsure") ? "is not sure of" : "leaves"} "${word}": ${reason.replace(/^unsure:?\s*/, "")}`,
          }));
    const own = improvisedOnly(routine);
    return everyMove(written).flatMap((move) =>
      own.has(move.place)
        ? []
        : [
            ...look(move.cue, `${move.place}/do`),
            ...(move.say?.calls ?? []).flatMap((call) => look(call, `${move.place}/say`)),
            ...look(move.note, `${move.place}/note`),
            ...move.choose.flatMap((cue) => look(cue, `${move.place}/choose`)),
          ],
    );
  },
};

/** Places of moves that are never mirrored, since they are the dancers' own wherever they are danced. */
function improvisedOnly(routine: Routine): ReadonlySet<Place> {
  const all = routine.versions.flatMap((version) => dancersOf(routine, version).flatMap(({ moves }) => moves));
  const own = new Set(all.flatMap(({ improvised, place }) => (improvised ? [place] : [])));
  for (const { improvised, place } of all) if (!improvised) own.delete(place);
  return own;
}
