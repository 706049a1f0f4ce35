import type { Library } from "../../routine/routine.js";
import type { ClassPlan } from "../../teaching/class-plan.js";
import { flow } from "../../typesetting/flow.js";
import { papers } from "../../typesetting/print.js";
import type { Wording } from "../../wording/wording.js";
import { type PlanEntry, planEntries } from "../plan-entries.js";
import { layoutOwnNotes, margin } from "./page.js";
import { headBlocks, type PlanAbout, runningHeads } from "./plan-head.js";
import { joined } from "./plan-joining.js";
import { heightOf, paddingIn, parted, type SideRow, tight } from "./plan-pages.js";
import { lowest, type PlanColumns, type PlanSizes, planColumns, planRow } from "./plan-rows.js";
import { below, drawTable, foot, heads, type PlanFrame, type PlanTable } from "./plan-table.js";
import type { Sheet } from "./sheet.js";

/** Minutes that have to go on one side. */
const oneSide = 90;

/** Sizes of the columns; where a side has no room for all, what is done is set smaller first. */
const roomy: PlanSizes = { clock: 16, what: 12, how: 10.5 };
const settings: readonly PlanSizes[] = [roomy, { clock: 16, what: 12, how: 9.5 }, { clock: 16, what: 12, how: 9 }];
/** And where all that can share a row does. */
const least: readonly PlanSizes[] = [
  { clock: 13, what: 10, how: 9 },
  { clock: 10, what: 9, how: 9 },
];

/** A heading and some lines to write on; where there is less room, there are none. */
const ownNotes = 110;

/** A class plan on one side of paper; one of more than ninety minutes goes on over as few as it needs. */
export function planSheet(plan: ClassPlan, about: PlanAbout, library: Library, wording: Wording): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const frame = { left: margin.side, width, bottom: pageHeight - margin.bottom };
  const area = { ...frame, columns: 1, gutter: 0, top: margin.top, tail: 0 };
  const head = flow(headBlocks(plan, about, width, wording), { page: 0, y: margin.top }, area);
  const entries = planEntries(plan, wording);
  const top = head.y + 10;
  const table = tableOf(entries, plan, frame, top, wording);
  const further = runningHeads(plan.title, about, table.pages, wording);
  const end = { page: table.pages - 1, x: frame.left, y: table.y + 18 };
  const own = frame.bottom - end.y < ownNotes ? undefined : layoutOwnNotes(end, width, frame.bottom - 10, wording);
  return {
    elements: [...head.draw(), table.element, ...(own ? [own.element] : [])],
    decoration: [...table.decoration, ...further, ...(own?.decoration ?? [])],
    pages: table.pages,
    bookmarks: [{ title: about.bookmark, page: 0, y: 0, under: [] }],
  };
}

function tableOf(
  entries: readonly PlanEntry[],
  plan: ClassPlan,
  frame: PlanFrame,
  top: number,
  wording: Wording,
): PlanTable {
  const roomUnder = (y: number) => frame.bottom - y - heads.height - foot;
  const rooms = [roomUnder(top), roomUnder(below)] as const;
  const place = (some: readonly PlanEntry[], sizes: PlanSizes): PlanTable | undefined => {
    if (some.length * (lowest(sizes) + 2 * tight) > rooms[0]) return undefined;
    const { columns, rows } = rowsOf(some, frame, sizes, wording);
    const padding = paddingIn(rows, rooms[0]);
    return padding < tight ? undefined : drawTable([rows], columns, { plan, frame, top, padding, sizes }, wording);
  };
  for (const sizes of settings) {
    const table = place(entries, sizes);
    if (table !== undefined) return table;
  }
  const table = plan.minutes <= oneSide ? fitted(entries, place, wording) : undefined;
  if (table !== undefined) return table;
  const { columns, rows } = rowsOf(entries, frame, roomy, wording);
  const { pages, padding } = parted(rows, rooms);
  return drawTable(pages, columns, { plan, frame, top, padding, sizes: roomy }, wording);
}

/** On one side with fewer rows, as many as it has room for, and only then in smaller type. */
function fitted(
  entries: readonly PlanEntry[],
  place: (some: readonly PlanEntry[], sizes: PlanSizes) => PlanTable | undefined,
  wording: Wording,
): PlanTable | undefined {
  const smallest = settings.at(-1);
  let fewest = entries;
  for (let fewer = joined(entries, wording); fewer !== undefined; fewer = joined(fewer, wording)) {
    const table = smallest && place(fewer, smallest);
    if (table !== undefined) return table;
    fewest = fewer;
  }
  for (const sizes of least) {
    const table = place(fewest, sizes);
    if (table !== undefined) return table;
  }
  return undefined;
}

function rowsOf(
  entries: readonly PlanEntry[],
  { left, width }: PlanFrame,
  sizes: PlanSizes,
  wording: Wording,
): SideRows {
  const fresh = entries.map(({ routine }, index) => {
    const before = entries.slice(0, index).findLast((one) => one.routine !== undefined)?.routine;
    return routine !== undefined && routine !== before;
  });
  const laidOut = (share: number): SideRows => {
    const columns = planColumns(left, width, share, sizes);
    const row = (entry: PlanEntry, isFresh: boolean) => planRow(entry, isFresh, columns, sizes, wording);
    const rows = entries.map((entry, index): SideRow => {
      const isFresh = fresh[index] ?? false;
      return { ...row(entry, isFresh), named: () => row(entry, true) };
    });
    return { columns, rows };
  };
  // Where the columns part decides which lines break: the rows are as low as they can be.
  return shares.map(laidOut).reduce((best, one) => (heightOf(one.rows) < heightOf(best.rows) - 0.1 ? one : best));
}

/** Of the room for names and for what is done together, how much is for the names. */
const shares = [0.36, 0.4, 0.44, 0.48, 0.52, 0.56];

interface SideRows {
  readonly columns: PlanColumns;
  readonly rows: readonly SideRow[];
}
