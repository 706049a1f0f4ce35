import type { Made } from "../build/one-routine.js";
import type { Finding } from "../reading/finding.js";
import { eitherOf, nearest } from "../reading/nearest.js";
import { formatFindings } from "../reading/report.js";

/** Prints findings for a person, each with its line and a caret. */
export function printFindings(findings: readonly Finding[], sources: ReadonlyMap<string, string>): void {
  process.stderr.write(formatFindings(findings, sources));
}

/** Says why nothing can be made of the routine that was asked for. */
export function printObstacle(slug: string, { findings, sources, slugs }: Extract<Made, { done: false }>): void {
  printFindings(findings, sources);
  if (findings.length > 0) return;
  const near = nearest(slug, slugs);
  const hint = near === undefined ? `there are: ${eitherOf(slugs, "and") || "none yet"}` : `did you mean \`${near}\`?`;
  process.stderr.write(`countleaf: there is no routine \`${slug}\`; ${hint}\n`);
}
