import { everyMove } from "../every-move.js";
import { counts, perMove, type Rule } from "./rule.js";

export const noEasyOption: Rule = {
  name: "no-easy-option",
  severity: "warning",
  why: "A move with a risk needs another way for the easiest level: somebody in the room should not do it today.",
  good: counts(
    "1-4: { do: Leap forward, risk: [jump], options: { 1: Three steps forward } }\n5-8: hold",
    "levels: [1, 2]\ntaught: 2\n",
  ),
  bad: counts("1-4: { do: Leap forward, risk: [jump] }\n5-8: hold", "levels: [1, 2]\ntaught: 2\n"),
  find: (scene) => {
    const [easiest] = scene.written.levels;
    const named = namedRisks(scene.written);
    if (easiest === undefined || easiest === scene.written.taught) return [];
    return perMove(scene, (move, version) => {
      const risks = version.id === easiest && move.option === undefined ? named.get(move.place) : undefined;
      return (
        risks &&
        `level ${easiest} dances this move too, and it has ${risks.join(" and ")}; add \`options: { ${easiest}: … }\` with a way that anybody can dance`
      );
    });
  },
};

/** The risks that the author wrote, by the move's place. */
function namedRisks(written: Parameters<Rule["find"]>[0]["written"]) {
  return new Map(
    everyMove(written).flatMap((move) =>
      move.risks !== undefined && move.risks.length > 0 ? [[move.place, move.risks] as const] : [],
    ),
  );
}
