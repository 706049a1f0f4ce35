import type { Library } from "../../routine/routine.js";
import type { ClassPlan } from "../../teaching/class-plan.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import { flow } from "../../typesetting/flow.js";
import { type Mark, papers, type StructureElement } from "../../typesetting/print.js";
import { line as rule } from "../../typesetting/shape.js";
import { ascent, type Line, type Span, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { type PlanEntry, planEntries } from "../plan-entries.js";
import { bold, plain } from "./note-style.js";
import { layoutOwnNotes, margin } from "./page.js";
import { joined } from "./plan-joining.js";
import {
  columnRules,
  lowest,
  type PlanColumns,
  type PlanRow,
  type PlanSizes,
  planColumns,
  planRow,
} from "./plan-rows.js";
import type { Sheet } from "./sheet.js";
import { theirs } from "./theirs.js";

/** What a plan's side says beside the plan. */
export interface PlanAbout {
  /** Behind the title of the class: "class plan", "lesson 2". */
  readonly title: string;
  /** What its bookmark and the contents call it. */
  readonly bookmark: string;
  readonly gear: readonly string[];
}

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

/** Room above and below what stands in a row: no less than `tight`, no more than `loose`. */
const tight = 1.4;
const loose = 7;
/** A heading and some lines to write on; where there is less room, there are none. */
const ownNotes = 110;
const heads = { size: 9.5, height: 16 };
const foot = 24;

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

interface Frame {
  readonly left: number;
  readonly width: number;
  readonly bottom: number;
}

interface PlanTable {
  readonly pages: number;
  /** Where it ends on the last of them. */
  readonly y: number;
  readonly element: StructureElement;
  readonly decoration: readonly Mark[];
}

/** Under the running head of a further page. */
const below = margin.top + 22;

function tableOf(
  entries: readonly PlanEntry[],
  plan: ClassPlan,
  frame: Frame,
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

function rowsOf(entries: readonly PlanEntry[], { left, width }: Frame, sizes: PlanSizes, wording: Wording): SideRows {
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

/** A row, and the same with its routine's name, as it begins a page. */
interface SideRow extends PlanRow {
  readonly named: () => PlanRow;
}

const heightOf = (rows: readonly PlanRow[], padding = 0): number =>
  rows.reduce((sum, { height }) => sum + height + 2 * padding, 0);

function paddingIn(rows: readonly PlanRow[], room: number): number {
  return Math.min(loose, (room - heightOf(rows)) / (2 * Math.max(rows.length, 1)));
}

/** Rows on as few pages as hold them, broken where the class pauses if that can be, and then as loosely set as there is room. */
function parted(
  rows: readonly SideRow[],
  rooms: readonly [number, number],
): { readonly pages: readonly (readonly PlanRow[])[]; readonly padding: number } {
  const steps = Array.from({ length: 12 }, (_, step) => tight + ((loose - tight) * step) / 11);
  const tries = steps.map((padding) => ({ pages: pagesOf(rows, padding, rooms), padding }));
  const worth = ({ pages }: { readonly pages: readonly (readonly PlanRow[])[] }) => {
    const pauses = pages.filter(([first], index) => isPause(first, pages[index - 1]?.at(-1))).length;
    return pauses - pages.length * rows.length;
  };
  return tries.reduce((best, one) => (worth(one) >= worth(best) ? one : best));
}

/** About as many rows on each page; rather broken where the class has drunk or an hour is full. */
function pagesOf(
  rows: readonly SideRow[],
  padding: number,
  [onFirst, onFurther]: readonly [number, number],
): readonly (readonly PlanRow[])[] {
  const pages: (readonly PlanRow[])[] = [];
  let rest: readonly PlanRow[] = rows;
  let at = 0;
  for (let room = onFirst; rest.length > 0; room = onFurther) {
    const all = heightOf(rest, padding);
    const number = all <= room ? 1 : 1 + Math.ceil((all - room) / onFurther);
    const wanted = Math.min(room, all / number);
    const ends = rest.flatMap((row, index) => {
      const height = heightOf(rest.slice(0, index + 1), padding);
      if (height > room && index > 0) return [];
      return [{ count: index + 1, off: Math.abs(height - wanted) + (isPause(rest[index + 1], row) ? 0 : room / 5) }];
    });
    const best = ends.reduce((least, one) => (one.off < least.off ? one : least), { count: 1, off: Infinity });
    const count = number === 1 ? rest.length : best.count;
    pages.push(rest.slice(0, count));
    at += count;
    const [next, ...after] = rows.slice(at);
    rest = next === undefined ? [] : [next.named(), ...after];
  }
  return pages;
}

/** Whether a page may well begin with a row: the class drinks there, or an hour has passed. */
function isPause(row: PlanRow | undefined, before: PlanRow | undefined): boolean {
  if (row === undefined || before === undefined) return false;
  return before.entry.kind === "water" || Math.floor(row.entry.start / 60) > Math.floor(before.entry.start / 60);
}

interface Setting {
  readonly plan: ClassPlan;
  readonly frame: Frame;
  readonly top: number;
  readonly padding: number;
  readonly sizes: PlanSizes;
}

/** Heads on every page, a heavier rule where another routine begins, and at the end all minutes together. */
function drawTable(
  pages: readonly (readonly PlanRow[])[],
  columns: PlanColumns,
  { plan, frame, top, padding, sizes }: Setting,
  wording: Wording,
): PlanTable {
  const { left, width } = frame;
  const content: StructureElement[] = [];
  const decoration: Mark[] = [];
  let end = top;
  pages.forEach((rows, page) => {
    const from = page === 0 ? top : below;
    const ruled = (y: number, weight: number, tone: "ink" | "line" = "ink") =>
      decoration.push({ page, x: left, y, shapes: [rule(tone, weight, [0, 0], [width, 0])] });
    const headed = headCells(columns, { page, y: from }, plan, wording);
    if (page === 0) content.push(headed);
    else decoration.push(...headed.content.flatMap((cell) => ("tag" in cell ? marksIn(cell) : [])));
    let y = from + heads.height;
    ruled(y, 1.2);
    rows.forEach((row, index) => {
      if (index > 0) ruled(y, row.fresh ? 1.2 : 0.6, row.fresh ? "ink" : "line");
      content.push(row.place({ page, y }, padding));
      y += row.height + 2 * padding;
    });
    decoration.push(columnRules(columns, page, from + 2, y));
    ruled(y, 1.2);
    end = y + foot;
    if (page === pages.length - 1) content.push(totalRow(plan, columns, { page, y }, sizes, wording));
  });
  return { pages: pages.length, y: end, element: { tag: "Table", content }, decoration };
}

const marksIn = ({ content }: StructureElement): readonly Mark[] =>
  content.flatMap((one) => ("tag" in one ? marksIn(one) : [one]));

interface At {
  readonly page: number;
  readonly y: number;
}

function headCells(columns: PlanColumns, at: At, { asked }: ClassPlan, { planSide }: Wording): StructureElement {
  const { heads: said } = planSide;
  const cell = (text: string, { x, width }: PlanColumns["clock"], end = false): StructureElement => {
    const [set] = wrap([{ text, style: "bold" }], heads.size);
    if (set === undefined) return { tag: "TH", scope: "Column", content: [] };
    const content = [{ ...at, x: x + (end ? width - set.width : 0), line: set }];
    return { tag: "TH", scope: "Column", content };
  };
  return {
    tag: "TR",
    content: [
      cell(asked?.starts === undefined ? said.from : said.clock, columns.clock),
      cell(said.what, columns.what),
      cell(said.how, columns.how),
      cell(said.minutes, columns.minutes, true),
    ],
  };
}

/** When it ends, and all minutes together. */
function totalRow(
  plan: ClassPlan,
  columns: PlanColumns,
  { page, y }: At,
  sizes: PlanSizes,
  wording: Wording,
): StructureElement {
  const { plan: said, planSide } = wording;
  const baseLine = y + 5 + sizes.clock * 0.7;
  const mark = (set: Line | undefined, x: number): readonly Mark[] =>
    set === undefined ? [] : [{ page, x, y: baseLine - ascent * set.size, line: set }];
  const [clock] = wrap([{ text: said.clock(plan.minutes * 60, plan.asked?.starts), style: "figures" }], sizes.clock);
  const [end] = wrap([{ text: planSide.end, style: "bold" }], sizes.what);
  const [all] = wrap([{ text: String(plan.minutes), style: "figures" }], sizes.what);
  const { minutes } = columns;
  return {
    tag: "TR",
    content: [
      { tag: "TH", scope: "Row", content: mark(clock, columns.clock.x) },
      { tag: "TD", content: mark(end, columns.what.x) },
      { tag: "TD", content: [] },
      { tag: "TD", content: mark(all, minutes.x + minutes.width - (all?.width ?? 0)) },
    ],
  };
}

/** What it is, when and where, and in a line each what matters before the class begins. */
function headBlocks(plan: ClassPlan, { title, gear }: PlanAbout, width: number, wording: Wording): readonly Block[] {
  const { dates, pack, planSide, versions } = wording;
  const { date, venue, minutes, level, asked, fit } = plan;
  const about: readonly Span[] = [
    ...(date === undefined ? [] : [plain(`${dates.weekday(date)} · `)]),
    ...(venue === undefined ? [] : [theirs(venue, wording), plain(" · ")]),
    plain(pack.class(asked?.starts, minutes, versions.name(level))),
  ];
  const limits = plan.limits.flatMap((one) => [
    ...(one.before > one.limit ? [planSide.limit(one)] : []),
    ...(one.offered !== undefined && one.offered.before > one.limit
      ? [planSide.limitOffered({ ...one, ...one.offered })]
      : []),
  ]);
  const short = Math.ceil(fit.short / 60);
  const note = (spans: readonly Span[]) => textBlock(spans, { size: 10, width, before: 2 });
  return [
    textBlock([theirs(plan.title, wording, { style: "bold" }), plain(title)], { size: 20, width, tag: "H1" }),
    textBlock(about, { size: 11, width, before: 1 }),
    note([bold(fit.fits ? planSide.fits : planSide.tooLong(short, fit.upTo))]),
    ...(limits.length === 0 ? [] : [note([bold(planSide.limits), plain(planSide.listed(limits))])]),
    ...(gear.length === 0 ? [] : [note([bold(planSide.layOut), plain(planSide.listed(gear))])]),
  ];
}

/** What a further page goes on with. */
function runningHeads(title: string, about: PlanAbout, pages: number, wording: Wording): readonly Mark[] {
  const spans = [
    theirs(title, wording, { style: "bold" as const }),
    plain(`${about.title} ${wording.planSide.continued}`),
  ];
  const [set] = wrap(spans, 11);
  if (set === undefined) return [];
  return Array.from({ length: pages - 1 }, (_, index) => ({
    page: index + 1,
    x: margin.side,
    y: margin.top,
    line: set,
  }));
}
