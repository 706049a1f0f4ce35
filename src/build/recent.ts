import { type RoutineRead, readRoutineSource } from "../reading/read-routine.js";
import type { Library } from "../routine/routine.js";

/** A routine as it passes from thread to thread. */
export interface RoutineText {
  readonly slug: string;
  /** Line ends "\n". */
  readonly text: string;
}

/** Most characters of text whose routines are held: a routine takes many times as much memory as its text. */
const most = 100_000;

/** What this thread has read lately. */
let recent: { readonly library: string; readonly reads: Map<string, RoutineRead>; size: number } | undefined;

/** Reads routines; one that this thread has read a moment ago, for the same library, is not read again. */
export function reader(library: Library): (file: RoutineText) => RoutineRead {
  const key = JSON.stringify(library);
  return ({ slug, text }) => {
    const name = `${slug}\n${text}`;
    const known = recent?.library === key ? recent.reads.get(name) : undefined;
    if (known) return known;
    if (recent?.library !== key || recent.size + text.length > most)
      recent = { library: key, reads: new Map(), size: 0 };
    const read = readRoutineSource(text, slug, library);
    recent.reads.set(name, read);
    recent.size += text.length;
    return read;
  };
}
