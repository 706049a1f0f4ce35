/** Index of the last value that fits, -1 where none does: `findLastIndex`, which phones before 2022 lack. */
export function lastIndexOf<Value>(values: readonly Value[], fits: (value: Value) => boolean): number {
  let index = values.length - 1;
  while (index >= 0 && !fits(values[index] as Value)) index--;
  return index;
}

/** The last value that fits. */
export function lastOf<Value>(values: readonly Value[], fits: (value: Value) => boolean): Value | undefined {
  return values[lastIndexOf(values, fits)];
}
