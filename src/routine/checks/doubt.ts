import type { Place } from "../problem.js";
import { counts, type Rule, type Scene } from "./rule.js";

export const doubt: Rule = {
  name: "doubt",
  severity: "note",
  why: "What you have marked as not sure yet, with the versions that dance it. It is published as it stands, and the doubt itself is not; once you know, correct the counts and take the line out.",
  good: counts("1-6: Walk\n7-8: Turn"),
  bad: counts("1-6: Walk\n7-8: { do: Turn, doubt: '6 or 7?' }"),
  find: (scene) =>
    scene.routine.doubts.map(({ place, text }) => ({
      place: `${place}/doubt`,
      message: `you are not sure here${versionsAt(scene, place)}: “${text}”; once you know, take \`doubt\` out`,
    })),
};

/** Which versions dance a move; empty of what is no move, and where there is one version alone. */
function versionsAt({ routine }: Scene, place: Place): string {
  if (routine.versions.length < 2) return "";
  const danced = routine.versions.filter((version) =>
    [version, ...version.groups].some(({ moves }) => moves.some((move) => move.place === place)),
  );
  if (danced.length === routine.versions.length) return " (every version)";
  const named = danced.map(({ id, kind }) => (kind === "level" ? `level ${id}` : id));
  return named.length === 0 ? "" : ` (${named.join(", ")})`;
}
