import type { Document, YAMLError } from "yaml";
import type { TextFinding } from "./finding.js";

/** A slip that was recognised, and the lines as they were probably meant. */
export interface Cure {
  readonly findings: readonly TextFinding[];
  readonly lines: readonly string[];
}

export function mend(
  _lines: readonly string[],
  _error: YAMLError,
  _line: number,
  _document: Document,
): Cure | undefined {
  return undefined;
}

/** What a YAML error means to somebody who has never heard of YAML. */
export function plainReason(error: YAMLError): string {
  return error.message;
}
