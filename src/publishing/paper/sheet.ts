import type { Library, Routine, Version } from "../../routine/routine.js";
import { type Block, besideBlock, wholeBlock } from "../../typesetting/block.js";
import { columnWidth } from "../../typesetting/flow.js";
import { type Bookmark, figure, type Print, papers, type StructureElement } from "../../typesetting/print.js";
import type { Wording } from "../../wording/wording.js";
import { floorPlans } from "../drawing/floor-plan.js";
import { phraseMap, tellsMore } from "../drawing/phrase-map.js";
import { type Band, sheetBands } from "./bands.js";
import { smallest } from "./cell.js";
import { creditSpans, routineAddress } from "./credit.js";
import type { Dance } from "./dance.js";
import { type Grid, listedIn, placeGrid, type SetBand, setGrid } from "./grid.js";
import { danceLine, type Head, layoutHead, type SheetOptions } from "./head.js";
import { gridSigns, type Legend, layoutLegend, mapSigns } from "./legend.js";
import { headingBlock, type NoteStyle } from "./note-style.js";
import { teachingBlocks } from "./notes.js";
import { neighbourOptions } from "./options.js";
import { otherSideBar, otherSideReason, otherSideTop } from "./other-side.js";
import { footElement, layoutRunningHeads, margin } from "./page.js";
import { markedBlocks, practiceBlocks, speedBlocks } from "./practice.js";
import { deferringBlocks } from "./preparation.js";
import { type Picture, placeRest, type RestContext } from "./rest.js";
import { orderBlocks } from "./run-order.js";

/** A routine's sheet, laid out on pages of its own, counted from 0. */
export type Sheet = Pick<Print, "elements" | "decoration" | "again" | "pages" | "bookmarks">;

/**
 * How cues are set: the same on every sheet, and smaller, with the fuller counts wider, only where it keeps a sheet on its two sides or
 * a cue in its own counts.
 */
const settings = [
  { size: 9.5, fitted: false },
  { size: smallest, fitted: true },
] as const;
const sides = 2;
const noteSize = 9;
const gutter = 18;
/** Between two pictures beside each other. */
const apart = 12;
/** Points that a floor on a sheet is deep at most where there is little room. */
const shallow = 72;
/** The same where a sheet has room. */
const roomy = 128;
/** Points left on the last page from which on there is. */
const plenty = 100;
/** From the top margin down to where a further page begins, under its running head. */
const runningHead = 19;
/** A section that does not fit begins on the next page where so much of this one is filled. */
const nearlyFull = 0.8;

/** What does not change from one way to lay a sheet out to the next. */
interface SheetContext extends RestContext {
  readonly dance: Dance;
  readonly library: Library;
  readonly head: Head;
  readonly legend: Legend;
  /** At the foot of the first page. */
  readonly credit: StructureElement;
  /** The notes with more room between lines, and larger pictures. */
  readonly roomy: () => readonly Block[];
  /** The notes without what a reader finds on the routine's page as well: the way over the floor and the speeds. */
  readonly words: readonly Block[];
}

/** A sheet as it might be. */
interface SheetDraft {
  readonly pages: number;
  readonly listed: number;
  readonly draw: () => Sheet;
}

/**
 * Lays a version out: head, cautions, signs and counts first, and what is read at home behind them; on two sides if that can be, else on
 * as few pages as it goes.
 */
export function layoutSheet(
  routine: Routine,
  version: Version,
  library: Library,
  { within, wording, group }: SheetOptions & Pick<Dance, "group">,
): Sheet {
  const dance: Dance = { routine, version, ...(group === undefined ? {} : { group }) };
  const bands = sheetBands(routine, version, wording);
  const context = contextOf(dance, library, within, bands, wording);
  const setIn = (setting: (typeof settings)[number], neighbours: "both" | "easier") => {
    const optionsOf = neighbourOptions(routine, version, wording, neighbours);
    return setGrid(routine, bands, { ...setting, width: context.width, wording, optionsOf });
  };
  let best: SheetDraft | undefined;
  let set: readonly SetBand[] = [];
  for (const setting of settings) {
    set = setIn(setting, "both");
    best = bestOf(context, set, best);
    if (best.pages <= sides && best.listed === 0) break;
  }
  if (best === undefined) throw new Error("There is no size to lay a sheet out in.");
  // What a third side is not turned for: first the pictures, then what the next harder level dances, which has a sheet of its own.
  const words = { ...context, notes: context.words };
  const closer = [
    () => bestOf(words, set),
    () => bestOf(context, setIn(settings[1], "easier")),
    () => bestOf(words, setIn(settings[1], "easier")),
  ];
  for (const draft of best.pages === sides + 1 ? closer : []) {
    const shorter = draft();
    if (shorter.pages <= sides) return shorter.draw();
  }
  return best.draw();
}

/** The better way to break a grid over pages, or the best one so far. */
function bestOf(context: SheetContext, set: readonly SetBand[], before?: SheetDraft): SheetDraft {
  const whole = layoutDraft(context, set, nearlyFull);
  const first = before === undefined || isBetter(whole, before) ? whole : before;
  if (whole.pages <= sides) return first;
  const broken = layoutDraft(context, set, 1);
  return isBetter(broken, first) ? broken : first;
}

function isBetter(draft: SheetDraft, best: SheetDraft): boolean {
  return draft.pages === best.pages ? draft.listed < best.listed : draft.pages < best.pages;
}

function contextOf(
  dance: Dance,
  library: Library,
  within: SheetOptions["within"],
  bands: readonly Band[],
  wording: Wording,
): SheetContext {
  const { routine, version } = dance;
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const top = routine.mirrored ? otherSideTop : margin.top;
  const head = layoutHead(dance, library, { within, wording }, { page: 0, x: margin.side, y: top }, width);
  const style: NoteStyle = {
    tight: true,
    once: true,
    size: noteSize,
    width: columnWidth({ width, columns: 2, gutter }),
    ...basisOf(routine, library),
    wording,
  };
  const wide = { ...style, width };
  // A sheet without a caution of its own has them in its head.
  const deferring = (style: NoteStyle) =>
    within === "pack" ? [] : deferringBlocks(library, style, version.cautions.length > 0);
  const texts = (set: NoteStyle) => [...orderBlocks(routine, set), ...teachingBlocks(routine, version, set)];
  return {
    dance,
    library,
    wording,
    width,
    gutter,
    top,
    below: routine.mirrored ? top : top + runningHead,
    bottom: pageHeight - margin.bottom,
    head,
    legend: layoutLegend(gridSigns(bands, wording), { page: 0, x: margin.side, y: top + head.height + 3 }, width),
    credit: footElement(creditSpans(routine, library, wording), library.paper, wording),
    map: mapPicture(dance, bands, width, wording),
    care: deferring(wide),
    careNotes: deferring(style),
    notes: [...texts(style), ...homeBlocks(routine, version, library, style, shallow)],
    words: texts(style),
    roomy: () => [...texts({ ...style, tight: false }), ...homeBlocks(routine, version, library, style, roomy)],
  };
}

/** What is for practising at home: the way over the floor, and beside it how fast. */
function homeBlocks(
  routine: Routine,
  version: Version,
  library: Library,
  style: NoteStyle,
  depth: number,
): readonly Block[] {
  const [left, right] = [style.width * 0.42, style.width * 0.58 - apart];
  const [title, ...plans] = floorBlocks(routine, version, library, { ...style, width: left }, depth);
  if (title === undefined) return practiceBlocks(routine, version, style);
  const marked = routine.practice.length === 0 ? [] : markedBlocks(routine, version, style);
  const speeds = speedBlocks(routine, { ...style, width: right });
  const alone = plans.length === 1;
  const cells = [...plans.map((plan) => (alone ? [title, plan] : [plan])), ...(speeds.length === 0 ? [] : [speeds])];
  const rows = cells.flatMap((cell, index) => (index % 2 === 0 ? [[cell, cells[index + 1] ?? []] as const] : []));
  const beside = rows.map(([one, other]) => besideBlock(one, other, left + apart, style.size));
  return [...(alone ? [] : [title]), ...beside, ...marked];
}

/** The map; nothing where it would be but straight lines. */
function mapPicture({ routine, version }: Dance, bands: readonly Band[], width: number, wording: Wording): Picture {
  if (!tellsMore(routine, version)) return { height: 0, place: () => ({ elements: [], decoration: [] }) };
  const map = phraseMap(routine, version, { width, size: smallest, wording });
  const signs = mapSigns(bands, wording);
  return {
    height: map.height + (signs.length > 0 ? 16 : 0),
    place: (position) => {
      const picture = figure(map, position);
      if (signs.length === 0) return { elements: [picture], decoration: [] };
      const legend = layoutLegend(signs, { ...position, y: position.y + map.height + 4 }, width);
      return { elements: [picture, legend.element], decoration: legend.decoration };
    },
  };
}

function layoutDraft(context: SheetContext, set: readonly SetBand[], full: number): SheetDraft {
  const { dance, library, wording, width, top, below, bottom, head, legend, credit } = context;
  const start = { page: 0, y: top + head.height + legend.height + 5 };
  const reach = full < 1 ? top + full * (bottom - top) : bottom;
  const grid = placeGrid(set, { wording, left: margin.side, width, start, top: below, bottom, full: reach });
  const least = placeRest(context, grid);
  const draw = (): Sheet => {
    // Where much of the last page is left, there may be more room between lines and for pictures.
    const larger = least.left > plenty ? placeRest({ ...context, notes: context.roomy() }, grid) : least;
    const rest = larger.pages === least.pages ? larger : least;
    const counts = grid.draw();
    const after = rest.draw();
    const heads = dance.routine.mirrored
      ? otherSideBar(dance, library.paper, rest.pages, wording)
      : layoutRunningHeads(dance, rest.pages, width, 9.5, wording);
    return {
      pages: rest.pages,
      elements: [
        ...head.elements,
        ...(dance.routine.mirrored ? [otherSideReason(library.paper, wording)] : []),
        legend.element,
        ...(credit.content.length === 0 ? [] : [credit]),
        ...counts.elements,
        ...after.elements,
      ],
      decoration: [...heads, ...legend.decoration, ...counts.decoration, ...after.decoration],
      bookmarks: bookmarksOf(dance, grid, wording),
    };
  };
  return { pages: least.pages, listed: listedIn(set), draw };
}

/** What a relative link is relative to. */
function basisOf(routine: Routine, library: Library): Pick<NoteStyle, "base"> {
  const address = routineAddress(routine, library);
  return address === undefined ? {} : { base: address };
}

function floorBlocks(
  routine: Routine,
  version: Version,
  library: Library,
  style: NoteStyle,
  depth = style.width,
): readonly Block[] {
  const { wording, width } = style;
  const plans = floorPlans(routine, version, library, {
    width,
    depth,
    size: Math.max(smallest, style.size - 1),
    wording,
  });
  if (plans.length === 0) return [];
  return [
    headingBlock(wording.print.floorPlan, style),
    ...plans.map((plan) => wholeBlock(plan.height, style.size * 0.5, (position) => figure(plan, position))),
  ];
}

function bookmarksOf(dance: Dance, grid: Grid, wording: Wording): readonly Bookmark[] {
  const under = grid.bands.map(({ name, page, y }): Bookmark => ({ title: name, page, y, under: [] }));
  return [
    {
      title: wording.print.bookmark(dance.routine.title, danceLine(dance, wording), "sheet"),
      page: 0,
      y: 0,
      under,
    },
  ];
}
