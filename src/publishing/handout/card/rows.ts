import type { Band, GridCell, Row } from "../../paper/bands.js";

/** A row of a card: a phrase, a part of a long one, or several very short ones. */
export interface CardRow {
  readonly cells: readonly CardCell[];
  /** Whose it is, where not all dance the same. */
  readonly dancers?: string;
  /** What stands there in place of counts. */
  readonly uncounted?: string;
}

/** A move on some columns of the card. */
export interface CardCell {
  readonly cell: GridCell;
  /** In columns from the left, parts of one where it lasts for less. */
  readonly from: number;
  readonly to: number;
  readonly begins: boolean;
  /** Its count, where the column's own does not say it. */
  readonly label: string | undefined;
}

/** Phrases up to so many counts stand on one row. */
const mostColumns = 10;
/** Longer ones are shared out over rows of at most so many. */
const shared = 8;

/** Columns that very short phrases are put together in. */
const mostFolded = 9;

export interface CardShape {
  /** Counts of a phrase that stand beside each other. */
  readonly columns: number;
  /** Phrases on a row. */
  readonly fold: number;
}

/** A row a phrase, or as many as it takes to keep columns wide. */
export function plainShape(phrase: number): CardShape {
  return { columns: phrase <= mostColumns ? phrase : Math.ceil(phrase / Math.ceil(phrase / shared)), fold: 1 };
}

/** Very short phrases on one row, as many as a section has, and a long one in columns as narrow as it needs: to save rows. */
export function denseShape(phrase: number, longest: number): CardShape {
  return { columns: phrase, fold: Math.max(1, Math.min(longest, Math.floor(mostFolded / phrase))) };
}

/** The rows of a section, on so many columns; `fold` phrases to a row. */
export function rowsOf({ rows }: Band, { columns, fold }: CardShape): readonly CardRow[] {
  const cut = rows.flatMap((row) => cutRow(row, columns));
  if (fold === 1) return cut;
  const folded: CardRow[] = [];
  let free = 0;
  for (const row of cut) {
    const last = folded.at(-1);
    const joins = free > 0 && row.uncounted === undefined && last?.dancers === row.dancers;
    const cells = row.cells.map((cell) => moved(cell, joins ? (fold - free) * columns : 0));
    if (joins && last !== undefined) folded[folded.length - 1] = { ...last, cells: [...last.cells, ...cells] };
    else folded.push({ ...row, cells });
    free = row.uncounted === undefined ? (joins ? free : fold) - 1 : 0;
  }
  return folded;
}

const moved = (cell: CardCell, by: number): CardCell => ({ ...cell, from: cell.from + by, to: cell.to + by });

/** A phrase that is longer than the card is wide goes on below. */
function cutRow(row: Row, columns: number): readonly CardRow[] {
  const { phrase, cells, dancers, uncounted } = row;
  const set = { ...(dancers === undefined ? {} : { dancers }), ...(uncounted === undefined ? {} : { uncounted }) };
  if (uncounted !== undefined) return [{ cells: [], ...set }];
  const offset = firstColumn(row, columns);
  const length = Math.ceil((offset + phrase.numbers.length) / columns);
  return Array.from({ length }, (_, index): CardRow => {
    const start = index * columns;
    const plain = phrase.numbers.every((number, at) => {
      const column = offset + at - start;
      return column < 0 || column >= columns || number === column + 1;
    });
    return { cells: cells.flatMap((cell) => cutCell(cell, { offset, start, columns, plain })), ...set };
  }).filter((one) => one.cells.length > 0 || length === 1);
}

/** A count stands under its own number, or under that of the phrase's other part: 12 under 6. */
function firstColumn({ phrase: { numbers }, offset }: Row, columns: number): number {
  const first = ((numbers[0] ?? 1) - 1) % columns;
  return numbers.every((number, index) => (number - 1) % columns === (first + index) % columns)
    ? first
    : offset % columns;
}

function cutCell(
  cell: GridCell,
  { offset, start, columns, plain }: { offset: number; start: number; columns: number; plain: boolean },
): readonly CardCell[] {
  const [from, to] = [cell.from + offset - start, cell.to + offset - start];
  if (to <= 0 || from >= columns) return [];
  const begins = cell.begins && from >= 0;
  const label = begins && !(plain && Number.isInteger(from)) ? countOf(cell) : undefined;
  return [{ cell, from: Math.max(0, from), to: Math.min(columns, to), begins, label }];
}

/** The count that a move begins on: "3&". */
export function countOf({ text }: GridCell): string {
  return (
    text.label
      .map((span) => span.text)
      .join("")
      .split(/[–,]/)[0] ?? ""
  );
}
