import type { Place, Severity } from "../problem.js";
import type { Library, Move, Routine, Version } from "../routine.js";
import type { WrittenRoutine } from "../written.js";

/** What a rule looks at: the routine as written and as danced. */
export interface Scene {
  readonly written: WrittenRoutine;
  readonly routine: Routine;
  readonly library: Library;
  /** Versions, the taught one first, so that what holds for all is said of it. */
  readonly versions: readonly Version[];
}

export interface Remark {
  readonly place: Place;
  readonly message: string;
  /** Where it is not the rule's own. */
  readonly severity?: Severity;
}

/** Something that a careful teacher would look for in a routine. */
export interface Rule {
  /** In kebab-case; what an author writes in `allow`. */
  readonly name: string;
  readonly severity: Severity;
  /** Why it matters, in a sentence or two. */
  readonly why: string;
  /** The keys of a routine beside title, choreographer and tempo, as YAML: once well written, once not. */
  readonly good: string;
  readonly bad: string;
  readonly find: (scene: Scene) => readonly Remark[];
}

/** Says which version a remark is about; the taught one needs no word. */
export function inVersion(scene: Scene, version: Version): string {
  if (version.id === scene.routine.taught) return "";
  return version.kind === "level" ? ` at level ${version.id}` : ` in the ${version.id} version`;
}

/** What a version is called in a message. */
export function versionName({ kind, id }: Version): string {
  return kind === "level" ? `level ${id}` : `version ${id}`;
}

/** Where a move stands in the dance, for a message: "count 5 of Harbour wall". */
export function whereIs(routine: Routine, move: Pick<Move, "section" | "phrase" | "on">): string {
  const section = routine.sections[move.section];
  if (section === undefined) return `\`${move.on}\``;
  const phrase = section.phrases.length > 1 ? `, phrase ${move.phrase}` : "";
  return `\`${move.on}\` of ${section.name}${phrase}`;
}

/**
 * One remark a move of the file, however often it is danced and in however many versions: the first that `look` returns.
 */
export function perMove(
  scene: Scene,
  look: (move: Move, version: Version, index: number) => string | undefined,
): readonly Remark[] {
  const found = new Map<Place, Remark>();
  for (const version of scene.versions)
    for (const [group, { moves }] of [
      [undefined, version] as const,
      ...version.groups.map((one) => [one.name, one] as const),
    ])
      for (const [index, move] of moves.entries()) {
        if (found.has(move.place)) continue;
        const message = look(move, version, index);
        if (message === undefined) continue;
        found.set(move.place, { place: move.place, message: group === undefined ? message : `${group}: ${message}` });
      }
  return [...found.values()];
}

/** A rule's example: one section with these counts. */
export function counts(yaml: string, before = ""): string {
  return `${before}sections:\n  - name: Chorus\n    counts:\n${yaml
    .trim()
    .split("\n")
    .map((line, index) => `      ${index === 0 ? "- " : "  "}${line}`)
    .join("\n")}\n`;
}
