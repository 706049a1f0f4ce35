import { counts, type Rule } from "./rule.js";

export const noWalls: Rule = {
  name: "no-walls",
  severity: "note",
  why: "A routine that is danced several times and ends facing another way than it began starts in several directions. `walls` says in how many, and then they are checked.",
  good: counts("1-8: { do: Quarter turn right, turn: 1/4 right }", "walls: 4\n"),
  bad: counts("1-8: { do: Quarter turn right, turn: 1/4 right }", "times: 4\n"),
  find: ({ written, routine, versions }) => {
    if (written.walls > 1 || written.times === 1) return [];
    const second = routine.sections.findIndex(({ wall }) => wall === 2);
    const start = versions[0]?.start.facing;
    const next = versions[0]?.moves.findLast(({ section }) => section < second)?.after.facing;
    if (next === undefined || next === start) return [];
    return [
      {
        place: `${written.place}/times`,
        message: `the second time starts facing ${next}, the first ${start}; write \`walls:\` with the number of directions that it starts in`,
      },
    ];
  },
};
