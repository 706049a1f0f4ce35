import type { Library, Routine, Version } from "../../routine/routine.js";
import { versionLine } from "../paper/head.js";
import { creditSpans } from "../paper/notes.js";
import type { Print } from "../paper/print.js";
import { layoutFeet, layoutSheet } from "../paper/sheet.js";
import { writePrint } from "../paper/write.js";

/** Kinds of handout: the sheet, in large print, or as a card to read from the floor. */
export type Variant = "sheet" | "large" | "card";

/** Draws a version's handout as a PDF; for a mirrored one, give the reflected routine. */
export function drawHandout(
  routine: Routine,
  version: Version,
  library: Library,
  variant: Variant,
): Promise<Uint8Array> {
  return writePrint(handoutPrint(routine, version, library, variant));
}

export function handoutPrint(routine: Routine, version: Version, library: Library, _variant: Variant): Print {
  const sheet = layoutSheet(routine, version, library, { within: "handout" });
  return {
    title: `${routine.title}: ${versionLine(routine, version)}`,
    author: routine.choreographer,
    language: library.language,
    ...(routine.date === undefined ? {} : { date: routine.date }),
    paper: library.paper,
    pages: sheet.pages,
    parts: sheet.parts,
    decoration: [
      ...sheet.decoration,
      ...layoutFeet(library.paper, Array(sheet.pages).fill(creditSpans(routine, library))),
    ],
    bookmarks: sheet.bookmarks,
  };
}
