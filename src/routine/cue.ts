/** A stretch of a text, in UTF-16 units, the end excluded. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

/** How a stretch of a cue is set. `fixed` stood in backticks: it prints plainly and is never mirrored. */
export interface Mark extends Range {
  readonly kind: "strong" | "emphasis" | "struck" | "link" | "fixed";
  /** Only of a link: an address that has been checked (http, https, mailto or relative). */
  readonly href?: string;
}

/** A line of inline Markdown, taken apart: what a reader sees, and how stretches of it are set (outer marks first). */
export interface Cue {
  readonly text: string;
  readonly marks: readonly Mark[];
}
