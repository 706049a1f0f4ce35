/** Chance that can be had again: the same numbers give the same choices. */
export interface Random {
  /** A whole number from 0 to below the limit. */
  readonly below: (limit: number) => number;
  readonly pick: <T>(list: readonly [T, ...T[]] | readonly T[]) => T;
  /** True so many times in a hundred. */
  readonly chance: (percent: number) => boolean;
}

/** Mulberry32, a public-domain generator by Tommy Ettinger (*from memory*); quite good enough to shuffle texts. */
export function randomFrom(...numbers: readonly number[]): Random {
  let state = numbers.reduce((hash, number) => Math.imul(hash ^ number, 0x9e3779b1) ^ (hash >>> 15), 0x51ed270b);
  const next = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (limit: number) => Math.floor(next() * limit);
  return {
    below,
    pick: (list) => {
      if (list.length === 0) throw new Error("nothing to pick from");
      return list[below(list.length)] as (typeof list)[number];
    },
    chance: (percent) => below(100) < percent,
  };
}
