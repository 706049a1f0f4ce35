import type { Library, Routine, Version } from "../../routine/routine.js";
import { type Block, besideBlock, wholeBlock } from "../../typesetting/block.js";
import { type Area, columnWidth, type Flowed, flow } from "../../typesetting/flow.js";
import {
  type Bookmark,
  figure,
  type Mark,
  type Position,
  papers,
  type StructureElement,
} from "../../typesetting/print.js";
import type { Wording } from "../../wording/wording.js";
import { floorPlans } from "../drawing/floor-plan.js";
import { phraseMap } from "../drawing/phrase-map.js";
import { offeredAlone } from "../offered.js";
import { type Band, sheetBands } from "./bands.js";
import { smallest } from "./cell.js";
import { creditSpans, routineAddress } from "./credit.js";
import type { Dance } from "./dance.js";
import { type Grid, listedIn, placeGrid, type SetBand, setGrid } from "./grid.js";
import { danceLine, type Head, layoutHead, type SheetOptions } from "./head.js";
import { gridSigns, type Legend, layoutLegend, mapSigns } from "./legend.js";
import { headingBlock, type NoteStyle } from "./note-style.js";
import { optionBlocks, teachingBlocks } from "./notes.js";
import { neighbourOptions } from "./options.js";
import { otherSideBar, otherSideReason, otherSideTop } from "./other-side.js";
import { footElement, layoutOwnNotes, layoutRunningHeads, margin } from "./page.js";
import { markedBlocks, practiceBlocks, speedBlocks } from "./practice.js";
import { cautionBlocks, deferringBlocks, gearBlocks } from "./preparation.js";
import { orderBlocks } from "./run-order.js";

/** A routine's sheet, laid out on pages of its own, counted from 0. */
export interface Sheet {
  readonly elements: readonly StructureElement[];
  readonly decoration: readonly Mark[];
  readonly pages: number;
  readonly bookmarks: readonly Bookmark[];
}

/**
 * How cues are set: the same on every sheet, and smaller, then with the fuller counts wider, only where it keeps a sheet on its two sides or
 * a cue in its own counts.
 */
const settings = [
  { size: 9.5, fitted: false },
  { size: smallest, fitted: false },
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
/** From the top margin down to where a further page begins, under its running head. */
const runningHead = 17;
/** A heading and two lines for the dancer's own notes. */
const ownNotes = 62;
/** How much of a page is filled at least before something begins on the next one that could be parted. */
const filled = 2 / 3;
/** A section that does not fit begins on the next page where so much of this one is filled. */
const nearlyFull = 0.8;

/** What does not change from one way to lay a sheet out to the next. */
interface SheetContext {
  readonly dance: Dance;
  readonly library: Library;
  readonly wording: Wording;
  readonly width: number;
  readonly top: number;
  /** Of further pages. */
  readonly below: number;
  readonly bottom: number;
  readonly head: Head;
  readonly legend: Legend;
  /** At the foot of the first page. */
  readonly credit: StructureElement;
  readonly map: Picture;
  /** Whom the cautions defer to, and the house's rules, as wide as the page. */
  readonly care: readonly Block[];
  /** The same and all the rest, as wide as a column. */
  readonly notes: readonly Block[];
  /** The notes with larger pictures. */
  readonly roomy: () => readonly Block[];
  readonly careNotes: readonly Block[];
}

/** The phrase map with what its own signs mean. */
interface Picture {
  readonly height: number;
  readonly place: (position: Position) => {
    readonly elements: readonly StructureElement[];
    readonly decoration: readonly Mark[];
  };
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
  const optionsOf = neighbourOptions(routine, version, wording);
  let best: SheetDraft | undefined;
  for (const setting of settings) {
    const set = setGrid(routine, bands, { ...setting, width: context.width, wording, optionsOf });
    for (const full of [nearlyFull, 1]) {
      const draft = layoutDraft(context, set, full);
      if (best === undefined || isBetter(draft, best)) best = draft;
      if (draft.pages <= sides) break;
    }
    if (best !== undefined && best.pages <= sides && best.listed === 0) break;
  }
  if (best === undefined) throw new Error("There is no size to lay a sheet out in.");
  return best.draw();
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
    size: noteSize,
    width: columnWidth({ width, columns: 2, gutter }),
    ...basisOf(routine, library),
    wording,
  };
  const wide = { ...style, width };
  const texts = [...orderBlocks(routine, style), ...teachingBlocks(routine, version, style)];
  return {
    dance,
    library,
    wording,
    width,
    top,
    below: routine.mirrored ? top : top + runningHead,
    bottom: pageHeight - margin.bottom,
    head,
    legend: layoutLegend(gridSigns(bands, wording), { page: 0, x: margin.side, y: top + head.height + 3 }, width),
    credit: footElement(creditSpans(routine, library, wording), library.paper, wording),
    map: mapPicture(dance, bands, width, wording),
    care: within === "pack" ? [] : deferringBlocks(library, wide),
    careNotes: within === "pack" ? [] : deferringBlocks(library, style),
    notes: [...texts, ...homeBlocks(routine, version, library, style, shallow)],
    roomy: () => [...texts, ...homeBlocks(routine, version, library, style, roomy)],
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

function mapPicture({ routine, version }: Dance, bands: readonly Band[], width: number, wording: Wording): Picture {
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
  // Where much of the last page is left, the pictures may be larger.
  const larger = least.left > roomy - shallow ? placeRest({ ...context, notes: context.roomy() }, grid) : least;
  const rest = larger.pages === least.pages ? larger : least;
  const draw = (): Sheet => {
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
  return { pages: rest.pages, listed: listedIn(set), draw };
}

/** Where a part of what follows the counts stands. */
interface Rest {
  readonly pages: number;
  /** How much of the last page. */
  readonly left: number;
  readonly draw: () => Pick<Sheet, "elements" | "decoration">;
}

/**
 * What follows the counts: on the same page if all of it fits there or much of the page would stay empty, else on the next. The map stands
 * where it takes no page of its own, and no room of the counts.
 */
function placeRest(context: SheetContext, grid: Grid): Rest {
  const { top, below, bottom, care, careNotes, notes, map } = context;
  const area: Area = { left: margin.side, width: context.width, columns: 2, gutter, top: below, bottom, tail: 0 };
  const under = { page: grid.page, y: grid.y + 10 };
  const all = [...careNotes, ...notes];
  const on = flow(all, under, area);
  const pageTop = grid.page === 0 ? top : below;
  const foot = flow(care, under, { ...area, columns: 1 });
  const footFits = foot.page === grid.page;
  const next = { page: grid.page + 1, y: below };
  const enough = grid.y - pageTop >= filled * (bottom - pageTop);
  const apart = on.page === grid.page || !enough ? undefined : flow(footFits ? notes : all, next, area);
  if (apart === undefined || apart.page > on.page) {
    const mapped = on.page === grid.page ? flow(all, { ...under, y: under.y + map.height + 8 }, area) : undefined;
    if (mapped?.page === grid.page) return restOf(context, { map: under, notes: mapped });
    return restOf(context, { notes: on, map: fitsUnder(on, context) });
  }
  const held = footFits ? { foot } : {};
  const end = footFits ? foot.y + 8 : under.y;
  if (end + map.height <= bottom) return restOf(context, { ...held, map: { page: grid.page, y: end }, notes: apart });
  const mapped = flow(footFits ? notes : all, { ...next, y: next.y + map.height + 10 }, area);
  if (mapped.page === apart.page) return restOf(context, { ...held, map: next, notes: mapped });
  return restOf(context, { ...held, notes: apart, map: fitsUnder(apart, context) });
}

/** The place of the map under the last of the notes, if there is room. */
function fitsUnder({ page, y }: Flowed, { map, bottom }: SheetContext): Pick<Position, "page" | "y"> | undefined {
  return y + 12 + map.height <= bottom ? { page, y: y + 12 } : undefined;
}

interface RestParts {
  readonly foot?: Flowed;
  readonly map: Pick<Position, "page" | "y"> | undefined;
  readonly notes: Flowed;
}

function restOf({ width, bottom, wording, map }: SheetContext, { foot, map: at, notes }: RestParts): Rest {
  const under = at !== undefined && at.page === notes.page && at.y >= notes.y;
  const last = under ? { page: at.page, y: at.y + map.height } : notes;
  return {
    pages: last.page + 1,
    left: bottom - last.y,
    draw: () => {
      const picture = at === undefined ? undefined : map.place({ ...at, x: margin.side });
      const end = { page: last.page, x: margin.side, y: last.y + 14 };
      const own = end.y + ownNotes <= bottom ? layoutOwnNotes(end, width, bottom, wording) : undefined;
      return {
        elements: [
          ...(foot?.draw() ?? []),
          ...(picture?.elements ?? []),
          ...notes.draw(),
          ...(own === undefined ? [] : [own.element]),
        ],
        decoration: [...(picture?.decoration ?? []), ...(own?.decoration ?? [])],
      };
    },
  };
}

/** What a relative link is relative to. */
function basisOf(routine: Routine, library: Library): Pick<NoteStyle, "base"> {
  const address = routineAddress(routine, library);
  return address === undefined ? {} : { base: address };
}

/** Everything that stands under the counts. */
export function noteBlocks(
  dance: Dance,
  library: Library,
  { within, wording }: SheetOptions,
  plain: Omit<NoteStyle, "wording">,
): readonly Block[] {
  const { routine, version } = dance;
  const offered = offeredAlone(routine, version);
  const style: NoteStyle = { ...plain, wording, ...basisOf(routine, library) };
  return [
    ...orderBlocks(routine, style),
    ...optionBlocks(routine, version, style),
    ...teachingBlocks(routine, version, style),
    ...(within === "pack" ? [] : gearBlocks([offered], style)),
    ...(within === "pack" ? [] : cautionBlocks([offered], library, style)),
    ...practiceBlocks(routine, version, style),
    ...floorBlocks(routine, version, library, style),
  ];
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
