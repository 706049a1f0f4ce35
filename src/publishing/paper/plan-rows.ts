import { lineContent } from "../../typesetting/block.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { line as rule, type Shape } from "../../typesetting/shape.js";
import { ascent, type Line, leading, textWidth, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { cautionSign } from "../drawing/signs.js";
import type { PlanEntry } from "../plan-entries.js";
import { bold } from "./note-style.js";

/** Type sizes of a plan's columns. */
export interface PlanSizes {
  readonly clock: number;
  readonly what: number;
  readonly how: number;
}

/** Where each column's text begins, and how wide it may be. */
interface Column {
  readonly x: number;
  readonly width: number;
}

/** A plan's columns: the clock, what, how, and the minutes, which end at the right edge. */
export interface PlanColumns {
  readonly clock: Column;
  readonly what: Column;
  readonly how: Column;
  readonly minutes: Column;
}

/** A row with its words in lines; its height is without the room above and below. */
export interface PlanRow {
  readonly height: number;
  /** Whether another routine begins here. */
  readonly fresh: boolean;
  readonly entry: PlanEntry;
  readonly place: (at: Pick<Position, "page" | "y">, padding: number) => StructureElement;
}

/** Between a column's rule and its text. */
const inset = 7;
/** How high a capital is, and how deep a letter goes under the base line, in type sizes. */
const capital = 0.69;
/** Points by which a row stands lower than its middle, since figures have nothing under the base line. */
const lowered = 1.5;
const descent = 0.28;

/** The columns. @param share how much of the room for names and for what is done is for the names */
export function planColumns(left: number, width: number, share: number, sizes: PlanSizes): PlanColumns {
  const clock = textWidth("88:88", sizes.clock, "figures") + inset;
  const minutes = textWidth("888", sizes.what, "figures") + inset;
  const rest = width - clock - minutes - 4 * inset;
  const what = rest * share;
  const at = { what: left + clock + inset, how: left + clock + inset + what + 2 * inset };
  return {
    clock: { x: left, width: clock },
    what: { x: at.what, width: what },
    how: { x: at.how, width: rest - what },
    minutes: { x: left + width - minutes + inset, width: minutes - inset },
  };
}

/** The rules between the columns. */
export function columnRules({ what, how, minutes }: PlanColumns, page: number, top: number, bottom: number): Mark {
  const shapes = [what.x, how.x, minutes.x].map((x) => rule("line", 0.6, [x - inset, 0], [x - inset, bottom - top]));
  return { page, x: 0, y: top, shapes };
}

/** Height of a row of one line. */
export const lowest = ({ clock, what }: PlanSizes): number => clock * capital + what * descent;

/** Sets an activity in its columns, all on the base line of the clock. */
export function planRow(
  entry: PlanEntry,
  fresh: boolean,
  columns: PlanColumns,
  sizes: PlanSizes,
  wording: Wording,
): PlanRow {
  const { planSide } = wording;
  const top = sizes.clock * capital;
  const what = wrap([bold(fresh ? entry.name : entry.short)], sizes.what, columns.what.width);
  const how = howLines(entry, columns.how.width, sizes.how, wording);
  const under = (lines: number, size: number) => top + (Math.max(lines, 1) - 1) * size * leading + size * descent;
  const [clock] = wrap([{ text: entry.clock, style: "figures" }], sizes.clock);
  const minutes = wrap([{ text: planSide.minutes(entry.minutes), style: "figures" }], sizes.what);
  return {
    height: Math.max(under(what.length, sizes.what), under(how.count, sizes.how)),
    fresh,
    entry,
    place: ({ page, y }, padding) => {
      // Where the top of a line's box is, so that its base line is that of the clock.
      const from = (size: number) => y + padding + lowered + top - ascent * size;
      const cell = (column: Column, lines: readonly Line[], size: number, end = false): StructureElement["content"] =>
        lines.flatMap((one, index) =>
          lineContent(one, {
            page,
            x: column.x + (end ? column.width - one.width : 0),
            y: from(size) + index * size * leading,
          }),
        );
      const time = cell(columns.clock, clock === undefined ? [] : [clock], sizes.clock);
      return {
        tag: "TR",
        content: [
          { tag: "TH", scope: "Row", content: time },
          { tag: "TD", content: cell(columns.what, what, sizes.what) },
          { tag: "TD", content: how.place({ page, x: columns.how.x, y: from(sizes.how) }) },
          { tag: "TD", content: cell(columns.minutes, minutes, sizes.what, true) },
        ],
      };
    },
  };
}

interface HowLines {
  readonly count: number;
  readonly place: (position: Position) => StructureElement["content"];
}

/** The steps, and the cautions with their sign: behind the steps where there is room, else under them. */
function howLines({ how, cautions }: PlanEntry, width: number, size: number, wording: Wording): HowLines {
  const { planSide } = wording;
  const sign = size * 1.15;
  const steps = wrap([{ text: planSide.steps(how) }], size, width);
  if (cautions.length === 0) return { count: steps.length, place: (at) => stacked(steps, at) };
  const words = bold(planSide.cautions(cautions));
  const last = steps.at(-1);
  const gap = last === undefined ? 0 : last.width + size * 0.8;
  const [whole] = wrap([words], size);
  const beside = whole !== undefined && gap + sign + whole.width <= width;
  const lines = beside ? [whole] : wrap([words], size, width - sign);
  const before = Math.max(steps.length - (beside ? 1 : 0), 0);
  return {
    count: before + lines.length,
    place: (at) => {
      const x = at.x + (beside ? gap : 0);
      const y = at.y + before * size * leading;
      const radius = size * 0.5;
      const middle = { ...at, x: x + radius, y: y + size * (ascent - capital / 2) };
      const shapes: readonly Shape[] = cautionSign([0, 0], radius);
      const box = [x, middle.y - radius, x + 2 * radius, middle.y + radius] as const;
      return [
        ...stacked(steps, at),
        { tag: "Figure", alt: planSide.caution, box, content: [{ ...middle, shapes }] },
        ...stacked(lines, { ...at, x: x + sign, y }),
      ];
    },
  };
}

function stacked(lines: readonly Line[], { page, x, y }: Position): StructureElement["content"] {
  return lines.flatMap((one, index) => lineContent(one, { page, x, y: y + index * one.size * leading }));
}
