/** Where in a phrase a move lies, in counts from its first, and whether it begins and ends there. */
interface Extent {
  readonly from: number;
  readonly to: number;
  readonly begins: boolean;
  readonly ends: boolean;
}

/**
 * The counts of the music on which a group that began later dances a move, as its own are written: "5-6" for its 1-2. Undefined where
 * they are its own, and where they are written without an end and the beginning is in the row before; "…" for what lies in the next row.
 */
export function musicSpan(
  on: string,
  numbers: readonly number[],
  { from, to, begins, ends }: Extent,
): string | undefined {
  const own = on.match(/\d+/g)?.map(Number) ?? [];
  const [first = 0] = own;
  const last = own.length - 1;
  const start = Math.floor(from);
  const same = begins ? first === numbers[start] : !ends || last === 0 || own[last] === numbers[Math.ceil(to) - 1];
  if (same) return undefined;
  let index = 0;
  return on.replace(/\d+/g, (text) => {
    const at = index++;
    if (at === last && last > 0) return String((ends ? numbers[Math.ceil(to) - 1] : undefined) ?? "…");
    return String(numbers[start + Number(text) - first] ?? "…");
  });
}
