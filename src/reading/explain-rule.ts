import { rules } from "../routine/checks/check.js";

/** The names of the rules that look at a routine that can be danced. */
export const ruleNames: readonly string[] = rules.map(({ name }) => name);

/** A rule in words, with an example badly and one well written; undefined where there is no such rule. */
export function explainRule(name: string): string | undefined {
  const rule = rules.find((one) => one.name === name);
  if (rule === undefined) return undefined;
  return [
    `${rule.name} (${rule.severity})`,
    "",
    rule.why,
    "",
    "Not like this:",
    "",
    indent(rule.bad),
    "Like this:",
    "",
    indent(rule.good),
    `To silence it for one move, write \`allow: [${rule.name}]\` in that move.`,
    "",
  ].join("\n");
}

function indent(text: string): string {
  return text.replace(/^(?=.)/gm, "    ");
}
