import type { Library, Routine, Version } from "../../routine/routine.js";
import { writePrint } from "../../typesetting/pdf/write.js";
import type { Print } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import { versionLine } from "../paper/head.js";
import { creditSpans, type Dance } from "../paper/notes.js";
import { layoutFeet } from "../paper/page.js";
import { layoutSheet, type Sheet } from "../paper/sheet.js";
import { layoutCard } from "./card.js";
import { layoutLarge } from "./large.js";

/** Kinds of handout: the sheet, in large print, or as a card to read from the floor. */
export type Variant = "sheet" | "large" | "card";

const layouts: Record<Variant, { readonly name: string; readonly layout: (dance: Dance, library: Library) => Sheet }> =
  {
    sheet: { name: "", layout: footedSheet },
    large: { name: ", large print", layout: layoutLarge },
    card: { name: ", cue card", layout: layoutCard },
  };

/** Draws a version's handout as a PDF; for a mirrored one, give the reflected routine. */
export function drawHandout(
  routine: Routine,
  version: Version,
  library: Library,
  variant: Variant,
): Promise<Uint8Array> {
  return writePrint(handoutPrint(routine, version, library, variant));
}

/** The same, laid out and not yet written. */
export function handoutPrint(routine: Routine, version: Version, library: Library, variant: Variant): Print {
  const { name, layout } = layouts[variant];
  return {
    title: `${routine.title}: ${versionLine(routine, version)}${name}`,
    author: routine.choreographer,
    language: library.language,
    ...(routine.date === undefined ? {} : { date: routine.date }),
    paper: library.paper,
    ...layout({ routine, version }, library),
  };
}

function footedSheet({ routine, version }: Dance, library: Library): Sheet {
  const sheet = layoutSheet(routine, version, library, { within: "handout" });
  const credit = Array<readonly Span[]>(sheet.pages).fill(creditSpans(routine, library));
  return { ...sheet, decoration: [...sheet.decoration, ...layoutFeet(library.paper, credit)] };
}
