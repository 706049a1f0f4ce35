import type { Finding } from "../reading/finding.js";
import { readContent } from "../reading/read-content.js";
import { rules } from "../routine/checks/check.js";
import { printFindings } from "./findings.js";
import { done, failed, wrongWords } from "./status.js";
import { readWords } from "./words.js";

const usage = `countleaf check [--content DIR] [--format text|json]
countleaf check --explain RULE
`;

export async function checkCommand(args: readonly string[]): Promise<number> {
  const words = readWords(args, usage, ["content", "format", "explain"]);
  if (typeof words === "number") return words;
  const { content = "content", format = "text", explain } = words.options;
  if (explain !== undefined) return explainRule(explain);
  if (format !== "text" && format !== "json") {
    process.stderr.write(`countleaf: \`--format\` is text or json, not ${format}\n${usage}`);
    return wrongWords;
  }
  const { findings, routines, workshops } = await readContent(content);
  if (format === "json") process.stdout.write(`${JSON.stringify(findings, undefined, 2)}\n`);
  else {
    printFindings(findings);
    process.stdout.write(summary(findings, routines.length, workshops.length));
  }
  return findings.some(({ severity }) => severity === "error") ? failed : done;
}

function summary(findings: readonly Finding[], routines: number, workshops: number): string {
  const count = (severity: Finding["severity"]) => findings.filter((finding) => finding.severity === severity).length;
  const [errors, warnings, notes] = [count("error"), count("warning"), count("note")];
  const found = `${errors} to mend before anything is published, ${warnings} to look at, ${notes} to know.`;
  return `${routines} routines and ${workshops} workshops can be published. ${found}\n`;
}

function explainRule(name: string): number {
  const rule = rules.find((one) => one.name === name);
  if (rule === undefined) {
    process.stderr.write(
      `countleaf: there is no rule \`${name}\`; the rules are ${rules.map((one) => one.name).join(", ")}\n`,
    );
    return wrongWords;
  }
  process.stdout.write(
    `${rule.name} (${rule.severity})\n\n${rule.why}\n\nNot like this:\n\n${indent(rule.bad)}\nLike this:\n\n${indent(rule.good)}\nTo silence it for one move, write \`allow: [${rule.name}]\` in that move.\n`,
  );
  return done;
}

function indent(text: string): string {
  return text.replace(/^(?=.)/gm, "    ");
}
