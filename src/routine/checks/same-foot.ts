import type { Move } from "../routine.js";
import type { Foot } from "../vocabulary.js";
import { counts, inVersion, perMove, type Remark, type Rule, type Scene } from "./rule.js";

export const sameFoot: Rule = {
  name: "same-foot",
  severity: "warning",
  why: "Nobody can step onto the foot that already bears all the weight. Either a step is missing before it, or a touch was written as a step. A hop is a jump: give it `risk: [jump]`.",
  good: counts(
    "1: { do: Step left, step: left }\n2: { do: Touch the right toes in }\n3-8: { do: Step right and sink, step: right }",
  ),
  bad: counts("1: { do: Step left, step: left }\n2: { do: Step left again, step: left }\n3-8: hold"),
  find: (scene) => {
    const repeats = new Map<string, Remark>();
    const fine = new Set<string>();
    const own = perMove(scene, (move, version) => {
      const foot = footOf(move);
      const key = `${version.id} ${move.place}`;
      if (foot === undefined) {
        fine.add(key);
        return undefined;
      }
      const again = fine.has(key) && !move.allow.includes("same-foot") && repeatAt(scene, move);
      if (again === false || again === undefined)
        return `this steps onto the ${foot} foot, which already has all the weight${inVersion(scene, version)}; change the foot, add the step that is missing before it, or take \`step\` out where it is a touch`;
      if (!repeats.has(again.place))
        repeats.set(again.place, {
          place: again.place,
          message: `${again.what}, \`${move.on}\` steps onto the ${foot} foot, which already has all the weight${inVersion(scene, version)}; change the last step of what is danced before it, so that it can begin again`,
        });
      return undefined;
    });
    return [...own, ...repeats.values()];
  },
};

/** The foot that a move steps onto though it bears all the weight. */
function footOf({ risks, before, steps, improvised }: Move): Foot | undefined {
  if (improvised || risks.includes("jump")) return undefined;
  return steps.find((foot, index) => (index === 0 ? before.weight : steps[index - 1]) === foot);
}

/** Where a move that was fine before is danced again: what brings it back, and how to say so. */
function repeatAt(
  { written, routine }: Scene,
  move: Move,
): { readonly place: string; readonly what: string } | undefined {
  const section = routine.sections[move.section];
  if (section === undefined) return undefined;
  const { name, place, pass, wall, sameAs } = section;
  if (pass > 1) return { place: `${place}/repeat`, what: `where ${name} is danced again (pass ${pass})` };
  if (sameAs !== undefined) return { place: `${place}/same-as`, what: `where ${name} dances ${sameAs}` };
  if (wall > 1)
    return {
      place: `${written.place}/${routine.walls > 1 ? "walls" : "times"}`,
      what: `where ${name} is danced again (time ${wall} through)`,
    };
  return undefined;
}
