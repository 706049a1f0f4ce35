import type { ClassPlan } from "../../teaching/class-plan.js";
import type { Mark, StructureElement } from "../../typesetting/print.js";
import { line as rule } from "../../typesetting/shape.js";
import { ascent, type Line, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { margin } from "./page.js";
import { columnRules, type PlanColumns, type PlanRow, type PlanSizes } from "./plan-rows.js";

/** Where a plan's table may stand. */
export interface PlanFrame {
  readonly left: number;
  readonly width: number;
  readonly bottom: number;
}

/** A plan's table on paper. */
export interface PlanTable {
  readonly pages: number;
  /** Where it ends on the last of them. */
  readonly y: number;
  readonly element: StructureElement;
  readonly decoration: readonly Mark[];
}

/** Under the running head of a further page. */
export const below = margin.top + 22;

/** Type size of the heads, and their height; and the height of the last row. */
export const heads = { size: 9.5, height: 15 };
export const foot = 21;

/** How a table is set. */
interface Setting {
  readonly plan: ClassPlan;
  readonly frame: PlanFrame;
  readonly top: number;
  readonly padding: number;
  readonly sizes: PlanSizes;
}

/** Heads on every page, a heavier rule where another routine begins, and at the end all minutes together. */
export function drawTable(
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
  const baseLine = y + 4 + sizes.clock * 0.7;
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
