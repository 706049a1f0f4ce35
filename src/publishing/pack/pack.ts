import type { Library, Workshop } from "../../routine/routine.js";
import { writePrint } from "../../typesetting/pdf/write.js";
import { later, laterBookmark, laterMark, type Print } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { type Offered, offeredIn } from "../offered.js";
import { courseSheet } from "../paper/course-sheet.js";
import { creditSpans } from "../paper/credit.js";
import { feetOf, layoutFeet } from "../paper/page.js";
import { cautionBlocks, gearBlocks } from "../paper/preparation.js";
import { layoutSheet } from "../paper/sheet.js";
import { planOf } from "../plan-of.js";
import { contentsLeaf, coverLeaf, type Leaf, textArea, textLeaf } from "./front.js";
import { planBlocks } from "./plan.js";

/** Draws a workshop's pack as a PDF. */
export function drawPack(workshop: Workshop, library: Library): Promise<Uint8Array> {
  return writePrint(packPrint(workshop, library));
}

/** A chapter of the pack, and what stands at the foot of its pages. */
interface FootedLeaf extends Leaf {
  readonly foot: readonly Span[];
  /** Whether its first page has that as content; the pack's own name is read on its cover. */
  readonly read?: boolean;
}

export function packPrint(workshop: Workshop, library: Library): Print {
  const wording = wordingOf(library.language);
  const leaves = packLeaves(workshop, library, wording);
  const starts = leaves.map((_, index) => leaves.slice(0, index).reduce((sum, { sheet }) => sum + sheet.pages, 0));
  const shifted = leaves.map((leaf, index) => ({ ...leaf, start: starts[index] ?? 0 }));
  const feet = leaves.flatMap(({ sheet, foot, read = false }) =>
    feetOf(foot, sheet.pages).map((one) => (read ? one : { ...one, read })),
  );
  return {
    title: workshop.title,
    ...(library.teacher === undefined ? {} : { author: library.teacher }),
    language: wording.language,
    ...(workshop.date === undefined ? {} : { date: workshop.date }),
    paper: library.paper,
    pages: feet.length,
    elements: shifted.map(({ sheet, start }) => ({
      tag: "Sect",
      content: sheet.elements.map((element) => later(element, start)),
    })),
    decoration: [
      ...shifted.flatMap(({ sheet, start }) => sheet.decoration.map((mark) => laterMark(mark, start))),
      ...layoutFeet(library.paper, feet, wording),
    ],
    bookmarks: shifted.flatMap(({ sheet, start }) => sheet.bookmarks.map((one) => laterBookmark(one, start))),
  };
}

/** Cover, contents, and then the leaves that the contents name. */
function packLeaves(workshop: Workshop, library: Library, wording: Wording): readonly FootedLeaf[] {
  const dances = offeredIn(workshop);
  const foot: readonly Span[] = [{ text: wording.pack.foot(workshop.title, library.name) }];
  const body = bodyLeaves(workshop, dances, library, foot, wording);
  const cover = coverLeaf(workshop, dances, library, wording);
  // The contents take as many pages whatever the numbers in it are.
  const before = cover.sheet.pages + contentsAt(body, 0, library, wording).sheet.pages;
  return [{ ...cover, foot }, { ...contentsAt(body, before, library, wording), foot }, ...body];
}

function contentsAt(body: readonly FootedLeaf[], first: number, library: Library, wording: Wording): Leaf {
  let page = first;
  const entries = body.map(({ title, sheet }) => {
    const entry = { title, page };
    page += sheet.pages;
    return entry;
  });
  return contentsLeaf(entries, library, wording);
}

/** How much of the paper's width a line of prose takes: a longer one is hard to follow. */
const measure = 0.8;

/** What stands behind the contents, in order: the plan first, since the teacher turns to it all class long. */
function bodyLeaves(
  workshop: Workshop,
  dances: readonly Offered[],
  library: Library,
  foot: readonly Span[],
  wording: Wording,
): readonly FootedLeaf[] {
  const { pack } = wording;
  const style = { size: 11, width: textArea(library).width * measure, wording };
  const gear = gearBlocks(dances, style);
  const routines = dances.map(({ routine, version }): FootedLeaf => {
    const sheet = layoutSheet(routine, version, library, { within: "pack", wording });
    return { title: routine.title, sheet, foot: creditSpans(routine, library, wording), read: true };
  });
  return [
    ...planLeaves(workshop, library, wording).map((leaf) => ({ ...leaf, foot })),
    ...(gear.length === 0 ? [] : [{ ...textLeaf(pack.gear, gear, library), foot }]),
    { ...textLeaf(pack.takeCare, cautionBlocks(dances, library, style), library), foot },
    ...routines,
  ];
}

/** The class plan; of a course all of it on a page, and then the plan of each lesson. */
function planLeaves(workshop: Workshop, library: Library, wording: Wording): readonly Leaf[] {
  const { pack, course } = wording;
  const { width } = textArea(library);
  const plan = planOf(workshop, library);
  if (!("lessons" in plan))
    return [textLeaf(pack.classPlan, planBlocks(plan, pack.classPlan, width, wording), library)];
  const lessons = plan.lessons.map((one, index) => {
    const title = course.lessonOn(index + 1, one.date);
    return textLeaf(title, planBlocks(one, title, width, wording), library);
  });
  return [{ title: course.title, sheet: courseSheet(plan, workshop, library, wording) }, ...lessons];
}
