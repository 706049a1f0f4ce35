import type { Library, Workshop } from "../../routine/routine.js";
import { writePrint } from "../../typesetting/pdf/write.js";
import { type Print, papers } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { countsMarks } from "../counts-mark.js";
import { offeredIn } from "../offered.js";
import { type BoundPart, bound, startsOf } from "../paper/binding.js";
import { creditSpans } from "../paper/credit.js";
import { layoutOwnNotes, margin } from "../paper/page.js";
import { layoutSheet, type Sheet } from "../paper/sheet.js";
import { type ContentsEntry, coverSheet } from "./cover.js";
import { type Leaf, planLeaves } from "./plan-leaves.js";

/** Whose pack it is: the teacher's has the plan. */
export type Reader = "teacher" | "dancers";

/** Draws a workshop's pack as a PDF. */
export function drawPack(
  workshop: Workshop,
  library: Library,
  reader: Reader = "teacher",
  handouts?: readonly Leaf[],
): Promise<Uint8Array> {
  return writePrint(packPrint(workshop, library, reader, handouts));
}

/** @param handouts its handouts, where they have been laid out already */
export function packPrint(
  workshop: Workshop,
  library: Library,
  reader: Reader = "teacher",
  handouts: readonly Leaf[] = handoutLeaves(workshop, library),
): Print {
  const wording = wordingOf(library.language);
  const plan = reader === "teacher" ? planLeaves(workshop, library, wording) : [];
  return bound(workshop.title, partsOf(workshop, plan, handouts, library, wording), workshop, library, wording);
}

/** The handouts of a pack, the same in the teacher's and the dancers'. */
export function handoutLeaves(workshop: Workshop, library: Library): readonly Leaf[] {
  const wording = wordingOf(library.language);
  const { pack, versions } = wording;
  return offeredIn(workshop).map(({ routine, version }) => ({
    title: routine.title,
    about: pack.routine(routine.choreographer, versions.name(version.id), routine.counts),
    sheet: layoutSheet(routine, version, library, { within: "pack", wording }),
  }));
}

/** A part with its name in the contents, where it has one. */
type NamedPart = BoundPart & Pick<Leaf, "title" | "about">;

/** Cover, plan and handouts. Printed on both sides, the cover has the plan on its back. */
function partsOf(
  workshop: Workshop,
  plan: readonly Leaf[],
  handouts: readonly Leaf[],
  library: Library,
  wording: Wording,
): readonly BoundPart[] {
  const dances = offeredIn(workshop);
  const foot: readonly Span[] = [{ text: wording.pack.foot(workshop.title, library.name) }];
  const coverOf = (parts: readonly NamedPart[], first: number): Sheet => {
    const starts = startsOf(lengthsOf(parts), first);
    const entries = parts.flatMap(({ title, about }, index): readonly ContentsEntry[] =>
      title === undefined ? [] : [{ title, page: starts[index] ?? 0, ...(about !== undefined && { about }) }],
    );
    return coverSheet(workshop, dances, entries, library, wording);
  };
  const planned = plan.map((leaf): NamedPart => ({ ...leaf, foot }));
  const given = handouts.map((leaf, index): NamedPart => {
    const dance = dances[index];
    if (dance === undefined) return { ...leaf, foot };
    const mark = countsMarks(dance.routine).get(dance.version.id);
    return { ...leaf, foot: creditSpans(dance.routine, library, wording), read: true, ...(mark && { mark }) };
  });
  // The cover takes as many pages whatever the numbers in its contents are.
  const first = coverOf([...planned, ...given], 0).pages;
  const notes: NamedPart = { sheet: ownNotesSheet(library, wording), foot };
  const parts = [...planned, ...onSheetsOfTheirOwn(given, first + sum(lengthsOf(planned)), notes)];
  return [{ sheet: coverOf(parts, first), foot }, ...parts];
}

const lengthsOf = (parts: readonly NamedPart[]) => parts.map(({ sheet }) => sheet.pages);
const sum = (numbers: readonly number[]) => numbers.reduce((all, one) => all + one, 0);

/**
 * Handouts that fill sheets of paper begin on one: where what stands before them ends on a front, its back has lines to write on.
 *
 * @param page where the first would begin, counted from 0: fronts are even
 */
function onSheetsOfTheirOwn(handouts: readonly NamedPart[], page: number, notes: NamedPart): readonly NamedPart[] {
  const parts: NamedPart[] = [];
  for (const handout of handouts) {
    const isOnBack = (page + sum(lengthsOf(parts))) % 2 === 1;
    parts.push(...(isOnBack && handout.sheet.pages % 2 === 0 ? [notes, handout] : [handout]));
  }
  return parts;
}

/** A page of lines to write on. */
function ownNotesSheet(library: Library, wording: Wording): Sheet {
  const [width, height] = papers[library.paper];
  const at = { page: 0, x: margin.side, y: margin.top };
  const { element, decoration } = layoutOwnNotes(at, width - 2 * margin.side, height - margin.bottom - 10, wording, 14);
  return { elements: [element], decoration, pages: 1, bookmarks: [] };
}
