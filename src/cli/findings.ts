import type { Finding } from "../reading/finding.js";

/** Prints findings for a person. */
export function printFindings(findings: readonly Finding[]): void {
  for (const { file, line, column, message } of findings)
    process.stderr.write(`${file}:${line}:${column}  ${message}\n`);
}
