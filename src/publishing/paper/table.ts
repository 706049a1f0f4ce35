import { lineContent } from "../../typesetting/block.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { line as rule } from "../../typesetting/shape.js";
import { type Line, leading, type Span, wrap } from "../../typesetting/text.js";

/** A table of texts: a head over each column, and in each row a cell for each column, the first of which is the row's head. */
export interface TextTable {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
  /** How wide each column is, beside the others. */
  readonly widths: readonly number[];
}

/** Paragraphs. */
type Cell = readonly (readonly Span[])[];

/** Where a table may stand: from `start` on the first page, and between `top` and `bottom` on every further one. */
export interface TableFrame {
  readonly left: number;
  readonly width: number;
  readonly start: Pick<Position, "page" | "y">;
  readonly top: number;
  readonly bottom: number;
  readonly size: number;
}

/** A table on paper, and where it ends. */
export interface PlacedTable {
  readonly page: number;
  readonly y: number;
  readonly element: StructureElement;
  readonly decoration: readonly Mark[];
}

/** Between what stands in a column and the next column. */
const gutter = 8;

/** Puts a table on paper: no row is broken, and each page begins with the heads. */
export function placeTable({ heads, rows, widths }: TextTable, frame: TableFrame): PlacedTable {
  const { left, width, top, bottom, size } = frame;
  const all = widths.reduce((sum, one) => sum + one, 0);
  const columns = widths.map((_, index) => {
    const before = widths.slice(0, index).reduce((sum, one) => sum + one, 0);
    return { x: left + (width * before) / all, width: (width * (widths[index] ?? 0)) / all - gutter };
  });
  const set = (cells: readonly Cell[]) =>
    cells.map((cell, index) => cell.flatMap((spans) => wrap(spans, size, columns[index]?.width ?? width)));
  const pad = size * 0.45;
  const heightOf = (cells: readonly (readonly Line[])[]) =>
    Math.max(1, ...cells.map((lines) => lines.length)) * size * leading + 2 * pad;
  const head = set(heads.map((text) => [[{ text, style: "bold" }]]));
  const decoration: Mark[] = [];
  const content: StructureElement[] = [];
  let { page, y } = frame.start;
  const put = (cells: readonly (readonly Line[])[], weight: number, isHead: boolean) => {
    const content = cells.map((lines, index) => {
      const at = { page, x: columns[index]?.x ?? left };
      const marks = lines.flatMap((line, row) => lineContent(line, { ...at, y: y + pad + row * size * leading }));
      return cellOf(marks, isHead ? "Column" : index === 0 ? "Row" : undefined);
    });
    y += heightOf(cells);
    decoration.push({ page, x: left, y, shapes: [rule("line", weight, [0, 0], [width, 0])] });
    return { tag: "TR", content } as const;
  };
  content.push(put(head, 1.2, true));
  for (const row of rows) {
    const cells = set(row);
    if (y + heightOf(cells) > bottom && y > top) {
      page += 1;
      y = top;
      decoration.push(...headMarks(head, columns, { page, y: y + pad }, size));
      y += heightOf(head);
      decoration.push({ page, x: left, y, shapes: [rule("line", 1.2, [0, 0], [width, 0])] });
    }
    content.push(put(cells, 0.5, false));
  }
  return { page, y, element: { tag: "Table", content }, decoration };
}

function cellOf(content: StructureElement["content"], scope: "Row" | "Column" | undefined): StructureElement {
  return scope === undefined ? { tag: "TD", content } : { tag: "TH", scope, content };
}

/** The heads again, on a further page: seen, and not read out again. */
function headMarks(
  head: readonly (readonly Line[])[],
  columns: readonly { readonly x: number }[],
  { page, y }: Pick<Position, "page" | "y">,
  size: number,
): readonly Mark[] {
  return head.flatMap((lines, index) =>
    lines.map((line, row): Mark => ({ page, x: columns[index]?.x ?? 0, y: y + row * size * leading, line })),
  );
}
