import { counts, perMove, type Rule } from "./rule.js";

export const gearNotListed: Rule = {
  name: "gear-not-listed",
  severity: "note",
  why: "A move may ask for gear of its own; it is then added to what its version needs. In the routine's list it can have a reason, and dancers read it before they come.",
  good: counts("1-8: { do: Roll over the left shoulder, gear: [mat] }", "gear:\n  - { item: mat, need: required }\n"),
  bad: counts("1-8: { do: Roll over the left shoulder, gear: [mat] }"),
  find: (scene) => {
    const listed = new Map(scene.written.gear.map((gear) => [gear.item.toLowerCase(), gear]));
    return perMove(scene, (move, version) => {
      for (const item of move.gear) {
        const gear = listed.get(item.toLowerCase());
        if (gear === undefined || gear.for?.includes(version.id) === false)
          return `this move needs "${item}", which the routine's \`gear\` does not list${version.id === scene.routine.taught ? "" : ` for version ${version.id}`}; add \`- { item: ${item}, need: required, why: … }\` there`;
        if (gear.need === "optional")
          return `this move needs "${item}", which the routine's \`gear\` lists as optional; write \`need: required\` there, with \`for:\` if only some versions need it`;
      }
      return undefined;
    });
  },
};
