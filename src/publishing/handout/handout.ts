import type { Library, Routine, Version } from "../../routine/routine.js";
import { writePrint } from "../../typesetting/pdf/write.js";
import type { Print } from "../../typesetting/print.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { creditSpans } from "../paper/credit.js";
import type { Dance } from "../paper/dance.js";
import { danceLine } from "../paper/head.js";
import { feetOf, layoutFeet } from "../paper/page.js";
import { layoutSheet, type Sheet } from "../paper/sheet.js";
import { layoutCard } from "./card/card.js";
import { layoutLarge } from "./large.js";

/** Kinds of handout: the sheet, in large print, or as a card to read from the floor. */
export type Variant = "sheet" | "large" | "card";

const layouts: Record<Variant, (dance: Dance, library: Library, wording: Wording) => Sheet> = {
  sheet: footedSheet,
  large: layoutLarge,
  card: layoutCard,
};

/**
 * Draws a version's handout as a PDF; for a mirrored one, give the reflected routine.
 *
 * @param more the mark of its counts, and whose it is where it is for one group: then give the routine as that group dances it
 */
export function drawHandout(
  routine: Routine,
  version: Version,
  library: Library,
  variant: Variant,
  more?: Omit<Dance, "routine" | "version">,
): Promise<Uint8Array> {
  return writePrint(handoutPrint(routine, version, library, variant, more));
}

/** The same, laid out and not yet written. */
export function handoutPrint(
  routine: Routine,
  version: Version,
  library: Library,
  variant: Variant,
  more?: Omit<Dance, "routine" | "version">,
): Print {
  const wording = wordingOf(library.language);
  const dance: Dance = { routine, version, ...more };
  return {
    title: wording.print.title(routine.title, danceLine(dance, wording), variant),
    author: routine.choreographer,
    language: wording.language,
    ...(routine.date === undefined ? {} : { date: routine.date }),
    paper: library.paper,
    ...layouts[variant](dance, library, wording),
  };
}

function footedSheet({ routine, version, group, mark }: Dance, library: Library, wording: Wording): Sheet {
  const sheet = layoutSheet(routine, version, library, {
    within: "handout",
    wording,
    ...(group !== undefined && { group }),
  });
  const feet = feetOf(creditSpans(routine, library, wording), sheet.pages, mark);
  return { ...sheet, decoration: [...sheet.decoration, ...layoutFeet(library.paper, feet, wording)] };
}
