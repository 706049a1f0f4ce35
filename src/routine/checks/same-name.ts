import { counts, type Remark, type Rule } from "./rule.js";

export const sameName: Rule = {
  name: "same-name",
  severity: "warning",
  why: "Sections are found by their names: by `same-as`, by the headings of the prose, by a reader who looks for her place. Two with one name are two that nobody can tell apart.",
  good: counts("1-8: Walk").concat("  - name: Chorus again\n    same-as: Chorus\n"),
  bad: counts("1-8: Walk").concat("  - name: Chorus\n    counts: [{ 1-8: Run }]\n"),
  find: ({ written: { sections } }) =>
    sections.flatMap(({ name, place }, index): readonly Remark[] => {
      if (sections.findIndex((one) => one.name === name) === index) return [];
      const message = `another section is called \`${name}\` too; give this one a name of its own, such as \`${name} again\``;
      return [{ place: `${place}/name`, message }];
    }),
};
