import type { MissingKey } from "../cue-language.js";
import { english } from "../english/english.js";
import { type Risk, risks } from "../vocabulary.js";
import { namedRisks } from "./named-risks.js";
import { counts, perMove, type Rule } from "./rule.js";

export const missingKey: Rule = {
  name: "missing-key",
  severity: "warning",
  why: "A cue that speaks of a turn, a drop, the knees, a handstand or the like needs the key for it: without it the facing does not follow, and the caution that dancers should read is missing.",
  good: counts("1-4: { do: Cartwheel to the right, through: inverted, contacts: [hands] }\n5-8: hold"),
  bad: counts("1-4: Cartwheel to the right\n5-8: hold"),
  find: (scene) => {
    const named = namedRisks(scene.written);
    return perMove(scene, (move, version) => {
      // What its keys come to is for the taught version; where another begins it otherwise, `after-an-option` says so.
      if (version.id !== scene.routine.taught && move.option === undefined) return undefined;
      const { none, risks: written } = named.get(move.place) ?? { none: false, risks: [] };
      const found = english.missingKeys(move).filter(({ write }) => !none || !riskKey.test(write));
      if (found.length === 0) return undefined;
      const words = found.map(({ word }) => `"${word}"`).join(" and of ");
      const has = written.filter((risk) => move.risks.includes(risk));
      const write = [...new Set(wholeLists(found, has))];
      return `the cue speaks of ${words}, but the move has no key for ${found.length === 1 ? "it" : "them"}; ${has.length > 0 ? "write" : "add"} ${write.join(", and ")}`;
    });
  },
};

const riskKey = /`risk: \[([a-z-]+)\]`/;

/** What to write, each `risk` with all that its list has to have: a second `risk` in a move would be an error. */
function wholeLists(found: readonly MissingKey[], has: readonly Risk[]): readonly string[] {
  const asked = found.flatMap(({ write }) => (isRiskAlone(write) ? [riskKey.exec(write)?.[1]] : []));
  return found.map(({ write }) =>
    write.replace(riskKey, (_, own: string) => {
      const all = new Set<string | undefined>([...has, ...asked, own]);
      return `\`risk: [${risks.filter((risk) => all.has(risk)).join(", ")}]\``;
    }),
  );
}

function isRiskAlone(write: string): boolean {
  return write.replace(riskKey, "") === "";
}
