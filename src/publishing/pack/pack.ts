import type { Library, Workshop } from "../../routine/routine.js";
import { writePrint } from "../../typesetting/pdf/write.js";
import { type Print, papers } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
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

/**
 * Cover, plan and handouts. Printed on both sides, the cover has the plan on its back, and handouts begin on a sheet of
 * their own: where what stands before them ends on a front, its back has lines to write on.
 */
function partsOf(
  workshop: Workshop,
  plan: readonly Leaf[],
  handouts: readonly Leaf[],
  library: Library,
  wording: Wording,
): readonly BoundPart[] {
  const dances = offeredIn(workshop);
  const foot: readonly Span[] = [{ text: wording.pack.foot(workshop.title, library.name) }];
  const coverAt = (plans: readonly number[], sheets: readonly number[]) => {
    const entry = ({ title, about }: Leaf, page = 0): readonly ContentsEntry[] =>
      title === undefined ? [] : [{ title, page, ...(about !== undefined && { about }) }];
    const entries = [
      ...plan.flatMap((leaf, index) => entry(leaf, plans[index])),
      ...handouts.flatMap((leaf, index) => entry(leaf, sheets[index])),
    ];
    return coverSheet(workshop, dances, entries, library, wording);
  };
  const lengths = (leaves: readonly Leaf[]) => leaves.map(({ sheet }) => sheet.pages);
  // The cover takes as many pages whatever the numbers in its contents are.
  const first = coverAt([], []).pages;
  const before = lengths(plan).reduce((sum, one) => sum + one, first);
  const needsBack = before % 2 === 1 && (handouts[0]?.sheet.pages ?? 0) % 2 === 0;
  const cover = coverAt(startsOf(lengths(plan), first), startsOf(lengths(handouts), before + (needsBack ? 1 : 0)));
  return [
    { sheet: cover, foot },
    ...plan.map(({ sheet }) => ({ sheet, foot })),
    ...(needsBack ? [{ sheet: ownNotesSheet(library, wording), foot }] : []),
    ...handouts.map(({ sheet }, index) => {
      const { routine } = dances[index] ?? {};
      return { sheet, foot: routine === undefined ? foot : creditSpans(routine, library, wording), read: true };
    }),
  ];
}

/** A page of lines to write on. */
function ownNotesSheet(library: Library, wording: Wording): Sheet {
  const [width, height] = papers[library.paper];
  const at = { page: 0, x: margin.side, y: margin.top };
  const { element, decoration } = layoutOwnNotes(at, width - 2 * margin.side, height - margin.bottom - 10, wording, 14);
  return { elements: [element], decoration, pages: 1, bookmarks: [] };
}
