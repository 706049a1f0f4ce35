import type { Mark, Part, Spot } from "../../typesetting/print.js";
import { line, type Shape } from "../../typesetting/shape.js";
import { ascent, textWidth, wrap } from "../../typesetting/text.js";
import { facingDart } from "../drawing/signs.js";
import { trackText } from "../figures.js";
import { heightOf, signFigure, smallest, stackLines } from "./cell.js";
import { type Fragment, type GridFrame, type GridItem, type Numerals, numeralStripHeight } from "./grid-items.js";
import type { RowLayout } from "./row.js";
import { sideNames, sideTimes } from "./side.js";

const numeralSize = 13;

/** Draws what stands on the paper: a table under each line of numerals, its rules and grounds as decoration. */
export function drawGrid(
  items: readonly GridItem[],
  frame: GridFrame,
): { readonly parts: readonly Part[]; readonly decoration: readonly Mark[] } {
  const tables: Part[][] = [];
  const decoration: Mark[] = [];
  const named = new Set<number>();
  for (const item of items) {
    const spot = { page: item.page, x: frame.left, y: item.y };
    if ("numerals" in item) {
      tables.push([numeralRow(item.numerals, spot, frame.width, !named.has(item.page))]);
      named.add(item.page);
      continue;
    }
    const { rows, ground } = drawFragment(item.fragment, spot, frame.width);
    tables.at(-1)?.push(...rows);
    decoration.push(...ground);
  }
  return { parts: tables.map((content): Part => ({ tag: "Table", content })), decoration };
}

/** The numerals, and (once a page) what the two columns before them hold. */
function numeralRow(numerals: Numerals, spot: Spot, width: number, named: boolean): Part {
  const x = spot.x + sideNames + sideTimes;
  const column = (width - sideNames - sideTimes) / numerals.columns;
  const size = Math.min(numeralSize, column * 0.55);
  const heads = numerals.labels.map((label, index) =>
    numeralCell(label, numerals.accents[index] === true, size, { ...spot, x: x + index * column }),
  );
  const small = (text: string, at: number): Part => {
    const [label] = named ? wrap([{ text, tone: "soft" }], smallest) : [];
    const y = spot.y + numeralStripHeight - smallest * 1.22 - 3;
    return { tag: "TH", scope: "Column", content: label === undefined ? [] : [{ ...spot, x: at, y, line: label }] };
  };
  const times = x - 5 - textWidth("track", smallest);
  return { tag: "TR", content: [small("section", spot.x), small("track", times), ...heads] };
}

/** A numeral stands where its count begins; an accent is white on a dark disc. */
function numeralCell(label: string, accent: boolean, size: number, spot: Spot): Part {
  const [set] = wrap([{ text: label, style: "bold", tone: accent ? "paper" : "ink" }], size);
  if (set === undefined) return { tag: "TD", content: [] };
  const middle = spot.x + Math.max(set.width / 2, size * 0.62) + 1;
  const base = spot.y + numeralStripHeight - 5;
  const mark: Mark = {
    page: spot.page,
    x: accent ? middle - set.width / 2 : spot.x + 3.5,
    y: base - size * ascent,
    line: set,
  };
  if (!accent) return { tag: "TH", scope: "Column", content: [mark] };
  const disc: Shape = { kind: "disc", at: [0, 0], radius: size * 0.66, fill: "ink" };
  const at = { page: spot.page, x: middle, y: base - size * 0.34 };
  const box = [at.x - size * 0.66, at.y - size * 0.66, at.x + size * 0.66, at.y + size * 0.66] as const;
  const figure: Part = { tag: "Figure", alt: "accent", box, content: [{ ...at, shapes: [disc] }] };
  return { tag: "TH", scope: "Column", content: [figure, mark] };
}

function drawFragment(
  fragment: Fragment,
  spot: Spot,
  width: number,
): { readonly rows: readonly Part[]; readonly ground: readonly Mark[] } {
  const x = spot.x + sideNames + sideTimes;
  const whole = fragment.side === "whole";
  const rule = whole ? line("ink", 1.3, [0, 0], [width, 0]) : line("line", 0.6, [sideNames, 0], [width, 0]);
  const between = line("line", 0.6, [-sideTimes, 0], [width - sideNames - sideTimes, 0]);
  const ground: Mark[] = [{ ...spot, shapes: [rule] }];
  let { y } = spot;
  const rows = fragment.rows.map((row, index): Part => {
    const height = fragment.heights[index] ?? row.height;
    const at = { page: spot.page, x, y };
    ground.push({ ...at, shapes: [...row.ground(height), ...(row.opens && index > 0 ? [between] : [])] });
    const side = index === 0 ? [sideCell(fragment, { ...at, x: spot.x })] : [];
    const time = timeCell(row, index === 0, { ...at, x: x - sideTimes });
    const { columns, offset, phrase } = row.row;
    const after = columns - offset - phrase.numbers.length;
    y += height;
    return { tag: "TR", content: [...side, time, ...blanks(offset), ...row.cells(at), ...blanks(after)] };
  });
  return { rows, ground };
}

/** Empty columns before a pick-up, and after a short phrase. */
function blanks(columns: number): readonly Part[] {
  return columns === 0 ? [] : [{ tag: "TD", ...(columns > 1 ? { columns } : {}), content: [] }];
}

function sideCell({ side: kind, lines, rows }: Fragment, spot: Spot): Part {
  const span = rows.length > 1 ? { rows: rows.length } : {};
  if (kind === "none") return { tag: "TD", ...span, content: [] };
  const name = lines.filter(({ size }) => size > smallest);
  const rest = lines.filter(({ size }) => size <= smallest);
  const heading: Part = { tag: kind === "whole" ? "H2" : "P", content: stackLines(name, { ...spot, y: spot.y + 3 }) };
  const below = { ...spot, y: spot.y + 4 + heightOf(name) };
  const words: readonly Part[] = rest.length > 0 ? [{ tag: "P", content: stackLines(rest, below) }] : [];
  return { tag: "TH", scope: "Row", ...span, content: [heading, ...words] };
}

function timeCell({ row, opens }: RowLayout, first: boolean, spot: Spot): Part {
  if (!opens) return { tag: "TD", content: [] };
  const [time] = wrap(
    [{ text: trackText(row.time), tone: first ? "ink" : "soft", style: first ? "bold" : "regular" }],
    smallest,
  );
  const right = spot.x + sideTimes - 5;
  const content: (Part | Mark)[] =
    time === undefined ? [] : [{ ...spot, x: right - time.width, y: spot.y + 2.5, line: time }];
  const dart = signFigure(`facing ${row.facing}`, [facingDart(row.facing, [4.5, 0], 4.5)], {
    ...spot,
    x: right - 9.5,
    y: spot.y + 17.5,
  });
  return { tag: "TH", scope: "Row", content: first ? [...content, dart] : content };
}
