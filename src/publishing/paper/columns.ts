import type { Row } from "./bands.js";

/** Width of the column of phrase numbers and track times. */
export const phraseColumn = 35;

/** Where the columns of a grid lie: points from its left edge to where a count begins, parts of a count in proportion. */
export type Columns = (count: number) => number;

/** All counts equally wide. */
export function evenColumns(columns: number, width: number): Columns {
  return (count) => (count * width) / columns;
}

/** How much narrower and wider than equal a count may be: it is still seen as one of a row of beats. */
const [narrowest, widest] = [0.75, 1.5];

/**
 * Counts wider where there is more to say on them, the same over all rows, so that the rows get lower. For grids that would not go on their
 * sides otherwise.
 */
export function fittedColumns(rows: readonly Row[], columns: number, width: number): Columns {
  const wants = Array.from({ length: columns }, (_, column) => want(rows, column));
  const mean = wants.reduce((sum, one) => sum + one, 0) / columns || 1;
  const shares = wants.map((one) => Math.min(widest, Math.max(narrowest, one / mean)));
  const all = shares.reduce((sum, one) => sum + one, 0);
  const edges = [0];
  for (const share of shares) edges.push((edges.at(-1) ?? 0) + (share * width) / all);
  return (count) => {
    const whole = Math.min(Math.floor(count), columns - 1);
    const [from = 0, to = width] = [edges[whole], edges[whole + 1]];
    return from + (to - from) * (count - whole);
  };
}

/** What a count would like of a row's width: letters a count, those of the fuller rows weighing more. */
function want(rows: readonly Row[], column: number): number {
  const letters = rows.flatMap(({ cells, offset }) => {
    const cell = cells.find(({ from, to }) => from <= column - offset && column - offset < to);
    if (cell === undefined) return [];
    const length = cell.text.shown.reduce((sum, { text }) => sum + text.length, 0);
    return [length / Math.max(1, cell.to - cell.from)];
  });
  if (letters.length === 0) return 0;
  return Math.sqrt(letters.reduce((sum, one) => sum + one * one, 0) / letters.length);
}
