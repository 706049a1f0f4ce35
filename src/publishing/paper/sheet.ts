import type { Library, Routine, Version } from "../../routine/routine.js";
import { type Block, wholeBlock } from "../../typesetting/block.js";
import { type Area, columnWidth, flow } from "../../typesetting/flow.js";
import { type Bookmark, figure, type Mark, papers, type StructureElement } from "../../typesetting/print.js";
import type { Drawing } from "../../typesetting/shape.js";
import type { Wording } from "../../wording/wording.js";
import { floorPlans } from "../drawing/floor-plan.js";
import { phraseMap } from "../drawing/phrase-map.js";
import { offeredAlone } from "../offered.js";
import { sheetBands } from "./bands.js";
import { smallest } from "./cell.js";
import { creditSpans, routineAddress } from "./credit.js";
import type { Dance } from "./dance.js";
import { type Grid, placeGrid, setGrid } from "./grid.js";
import { type Head, layoutHead, type SheetOptions, versionLine } from "./head.js";
import { layoutLegend } from "./legend.js";
import { headingBlock, type NoteStyle } from "./note-style.js";
import { optionBlocks, teachingBlocks } from "./notes.js";
import { footElement, layoutOwnNotes, layoutRunningHeads, margin } from "./page.js";
import { practiceBlocks } from "./practice.js";
import { cautionBlocks, gearBlocks } from "./preparation.js";
import { orderBlocks } from "./run-order.js";

/** A routine's sheet, laid out on pages of its own, counted from 0. */
export interface Sheet {
  readonly elements: readonly StructureElement[];
  readonly decoration: readonly Mark[];
  readonly pages: number;
  readonly bookmarks: readonly Bookmark[];
}

/** Type sizes to try for cues and for notes, roomy ones first. */
const scales = [
  { cue: 9.5, note: 9 },
  { cue: 8.5, note: 8.5 },
  { cue: 8, note: 8 },
] as const;

/** Where a further page begins, under its running head. */
const below = margin.top + 22;
/** A heading and two lines for the dancer's own notes. */
const ownNotes = 62;
const gutter = 22;
/** Two lines of legend. */
const legendRoom = 30;

/** A sheet as it might be, and how well that would do. */
interface SheetDraft {
  readonly pages: number;
  readonly gridPages: number;
  readonly draw: () => Sheet;
}

/** What does not change from one draft to the next. */
interface SheetContext {
  readonly wording: Wording;
  readonly routine: Routine;
  readonly version: Version;
  readonly width: number;
  readonly bottom: number;
  readonly head: Head;
  /** At the foot of the first page. */
  readonly credit: StructureElement;
  readonly map: Drawing;
}

/**
 * Lays a version out: on one page if any type size allows it, else with its counts on as few pages as they go, and the whole
 * on as few as it goes. The phrase map stands over the counts, or after them where it would take up their room.
 */
export function layoutSheet(routine: Routine, version: Version, library: Library, options: SheetOptions): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const { wording } = options;
  const context: SheetContext = {
    wording,
    routine,
    version,
    width,
    bottom: pageHeight - margin.bottom,
    head: layoutHead({ routine, version }, library, options, { page: 0, x: margin.side, y: margin.top }, width),
    credit: footElement(creditSpans(routine, library, wording), library.paper, wording),
    map: phraseMap(routine, version, { width, size: smallest, wording }),
  };
  const bands = sheetBands(routine, version, wording);
  let best: SheetDraft | undefined;
  for (const { cue, note } of scales) {
    const grid = setGrid(routine, bands, { size: cue, width, wording });
    const notes = noteBlocks({ routine, version }, library, options, {
      size: note,
      width: columnWidth({ width, columns: 2, gutter }),
    });
    for (const mapFirst of [true, false]) {
      const draft = layoutDraft(context, grid, notes, mapFirst);
      if (best === undefined || isBetter(draft, best)) best = draft;
      if (best.pages === 1) return best.draw();
    }
  }
  if (best === undefined) throw new Error("There is no scale to lay a sheet out at.");
  return best.draw();
}

function isBetter(draft: SheetDraft, best: SheetDraft): boolean {
  if (draft.pages === 1) return true;
  return draft.gridPages === best.gridPages ? draft.pages < best.pages : draft.gridPages < best.gridPages;
}

function layoutDraft(
  context: SheetContext,
  set: ReturnType<typeof setGrid>,
  blocks: readonly Block[],
  mapFirst: boolean,
): SheetDraft {
  const { wording, routine, version, width, bottom, head, credit, map } = context;
  const left = margin.side;
  const under = margin.top + head.height + 8;
  const start = { page: 0, y: under + (mapFirst ? map.height + 6 : 0) };
  const grid = placeGrid(set, { wording, left, width, start, top: below, bottom: bottom - legendRoom });
  const legend = layoutLegend(
    set.map(({ band }) => band),
    { page: grid.page, x: left, y: grid.y },
    width,
    wording,
  );
  const afterGrid = { page: grid.page, x: left, y: grid.y + legend.height + 8 };
  const fits = afterGrid.y + map.height <= bottom;
  const mapPosition = mapFirst
    ? { page: 0, x: left, y: under }
    : fits
      ? afterGrid
      : { page: grid.page + 1, x: left, y: below };
  const from = mapFirst ? afterGrid : { ...mapPosition, y: mapPosition.y + map.height + 12 };
  const area: Area = { left, width, columns: 2, gutter, top: below, bottom, tail: ownNotes };
  const notes = flow(blocks, from, area);
  const pages = notes.page + 1;
  const draw = (): Sheet => {
    const counts = grid.draw();
    const own = layoutOwnNotes({ page: notes.page, x: left, y: notes.y + 14 }, width, bottom, wording);
    const picture = figure(map, mapPosition);
    const above = [...counts.elements, legend.element];
    return {
      pages,
      elements: [
        ...head.elements,
        ...(credit.content.length === 0 ? [] : [credit]),
        ...(mapFirst ? [picture, ...above] : [...above, picture]),
        ...notes.draw(),
        own.element,
      ],
      decoration: [
        ...counts.decoration,
        ...legend.decoration,
        ...own.decoration,
        ...layoutRunningHeads({ routine, version }, pages, width, 9.5, wording),
      ],
      bookmarks: bookmarksOf({ routine, version }, grid, wording),
    };
  };
  return { pages, gridPages: grid.page + 1, draw };
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
  const address = routineAddress(routine, library);
  const style: NoteStyle = { ...plain, wording, ...(address === undefined ? {} : { base: address }) };
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

function floorBlocks(routine: Routine, version: Version, library: Library, style: NoteStyle): readonly Block[] {
  const { wording, width } = style;
  const plans = floorPlans(routine, version, library, { width, size: Math.max(smallest, style.size - 1), wording });
  if (plans.length === 0) return [];
  return [
    headingBlock(wording.print.floorPlan, style),
    ...plans.map((plan) => wholeBlock(plan.height, style.size * 0.5, (position) => figure(plan, position))),
  ];
}

function bookmarksOf({ routine, version }: Dance, grid: Grid, wording: Wording): readonly Bookmark[] {
  const under = grid.bands.map(({ name, page, y }): Bookmark => ({ title: name, page, y, under: [] }));
  return [
    {
      title: wording.print.bookmark(routine.title, versionLine(routine, version, wording), "sheet"),
      page: 0,
      y: 0,
      under,
    },
  ];
}
