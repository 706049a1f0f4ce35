import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { line, type Shape } from "../../typesetting/shape.js";
import { ascent, leading, type Span, shortened, textWidth, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { accentDisc, facingSign } from "../drawing/signs.js";
import { inset, signFigure, smallest } from "./cell.js";
import { phraseColumn } from "./columns.js";
import { type Fragment, type GridFrame, type GridItem, type Numerals, numeralStripHeight } from "./grid-items.js";
import { callHeight, namedBeside, type RowLayout } from "./row.js";

const numeralSize = 13;

/** Draws what stands on the paper: a table under each line of numerals, its rules and grounds as decoration. */
export function drawGrid(
  items: readonly GridItem[],
  frame: GridFrame,
): { readonly elements: readonly StructureElement[]; readonly decoration: readonly Mark[] } {
  const tables: StructureElement[][] = [];
  const decoration: Mark[] = [];
  const named = new Set<number>();
  const heads = phraseHeads(items, frame.wording);
  for (const item of items) {
    const position = { page: item.page, x: frame.left, y: item.y };
    if ("numerals" in item) {
      tables.push([numeralRow(item.numerals, position, frame, named.has(item.page) ? [] : heads)]);
      decoration.push({ ...position, shapes: accentGrounds(item.numerals) });
      named.add(item.page);
      continue;
    }
    const { rows, ground } = drawFragment(item.fragment, position, frame);
    tables.at(-1)?.push(...rows);
    decoration.push(...ground);
  }
  return {
    elements: tables.map((content): StructureElement => ({ tag: "Table", content })),
    decoration: [...decoration, ...closingRules(items, frame)],
  };
}

/** What the column before the counts holds: phrase numbers and track times, as far as there are any. */
function phraseHeads(items: readonly GridItem[], { print }: Wording): readonly string[] {
  const fragments = items.flatMap((item) => ("fragment" in item ? [item.fragment] : []));
  return [
    ...(fragments.some(({ numbered }) => numbered) ? [print.phraseColumn] : []),
    ...(fragments.some(({ rows }) => rows.some(({ row }) => row.time !== undefined)) ? [print.track] : []),
  ];
}

/** The rule under the last row, and a thin one where the grid goes on overleaf. */
function closingRules(items: readonly GridItem[], { left, width }: GridFrame): readonly Mark[] {
  return items.flatMap((item, index): readonly Mark[] => {
    const next = items[index + 1];
    if (!("fragment" in item) || next?.page === item.page) return [];
    const y = item.y + item.fragment.bar.height + item.fragment.heights.reduce((sum, one) => sum + one, 0);
    const rule = next === undefined ? line("ink", 1.3, [0, 0], [width, 0]) : line("ink", 0.5, [0, 0], [width, 0]);
    return [{ page: item.page, x: left, y, shapes: [rule] }];
  });
}

function accentGrounds({ accents, x }: Numerals): readonly Shape[] {
  return accents.flatMap((accent, index): readonly Shape[] => {
    const at = [phraseColumn + x(index), 1] as const;
    const width = x(index + 1) - x(index);
    return accent ? [{ kind: "box", at, width, height: numeralStripHeight - 1, fill: "tint" }] : [];
  });
}

/** The numerals, and (once a page) what the column before them holds. */
function numeralRow(
  numerals: Numerals,
  position: Position,
  { wording }: GridFrame,
  heads: readonly string[],
): StructureElement {
  const widths = numerals.labels.map((_, index) => numerals.x(index + 1) - numerals.x(index));
  const size = Math.max(smallest, Math.min(numeralSize, Math.min(...widths) * 0.55));
  const cells = numerals.labels.map((label, index) => {
    const x = position.x + phraseColumn + numerals.x(index);
    const accent = numerals.accents[index] === true ? wording.print.accent : undefined;
    return numeralCell(label, accent, size, { ...position, x });
  });
  const step = smallest * 1.12;
  const top = position.y + numeralStripHeight - 2 - heads.length * step;
  const marks = heads.flatMap((text, index): readonly Mark[] => {
    const [set] = wrap([{ text, tone: "soft" }], smallest);
    return set === undefined ? [] : [{ ...position, y: top + index * step, line: set }];
  });
  const phrase: StructureElement = { tag: "TH", scope: "Column", content: marks };
  return { tag: "TR", content: [{ tag: "TH", scope: "Column", content: [] }, phrase, ...cells] };
}

/**
 * A numeral stands where its count begins; an accent is white on a dark disc.
 *
 * @param accent the disc in words, if it is an accent
 */
function numeralCell(label: string, accent: string | undefined, size: number, position: Position): StructureElement {
  const [set] = wrap([{ text: label, style: "bold", tone: accent === undefined ? "ink" : "paper" }], size);
  if (set === undefined) return { tag: "TD", content: [] };
  const middle = position.x + Math.max(set.width / 2, size * 0.62) + 3;
  const base = position.y + numeralStripHeight - 6;
  const mark: Mark = {
    page: position.page,
    x: accent === undefined ? position.x + inset.left : middle - set.width / 2,
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
  { bar, rows: layouts, heights, numbered }: Fragment,
  position: Position,
  { width, wording }: GridFrame,
): { readonly rows: readonly StructureElement[]; readonly ground: readonly Mark[] } {
  const x = position.x + phraseColumn;
  const top = { ...position, y: position.y + bar.height };
  const ground: Mark[] = [
    { ...position, shapes: [line("ink", 1.3, [0, 0], [width, 0])] },
    { ...top, shapes: [line("ink", 0.5, [phraseColumn, 0], [width, 0])] },
  ];
  const between = line("line", 0.6, [-phraseColumn, 0], [width - phraseColumn, 0]);
  let { y } = top;
  const rows = layouts.map((layout, index): StructureElement => {
    const height = heights[index] ?? layout.height;
    const at = { page: position.page, x, y };
    ground.push({ ...at, shapes: [...layout.ground(height), ...(layout.opens && index > 0 ? [between] : [])] });
    const spans = layouts.length > 1 ? { rows: layouts.length } : {};
    const section: StructureElement = { tag: "TH", scope: "Row", ...spans, content: bar.place(position) };
    const before = layouts[index - 1]?.row.phrase;
    const first = before?.number !== layout.row.phrase.number;
    const phrase = phraseCell(
      layout,
      { numbered: numbered && first, first: index === 0 },
      { ...at, x: position.x },
      width,
      wording,
    );
    const { columns, offset, phrase: counted } = layout.row;
    const after = layout.row.uncounted === undefined ? columns - offset - counted.numbers.length : 0;
    y += height;
    const cells = [...blanks(offset), ...layout.cells(at), ...blanks(after)];
    return { tag: "TR", content: [...(index === 0 ? [section] : []), phrase, ...cells] };
  });
  return { rows, ground };
}

/** Empty columns before a pick-up, and after a short phrase. */
function blanks(columns: number): readonly StructureElement[] {
  return columns === 0 ? [] : [{ tag: "TD", ...(columns > 1 ? { columns } : {}), content: [] }];
}

/** What stands before a phrase's counts: who dances it, that words are called on them, its number, which way they face, its track time. */
function phraseCell(
  { row, opens, top, calls }: RowLayout,
  { numbered, first }: { readonly numbered: boolean; readonly first: boolean },
  position: Position,
  width: number,
  wording: Wording,
): StructureElement {
  if (!opens) return { tag: "TD", content: [] };
  const { page, x } = position;
  const mark = (span: Span, y: number): readonly Mark[] => {
    const [set] = wrap([span], smallest);
    return set === undefined ? [] : [{ page, x, y, line: set }];
  };
  const content: (StructureElement | Mark)[] = [];
  let y = position.y + inset.top;
  const beside = namedBeside(row);
  if (row.dancers !== undefined && !beside) {
    const fits = (text: string) => textWidth(text, smallest, "bold") <= width - phraseColumn;
    content.push(...mark({ text: shortened(row.dancers, fits), style: "bold" }, y));
  }
  if (calls)
    content.push(
      ...mark({ text: wording.print.calledHere, style: "italic", tone: "soft" }, position.y + top - callHeight + 1),
    );
  y += top;
  const number = [...(beside ? [row.dancers] : []), ...(numbered ? [row.phrase.number] : [])].join(" ");
  if (number !== "") content.push(...mark({ text: number, style: "bold" }, y));
  if (row.facesApart) {
    const at = { page, x: x + (number === "" ? 0 : 14), y: y + 5.5 };
    content.push(signFigure(wording.stance.facing(row.facing), [facingSign(row.facing, [4.5, 0], 4.5)], at));
  }
  if (number !== "" || row.facesApart) y += smallest * leading;
  if (row.time !== undefined)
    content.push(...mark({ text: wording.time.track(row.time), tone: "soft", style: first ? "bold" : "regular" }, y));
  return { tag: "TH", scope: "Row", content };
}
