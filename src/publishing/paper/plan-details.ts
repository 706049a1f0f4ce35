import type { Library } from "../../routine/routine.js";
import type { ClassPlan } from "../../teaching/class-plan.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import { columnWidth, type Flowed, flow } from "../../typesetting/flow.js";
import { papers } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { type PlanEntry, planEntries } from "../plan-entries.js";
import { planText } from "../plan-text.js";
import { bold, headingBlock, type NoteStyle, plain } from "./note-style.js";
import { margin } from "./page.js";
import type { Sheet } from "./sheet.js";

/** Most sides for so many minutes. */
const sides = ({ minutes }: ClassPlan): number => 2 * Math.max(1, Math.ceil(minutes / 90));

/** Type sizes to try, roomy ones first. */
const sizes = [10.5, 10, 9.5, 9];

/** What is left out where there is no room for all: first what is called, then the options, both of which the handouts have. */
const extents = [
  { calls: true, options: true },
  { calls: false, options: true },
  { calls: false, options: false },
] as const;
type Extent = (typeof extents)[number];

/** A last page is used for less than that only where there is no other way. */
const enough = 0.5;

/** The details of a class plan in two columns, by the clock: what its side has no room for. */
export function detailsSheet(plan: ClassPlan, title: string, library: Library, wording: Wording): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const area = {
    left: margin.side,
    width: pageWidth - 2 * margin.side,
    columns: 2,
    gutter: 20,
    top: margin.top,
    bottom: pageHeight - margin.bottom,
    tail: 0,
  };
  const width = columnWidth(area);
  const entries = planEntries(plan, wording);
  const head = flow([headingBlock(title, { size: 12, width: area.width })], { page: 0, y: margin.top }, area);
  const place = (size: number, extent: Extent) =>
    flow(detailBlocks(plan, entries, extent, { size, width, wording }), { page: 0, y: head.y + 4 }, area);
  const isFull = ({ page, y }: Flowed) => page === 0 || y - area.top >= enough * (area.bottom - area.top);
  let placed: Flowed | undefined;
  for (const extent of extents) {
    const fitting = sizes.map((size) => place(size, extent)).filter(({ page }) => page < sides(plan));
    placed = fitting.find(isFull) ?? fitting[0];
    if (placed !== undefined) break;
  }
  placed ??= place(9, extents[2]);
  return {
    elements: [...head.draw(), ...placed.draw()],
    decoration: [],
    pages: placed.page + 1,
    bookmarks: [{ title, page: 0, y: 0, under: [] }],
  };
}

/** What the class comes to, and then entry by entry. */
function detailBlocks(
  plan: ClassPlan,
  entries: readonly PlanEntry[],
  extent: Extent,
  style: NoteStyle,
): readonly Block[] {
  const { details } = style.wording.planSide;
  const hasCalls = entries.some((entry) => entry.details.call !== undefined);
  const summary = [
    ...planText(plan, style.wording).summary,
    ...(extent.calls || !hasCalls ? [] : [details.noCalls]),
    details.brackets,
  ];
  return [
    ...summary.map((text) => textBlock([plain(text)], { ...style, before: style.size * 0.2 })),
    ...entries.flatMap((entry) => entryBlocks(entry, extent, style)),
  ];
}

/** An activity's details under its clock time; nothing of one whose name says all. */
function entryBlocks(entry: PlanEntry, extent: Extent, style: NoteStyle): readonly Block[] {
  const { size, wording } = style;
  const { details: said } = wording.planSide;
  const { steps, hard, options, call, load } = entry.details;
  const note = (label: string, text: string): readonly Block[] =>
    text === ""
      ? []
      : [textBlock([...(label === "" ? [] : [bold(`${label} `)]), plain(text)], { ...style, before: size * 0.12 })];
  const care = entry.cautions.length === 0 ? "" : said.careOf(entry.cautions);
  const notes = [
    ...note("", steps),
    ...note(said.options, options(extent.options).join(" ")),
    ...note(said.hard, hard.join(" ")),
    ...note(said.call, extent.calls ? (call ?? "") : ""),
    ...note(said.takeCare, care),
    ...note(said.load, load),
  ];
  if (notes.length === 0) return [];
  const title: readonly Span[] = [{ text: `${entry.clock}  `, style: "figures" }, bold(entry.short)];
  const set = { size: size + 1, width: style.width, tag: "H3", before: size * 0.7, keepNext: true } as const;
  return [textBlock(title, set), ...notes];
}
