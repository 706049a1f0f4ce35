import type { Made } from "../build/one-routine.js";
import type { Finding } from "../reading/finding.js";
import { formatFindings } from "../reading/report.js";

/** Prints findings for a person, each with its line and a caret. */
export function printFindings(findings: readonly Finding[], sources: ReadonlyMap<string, string>): void {
  process.stderr.write(formatFindings(findings, sources));
}

/** Says why nothing can be made of the routine that was asked for. */
export function printObstacle(slug: string, { findings, sources, slugs }: Extract<Made, { done: false }>): void {
  printFindings(findings, sources);
  if (findings.length === 0)
    process.stderr.write(`countleaf: there is no routine \`${slug}\`; there are: ${slugs.join(", ") || "none yet"}\n`);
}
