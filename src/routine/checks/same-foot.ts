import { counts, inVersion, perMove, type Rule } from "./rule.js";

export const sameFoot: Rule = {
  name: "same-foot",
  severity: "warning",
  why: "Nobody can step onto the foot that already bears all the weight. Either a step is missing before it, or a touch was written as a step. A hop is a jump: give it `risk: [jump]`.",
  good: counts(
    "1: { do: Step left, step: left }\n2: { do: Touch the right toes in }\n3-8: { do: Step right and sink, step: right }",
  ),
  bad: counts("1: { do: Step left, step: left }\n2: { do: Step left again, step: left }\n3-8: hold"),
  find: (scene) =>
    perMove(scene, (move, version) => {
      if (move.risks.includes("jump")) return undefined;
      let weight: string = move.before.weight;
      for (const foot of move.steps) {
        if (weight === foot)
          return `this steps onto the ${foot} foot, which already has all the weight${inVersion(scene, version)}; change the foot, add the step that is missing before it, or take \`step\` out where it is a touch`;
        weight = foot;
      }
      return undefined;
    }),
};
