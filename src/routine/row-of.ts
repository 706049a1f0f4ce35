/**
 * How many counts of a phrase stand in one row of the player's face: all of up to nine, else as even a share as there is, so
 * that no row is a remainder.
 *
 * @example rowOf(12) // 6
 */
export function rowOf(counts: number): number {
  if (counts <= 9) return counts;
  const even = [8, 7, 6, 9, 5].find((columns) => counts % columns === 0);
  return even ?? Math.ceil(counts / Math.ceil(counts / 8));
}
