/**
 * Where a part of a routine came from: opaque to the model, which only passes it on. The reader hands out places and
 * knows which line and column each of them is.
 */
export type Place = string;

export const severities = ["error", "warning", "note"] as const;
/** An error stops publishing, a warning does not, a note is for the author's eye only. */
export type Severity = (typeof severities)[number];

/** Something that the model has to say about a part of a routine. */
export interface Problem {
  readonly severity: Severity;
  /** The rule's name, in kebab-case. */
  readonly rule: string;
  /** What is wrong and what to write instead, in words a dance teacher uses. */
  readonly message: string;
  readonly place: Place;
}
