/** The middle one of numbers; 0 where there is none. */
export function median(numbers: readonly number[]): number {
  // Not `toSorted`, which phones before 2023 lack.
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2;
}

/** A standard deviation that stray values do not move: 1.4826 times the median distance from 0, as in normal noise. */
export function robustSpread(residuals: readonly number[]): number {
  return 1.4826 * median(residuals.map(Math.abs));
}

/** The value that so much of sorted numbers lie below. */
export function quantile(sorted: readonly number[], part: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? 0;
}
