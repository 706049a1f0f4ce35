import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { line } from "../../typesetting/shape.js";
import { ascent, type Span, textWidth, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { accentDisc, facingSign } from "../drawing/signs.js";
import { linesHeight, signFigure, smallest, stackLines } from "./cell.js";
import { type Fragment, type GridFrame, type GridItem, type Numerals, numeralStripHeight } from "./grid-items.js";
import type { RowLayout } from "./row.js";
import { sideNames, sideTimes } from "./side.js";

const numeralSize = 13;

/** Draws what stands on the paper: a table under each line of numerals, its rules and grounds as decoration. */
export function drawGrid(
  items: readonly GridItem[],
  frame: GridFrame,
): { readonly elements: readonly StructureElement[]; readonly decoration: readonly Mark[] } {
  const tables: StructureElement[][] = [];
  const decoration: Mark[] = [];
  const named = new Set<number>();
  const timed = items.some(
    (item) => "fragment" in item && item.fragment.rows.some(({ row }) => row.time !== undefined),
  );
  for (const item of items) {
    const position = { page: item.page, x: frame.left, y: item.y };
    if ("numerals" in item) {
      tables.push([numeralRow(item.numerals, position, frame, { named: !named.has(item.page), timed })]);
      named.add(item.page);
      continue;
    }
    const { rows, ground } = drawFragment(item.fragment, position, frame);
    tables.at(-1)?.push(...rows);
    decoration.push(...ground);
  }
  return { elements: tables.map((content): StructureElement => ({ tag: "Table", content })), decoration };
}

/** The numerals, and (once a page) what the two columns before them hold. */
function numeralRow(
  numerals: Numerals,
  position: Position,
  { width, wording }: GridFrame,
  { named, timed }: { readonly named: boolean; readonly timed: boolean },
): StructureElement {
  const { print } = wording;
  const x = position.x + sideNames + sideTimes;
  const column = (width - sideNames - sideTimes) / numerals.columns;
  const size = Math.min(numeralSize, column * 0.55);
  const heads = numerals.labels.map((label, index) =>
    numeralCell(label, numerals.accents[index] === true ? print.accent : undefined, size, {
      ...position,
      x: x + index * column,
    }),
  );
  const small = (text: string, at: number): StructureElement => {
    const [label] = named ? wrap([{ text, tone: "soft" }], smallest) : [];
    const y = position.y + numeralStripHeight - smallest * 1.22 - 3;
    return { tag: "TH", scope: "Column", content: label === undefined ? [] : [{ ...position, x: at, y, line: label }] };
  };
  const times = timed ? print.track : "";
  const track = small(times, x - 5 - textWidth(times, smallest));
  return { tag: "TR", content: [small(print.section, position.x), track, ...heads] };
}

/**
 * A numeral stands where its count begins; an accent is white on a dark disc.
 *
 * @param accent the disc in words, if it is an accent
 */
function numeralCell(label: string, accent: string | undefined, size: number, position: Position): StructureElement {
  const [set] = wrap([{ text: label, style: "bold", tone: accent === undefined ? "ink" : "paper" }], size);
  if (set === undefined) return { tag: "TD", content: [] };
  const middle = position.x + Math.max(set.width / 2, size * 0.62) + 1;
  const base = position.y + numeralStripHeight - 5;
  const mark: Mark = {
    page: position.page,
    x: accent === undefined ? position.x + 3.5 : middle - set.width / 2,
    y: base - size * ascent,
    line: set,
  };
  if (accent === undefined) return { tag: "TH", scope: "Column", content: [mark] };
  const disc = accentDisc([0, 0], size * 0.66);
  const at = { page: position.page, x: middle, y: base - size * 0.34 };
  const box = [at.x - size * 0.66, at.y - size * 0.66, at.x + size * 0.66, at.y + size * 0.66] as const;
  const figure: StructureElement = { tag: "Figure", alt: accent, box, content: [{ ...at, shapes: [disc] }] };
  return { tag: "TH", scope: "Column", content: [figure, mark] };
}

function drawFragment(
  fragment: Fragment,
  position: Position,
  { width, wording }: GridFrame,
): { readonly rows: readonly StructureElement[]; readonly ground: readonly Mark[] } {
  const x = position.x + sideNames + sideTimes;
  const whole = fragment.side === "whole";
  const rule = whole ? line("ink", 1.3, [0, 0], [width, 0]) : line("line", 0.6, [sideNames, 0], [width, 0]);
  const between = line("line", 0.6, [-sideTimes, 0], [width - sideNames - sideTimes, 0]);
  const ground: Mark[] = [{ ...position, shapes: [rule] }];
  let { y } = position;
  const rows = fragment.rows.map((row, index): StructureElement => {
    const height = fragment.heights[index] ?? row.height;
    const at = { page: position.page, x, y };
    ground.push({ ...at, shapes: [...row.ground(height), ...(row.opens && index > 0 ? [between] : [])] });
    const side = index === 0 ? [sideCell(fragment, { ...at, x: position.x })] : [];
    const time = timeCell(row, index === 0, { ...at, x: x - sideTimes }, wording);
    const { columns, offset, phrase } = row.row;
    const after = row.row.uncounted === undefined ? columns - offset - phrase.numbers.length : 0;
    y += height;
    return { tag: "TR", content: [...side, time, ...blanks(offset), ...row.cells(at), ...blanks(after)] };
  });
  return { rows, ground };
}

/** Empty columns before a pick-up, and after a short phrase. */
function blanks(columns: number): readonly StructureElement[] {
  return columns === 0 ? [] : [{ tag: "TD", ...(columns > 1 ? { columns } : {}), content: [] }];
}

function sideCell({ side: kind, lines, rows }: Fragment, position: Position): StructureElement {
  const span = rows.length > 1 ? { rows: rows.length } : {};
  if (kind === "none") return { tag: "TD", ...span, content: [] };
  const name = lines.filter(({ size }) => size > smallest);
  const rest = lines.filter(({ size }) => size <= smallest);
  const heading: StructureElement = {
    tag: kind === "whole" ? "H2" : "P",
    content: stackLines(name, { ...position, y: position.y + 3 }),
  };
  const below = { ...position, y: position.y + 4 + linesHeight(name) };
  const words: readonly StructureElement[] = rest.length > 0 ? [{ tag: "P", content: stackLines(rest, below) }] : [];
  return { tag: "TH", scope: "Row", ...span, content: [heading, ...words] };
}

function timeCell({ row, opens }: RowLayout, first: boolean, position: Position, wording: Wording): StructureElement {
  if (!opens) return { tag: "TD", content: [] };
  const shown: Span[] = row.time
    ? [{ text: wording.time.track(row.time), tone: first ? "ink" : "soft", style: first ? "bold" : "regular" }]
    : [];
  const [time] = shown.length > 0 ? wrap(shown, smallest) : [];
  const right = position.x + sideTimes - 5;
  const content: (StructureElement | Mark)[] =
    time === undefined ? [] : [{ ...position, x: right - time.width, y: position.y + 2.5, line: time }];
  const facing = signFigure(wording.stance.facing(row.facing), [facingSign(row.facing, [4.5, 0], 4.5)], {
    ...position,
    x: right - 9.5,
    y: position.y + (time === undefined ? 9 : 17.5),
  });
  return { tag: "TH", scope: "Row", content: first || row.facesApart ? [...content, facing] : content };
}
