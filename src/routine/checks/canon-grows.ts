import { counts, type Remark, type Rule } from "./rule.js";

export const canonGrows: Rule = {
  name: "canon-grows",
  severity: "note",
  why: "A group in canon begins later, so it is done later: where its last counts are danced, the section is longer than its `counts`, and the song goes on meanwhile.",
  good: counts("1-4: Walk\n5-8: hold", "groups: [Ebb, Flood]\n").concat("    canon: { Flood: 4 }\n"),
  bad: counts("1-4: Walk\n5-8: Turn in a circle", "groups: [Ebb, Flood]\n").concat("    canon: { Flood: 4 }\n"),
  find: ({ routine }) => {
    const found = new Map<string, Remark>();
    for (const { place, name, phrases, counts: length } of routine.sections) {
      const more = phrases.reduce((sum, { echo, numbers }) => sum + (echo ? numbers.length : 0), 0);
      if (more === 0 || found.has(place)) continue;
      found.set(place, {
        place: `${place}/canon`,
        message: `canon makes ${name} ${more} ${more === 1 ? "count" : "counts"} longer: ${length} in place of ${length - more}, until the last group is done; if it should not grow, end its counts with \`hold\`, or write a smaller number in \`canon\``,
      });
    }
    return [...found.values()];
  },
};
