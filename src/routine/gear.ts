import type { GearItem, Version } from "./routine.js";
import type { WrittenGear } from "./written.js";

/**
 * What a version needs: the routine's list as far as it holds for that version, then what its moves need beyond it, which is
 * required; each item once (letter case aside).
 */
export function gearOf(
  list: readonly WrittenGear[],
  version: string,
  moves: readonly { readonly gear: readonly string[] }[],
): readonly GearItem[] {
  const items = new Map<string, GearItem>();
  const add = (gear: GearItem) => {
    const key = gear.item.toLowerCase();
    if (!items.has(key)) items.set(key, gear);
  };
  for (const { item, need, why, for: only } of list)
    if (only === undefined || only.includes(version)) add({ item, need, ...(why === undefined ? {} : { why }) });
  for (const move of moves) for (const item of move.gear) add({ item, need: "required" });
  return [...items.values()];
}

/** A thing that some versions need, and which. */
export interface Needed extends GearItem {
  readonly by: readonly Version[];
}

/** Everything that some version needs, each item once, with the versions that need it so. */
export function neededGear(versions: readonly Version[]): readonly Needed[] {
  const items = new Map<string, Needed>();
  for (const version of versions) {
    for (const item of version.gear) {
      const key = `${item.need} ${item.item}`;
      items.set(key, { ...item, by: [...(items.get(key)?.by ?? []), version] });
    }
  }
  return [...items.values()];
}
