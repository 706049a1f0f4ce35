import type { Coordinates } from "../../typesetting/shape.js";

/** How much of each pixel a shape covers, from 0 to 1, row by row. */
export interface Coverage {
  readonly width: number;
  readonly height: number;
  readonly values: Float32Array;
}

/**
 * The exact share of each pixel that closed contours cover. Every edge adds its signed area to the pixels that it crosses,
 * and the running sum along a row is the coverage: the accumulation buffer of Raph Levien, "Inside the fastest font renderer
 * in the world" (2016). Where contours overlap the coverage is full.
 *
 * @param contours corner points in pixels, each contour closed by itself, all within the picture
 */
export function coverage(contours: readonly (readonly Coordinates[])[], width: number, height: number): Coverage {
  // One column more than the picture has, so that nothing runs on into the next row.
  const wide = width + 1;
  const areas = new Float32Array(wide * height + 1);
  for (const contour of contours)
    for (const [index, from] of contour.entries())
      addEdge(areas, wide, from, contour[(index + 1) % contour.length] ?? from);
  const values = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    let sum = 0;
    for (let x = 0; x < width; x++) {
      sum += areas[y * wide + x] ?? 0;
      values[y * width + x] = Math.min(Math.abs(sum), 1);
    }
  }
  return { width, height, values };
}

function addEdge(areas: Float32Array, wide: number, from: Coordinates, to: Coordinates): void {
  if (from[1] === to[1]) return;
  const sign = from[1] < to[1] ? 1 : -1;
  const [top, bottom] = sign > 0 ? [from, to] : [to, from];
  const slope = (bottom[0] - top[0]) / (bottom[1] - top[1]);
  for (let y = Math.floor(top[1]); y < Math.ceil(bottom[1]); y++) {
    const [upper, lower] = [Math.max(y, top[1]), Math.min(y + 1, bottom[1])];
    const [a, b] = [top[0] + (upper - top[1]) * slope, top[0] + (lower - top[1]) * slope];
    addRow(areas, y * wide, Math.min(a, b), Math.max(a, b), sign * (lower - upper));
  }
}

/** Part of an edge within one row, from `left` to `right`; `drop` is its height with its direction. */
function addRow(areas: Float32Array, row: number, left: number, right: number, drop: number): void {
  const add = (x: number, area: number) => {
    areas[row + x] = (areas[row + x] ?? 0) + area;
  };
  const [first, last] = [Math.floor(left), Math.max(Math.ceil(right) - 1, Math.floor(left))];
  // What each column has to its right of the edge, less what the column before had.
  let before = 0;
  for (let x = first; x <= last; x++) {
    const covered = right === left ? x + 1 - left : coveredUpTo(x + 1, left, right);
    add(x, drop * (covered - before));
    before = covered;
  }
  add(last + 1, drop * (1 - before));
}

/** The area between a slanting edge of height 1 and a vertical line at `x`, within the last column before it. */
function coveredUpTo(x: number, left: number, right: number): number {
  const [a, b] = [Math.max(left, x - 1), Math.min(right, x)];
  const [shareBefore, shareHere] = [(a - left) / (right - left), (b - a) / (right - left)];
  return shareBefore + shareHere * (x - (a + b) / 2);
}
