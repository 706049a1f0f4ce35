import { counts, type Remark, type Rule } from "./rule.js";

export const neverDanced: Rule = {
  name: "never-danced",
  severity: "warning",
  why: "A restart breaks a time through off. What stood after it, a tag or an ending, is then not danced that time.",
  good: counts("1-8: Walk", "times: 3\nrestarts: [{ wall: 2, after: 4 }]\n").concat(
    "  - name: Tag\n    on-walls: [3]\n    counts: [{ 1-8: Clap }]\n",
  ),
  bad: counts("1-8: Walk", "times: 3\nrestarts: [{ wall: 2, after: 4 }]\n").concat(
    "  - name: Tag\n    on-walls: [2]\n    counts: [{ 1-8: Clap }]\n",
  ),
  find: ({ written, routine }) =>
    written.sections.flatMap((section, index): readonly Remark[] => {
      const danced = routine.sections.filter((one) => one.written === index).map(({ wall }) => wall);
      const missed = (section.onWalls ?? []).filter((wall) => !danced.includes(wall));
      if (danced.length > 0 && missed.length === 0) return [];
      const when = missed.length > 0 ? ` on time ${missed.join(", ")}` : "";
      return [
        {
          place: section.place,
          message: `\`${section.name}\` is never danced${when}: a restart comes first; move the restart's \`after\` or its \`wall\`, or take the section's \`on-walls\` out`,
        },
      ];
    }),
};
