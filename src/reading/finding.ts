import type { Severity } from "../routine/problem.js";

/** Something to tell the author, with the place in the file. Lines and columns count from 1; columns in UTF-16 units. */
export interface Finding {
  /** The file's path as the author would type it. */
  readonly file: string;
  readonly severity: Severity;
  /** The rule's name, in kebab-case. */
  readonly rule: string;
  /** What is wrong and what to write instead. */
  readonly message: string;
  readonly line: number;
  readonly column: number;
}

/** Where something stands in a text, both from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** A finding of a text whose file is not known yet. */
export type TextFinding = Omit<Finding, "file">;

/** Takes a finding at an offset into a text. */
export type Report = (severity: Severity, rule: string, message: string, offset: number) => void;

/** Orders findings by file, line and column; of two in one spot the first found stays first. */
export function inOrder<F extends TextFinding & { readonly file?: string }>(findings: readonly F[]): F[] {
  return [...findings].sort(
    (a, b) => compareText(a.file ?? "", b.file ?? "") || a.line - b.line || a.column - b.column,
  );
}

/** Compares by code unit, so that no locale and no order of a folder's listing ever matters. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
