import type { Finding } from "../reading/finding.js";

/** Prints findings for a person. */
export function printFindings(findings: readonly Finding[]): void {
  for (const { file, line, column, message } of findings)
    process.stderr.write(`${file}:${line}:${column}  ${message}\n`);
}

/** Says why nothing can be made of the routine that was asked for. */
export function printObstacle(
  slug: string,
  { findings, slugs }: { readonly findings: readonly Finding[]; readonly slugs: readonly string[] },
): void {
  printFindings(findings);
  if (findings.length === 0)
    process.stderr.write(`countleaf: there is no routine \`${slug}\`; there are: ${slugs.join(", ") || "none yet"}\n`);
}
