import { counts, type Rule } from "./rule.js";

export const credit: Rule = {
  name: "credit",
  severity: "warning",
  why: "Where a routine has no `credit` of its own, the library's is printed; it should then name everybody who made the routine.",
  good: counts("1-8: Walk", "credit: Choreography by Nobody\n"),
  bad: counts("1-8: Walk"),
  find: ({ written, library }) => {
    if (written.credit !== undefined || library.credit === undefined) return [];
    const text = library.credit.toLowerCase();
    const missing = written.choreographer
      .split(/,|&|\band\b/)
      .map((name) => name.trim())
      .filter((name) => name !== "" && !text.includes(name.toLowerCase()));
    if (missing.length === 0) return [];
    return [
      {
        place: `${written.place}/choreographer`,
        message: `the library's credit ("${library.credit}") does not name ${missing.join(" and ")}; write a \`credit:\` for this routine`,
      },
    ];
  },
};
