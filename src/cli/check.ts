import { readFolder } from "../build/read-folder.js";
import { explainRule, ruleNames } from "../reading/explain-rule.js";
import type { Finding } from "../reading/finding.js";
import { readArguments } from "./arguments.js";
import { counted } from "./counted.js";
import { printFindings } from "./findings.js";
import { done, failed, usageError } from "./status.js";

const usage = `countleaf check [--content DIR] [--format text|json]
countleaf check --explain RULE    why a warning or a note is given, with an example
`;
const knownRules = `It explains ${ruleNames.join(", ")}. Everything else that is found says in its own line what to write.\n`;

export async function checkCommand(args: readonly string[]): Promise<number> {
  if (args.length === 1 && args[0] === "--explain") {
    process.stdout.write(knownRules);
    return done;
  }
  const given = readArguments(args, usage, ["content", "format", "explain"]);
  if (typeof given === "number") return given;
  const { content = "content", format = "text" } = given.options;
  if (given.options.explain !== undefined) return explain(given.options.explain);
  if (format !== "text" && format !== "json") {
    process.stderr.write(`countleaf: \`--format\` is text or json, not ${format}\n${usage}`);
    return usageError;
  }
  const { findings, sources, routines, workshops } = await readFolder(content);
  if (format === "json") process.stdout.write(`${JSON.stringify(findings, undefined, 2)}\n`);
  else {
    printFindings(findings, sources);
    process.stdout.write(summary(findings, routines.length, workshops.length));
  }
  return findings.some(({ severity }) => severity === "error") ? failed : done;
}

function summary(findings: readonly Finding[], routines: number, workshops: number): string {
  const count = (severity: Finding["severity"]) => findings.filter((finding) => finding.severity === severity).length;
  const [errors, warnings, notes] = [count("error"), count("warning"), count("note")];
  const read = `${counted(routines, "routine")} and ${counted(workshops, "workshop")} are sound. `;
  const mend = errors === 0 ? "Nothing to mend" : `${errors} to mend before anything is published`;
  return `${read}${mend}, ${warnings} to look at, ${notes} to know.\n`;
}

function explain(name: string): number {
  const text = explainRule(name);
  if (text === undefined) {
    process.stderr.write(`countleaf: \`--explain\` does not know \`${name}\`. ${knownRules}`);
    return usageError;
  }
  process.stdout.write(text);
  return done;
}
