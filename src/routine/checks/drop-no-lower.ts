import { everyMove } from "../every-move.js";
import { type Height, heights } from "../vocabulary.js";
import { counts, inVersion, perMove, type Rule } from "./rule.js";

export const dropNoLower: Rule = {
  name: "drop-no-lower",
  severity: "warning",
  why: "A move with `risk: [floor-drop]` takes the dancer down; without the `height` where it ends, the moves after it are computed as if everybody still stood.",
  good: counts("1-4: { do: Down to the floor, height: lying, risk: [floor-drop] }\n5-8: hold"),
  bad: counts("1-4: { do: Down to the floor, risk: [floor-drop] }\n5-8: hold"),
  find: (scene) => {
    const named = new Set(
      everyMove(scene.written).flatMap(({ place, risks }) => (risks?.includes("floor-drop") ? [place] : [])),
    );
    return perMove(scene, ({ place, before, after, through }, version) => {
      const lower = (height: Height | undefined) =>
        height !== undefined && height !== "inverted" && heights.indexOf(height) > heights.indexOf(before.height);
      if (!named.has(place) || lower(after.height) || lower(through)) return undefined;
      return `this has \`risk: [floor-drop]\`, but begins ${before.height} and ends ${after.height}${inVersion(scene, version)}; write the \`height\` where it ends, such as \`height: lying\`, or \`through: lying\` where it comes up again`;
    });
  },
};
