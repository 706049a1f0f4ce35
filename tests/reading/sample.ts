import { emptyLibrary } from "../../src/reading/read-library.js";
import { readRoutine } from "../../src/reading/read-routine.js";

/** A small whole routine; what is given stands in place of its own lines. */
export function sample(
  parts: { readonly head?: string; readonly move?: string; readonly counts?: string; readonly body?: string } = {},
): string {
  const { move = "Walk", head = "", body = "" } = parts;
  const counts = parts.counts ?? `      - 1-4: ${move}\n        5-8: hold\n`;
  return `---\ntitle: A\nchoreographer: B\nmusic:\n  tempo: 92\n${head}sections:\n  - name: Verse\n    counts:\n${counts}---\n${body}`;
}

/** What is found in a routine's text, as `line:column rule`, notes left out. */
export function found(text: string): string[] {
  return readRoutine(text, "sample", emptyLibrary)
    .findings.filter(({ severity }) => severity !== "note")
    .map(({ line, column, rule }) => `${line}:${column} ${rule}`);
}

/** The messages of what is found. */
export function told(text: string): string[] {
  return readRoutine(text, "sample", emptyLibrary).findings.map(({ message }) => message);
}
