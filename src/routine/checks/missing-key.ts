import { english } from "../english/english.js";
import { counts, perMove, type Rule } from "./rule.js";

export const missingKey: Rule = {
  name: "missing-key",
  severity: "warning",
  why: "A cue that speaks of a turn, a drop, the knees, a handstand or the like needs the key for it: without it the facing does not follow, and the caution that dancers should read is missing.",
  good: counts("1-4: { do: Cartwheel to the right, through: inverted, contacts: [hands] }\n5-8: hold"),
  bad: counts("1-4: Cartwheel to the right\n5-8: hold"),
  find: (scene) =>
    perMove(scene, (move) => {
      const found = english.missingKeys(move);
      if (found.length === 0) return undefined;
      const words = found.map(({ word }) => `"${word}"`).join(" and of ");
      return `the cue speaks of ${words}, but the move has no key for ${found.length === 1 ? "it" : "them"}; add ${found.map(({ write }) => write).join(", and ")}`;
    }),
};
