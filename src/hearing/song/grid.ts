import type { Grid } from "./types.js";

/** Seconds that a count lasts. */
export function countLength({ countsPerMinute }: Pick<Grid, "countsPerMinute">): number {
  return 60 / countsPerMinute;
}

/**
 * Where a count falls in the track, in seconds.
 *
 * @param count 0 for the first one
 */
export function timeOfCount(grid: Grid, count: number): number {
  return grid.firstCount + count * countLength(grid);
}

/**
 * The count that a moment of the track lies nearest to, and how many seconds after it.
 *
 * @example nearestCount({ firstCount: 10, countsPerMinute: 120 }, 11.1) // { count: 2, off: 0.1 }
 */
export function nearestCount(grid: Grid, at: number): { readonly count: number; readonly off: number } {
  const count = Math.round((at - grid.firstCount) / countLength(grid));
  return { count, off: at - timeOfCount(grid, count) };
}
