import { counts, type Rule } from "./rule.js";

/* What an adaptation on a chair is called. */
const onAChair = /\b(?:seated|sitting|chairs?|wheelchairs?)\b/i;

export const seatedStart: Rule = {
  name: "seated-start",
  severity: "note",
  why: "An adaptation that is danced on a chair begins there; without a start of its own it has the class's, and its sheet says “standing”.",
  good: counts(
    "1-8: { do: Walk, options: { seated: Tap the feet } }",
    "adaptations: [seated]\nstart: { seated: { weight: seat, height: chair } }\n",
  ),
  bad: counts("1-8: { do: Walk, options: { seated: Tap the feet } }", "adaptations: [seated]\n"),
  find: ({ written, versions }) =>
    written.adaptations.flatMap(({ name, place }) => {
      const version = versions.find(({ id, kind }) => id === name && kind === "adaptation");
      if (version?.start.height !== "standing" || !onAChair.test(name)) return [];
      // Whoever sits down first does start standing.
      if (version.moves[0]?.after.height === "chair" || version.moves[0]?.after.height === "seated") return [];
      const write = `\`start: { ${name}: { weight: seat, height: chair } }\``;
      return [{ place, message: `${name} starts standing; where it starts on a chair, write ${write}` }];
    }),
};
