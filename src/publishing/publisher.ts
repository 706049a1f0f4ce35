import type { Severity } from "../routine/problem.js";
import type { Library } from "../routine/routine.js";

/** What sort of thing a file of the pack is. */
export type Kind =
  | "page"
  | "handout"
  | "captions"
  | "click"
  | "picture"
  /** The text for under a video. */
  | "description"
  /** The plan of a class. */
  | "plan"
  | "data"
  /** What pages are shown with: styles, scripts, fonts. */
  | "asset";

/** A file of the published pack, as the output that makes it declares it. */
export interface DeclaredFile {
  /** Relative to the output folder, with forward slashes. */
  readonly path: string;
  readonly kind: Kind;
  /** Without parameters (RFC 6838): "application/pdf". */
  readonly mediaType: string;
  /** Of a picture that a page shows, in CSS pixels, so that its room is kept until it is there. */
  readonly size?: { readonly width: number; readonly height: number };
  /** What its page calls it among the files to take away, in the order of the list; absent where it is not offered there. */
  readonly label?: string;
  /** The name, without ending, that it is saved under by somebody who takes it away: "Low Tide, level 2". */
  readonly saveAs?: string;
}

export interface OutFile extends DeclaredFile {
  readonly content: string | Uint8Array;
}

/** Something that was found in a subject's file, with its place there. */
export interface FindingInFile {
  readonly severity: Severity;
  readonly rule: string;
  readonly message: string;
  readonly line: number;
  readonly column: number;
}

/** What an output may look at beside its subject. */
export interface Context {
  readonly library: Library;
  /** What was found in the subject's own file. */
  readonly findings: readonly FindingInFile[];
  /** What the outputs that stand before this one in the list have made of the subject, or will make later. */
  readonly files: readonly DeclaredFile[];
  /** The text of one of them; only of one that is not made later. */
  readonly textOf: (path: string) => string;
}

/** A subject with what belongs to it. */
export interface Work<Subject> {
  readonly subject: Subject;
  readonly context: Context;
}

/**
 * What every output looks like from outside: something whole goes in (a routine, a workshop, a library), named files come out.
 * It reads nothing else and writes nothing itself, and the same input gives the same bytes.
 */
export interface Publisher<Subject> {
  readonly name: string;
  readonly publish: (subject: Subject, context: Context) => readonly OutFile[] | Promise<readonly OutFile[]>;
  /** The same for several subjects, where that is less work than one after the other. Such an output stands last in its list. */
  readonly publishAll?: (works: readonly Work<Subject>[]) => Promise<readonly (readonly OutFile[])[]>;
  /** Of an output that takes a while: its files before they are made, so that what links to them need not wait. */
  readonly declare?: (subject: Subject, context: Context) => readonly DeclaredFile[];
  /** Of an output that makes pages: their paths, for the sitemap, which is made while they are. */
  readonly pages?: (subject: { readonly slug: string }) => readonly string[];
}
