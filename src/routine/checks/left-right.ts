import { english } from "../english/english.js";
import { mirroredWords } from "../mirror-cue.js";
import { counts, perMove, type Rule } from "./rule.js";

export const leftRight: Rule = {
  name: "left-right",
  severity: "warning",
  why: "A cue that says left where `step`, `turn` or `travel` says right teaches one side and computes the other: the weight, the facing and the mirrored version then come out wrong.",
  good: counts("1-4: { do: Step left and sink, step: left }\n5-8: { do: Quarter turn to the right, turn: 1/4 right }"),
  bad: counts("1-4: { do: Step left and sink, step: right }\n5-8: { do: Quarter turn to the right, turn: 1/4 right }"),
  find: (scene) =>
    perMove(scene, (move) => {
      if (move.improvised) return undefined;
      const found = english.contradiction(move, mirroredWords(move.cue, scene.library.mirrorWords));
      return found && `the cue says "${found.clause}", but ${found.against}; correct whichever of the two is wrong`;
    }),
};
