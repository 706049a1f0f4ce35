import { type Random, randomFrom } from "../../fuzz/random.js";

/** How somebody taps along. */
export interface Hand {
  readonly countsPerMinute: number;
  /** Seconds. */
  readonly firstCount: number;
  /** How many taps she gives, doubled ones aside. */
  readonly taps: number;
  readonly seed: number;
  /** Standard deviation in seconds. */
  readonly unevenness?: number;
  /** In a hundred. */
  readonly missed?: number;
  readonly doubled?: number;
  /** The first so many come late. */
  readonly late?: number;
  /** The tempo at the end is so much of that at the beginning; it changes evenly. */
  readonly endsAt?: number;
}

/** Numbers from 0 to below 1. */
export function uniform(random: Random): number {
  return random.below(2 ** 32) / 2 ** 32;
}

/** Numbers about 0 with a standard deviation of 1, by the method of Box & Muller (1958, *from memory*). */
export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - uniform(random))) * Math.cos(2 * Math.PI * uniform(random));
}

/**
 * Taps of a hand, in order. A bounce comes 60 to 140 ms after its tap. The first that come late do so by 90 to 180 ms, which is how
 * long somebody takes to react to a sound (*common practice, no source*), but by less than half a count.
 */
export function tapAlong(hand: Hand): readonly number[] {
  const { countsPerMinute, firstCount, seed, unevenness = 0.03, missed = 5, doubled = 3, late = 2, endsAt = 1 } = hand;
  const random = randomFrom(seed, 21);
  const period = 60 / countsPerMinute;
  const taps: number[] = [];
  let given = 0;
  for (let count = 0; given < hand.taps; count++) {
    // The first tap says where the first count is, so it is never the one that is missed.
    if (count > 0 && random.chance(missed)) continue;
    const reaction = given < late ? Math.min(0.45 * period, 0.09 + 0.09 * uniform(random)) : 0;
    const slower = 1 + ((1 / endsAt - 1) * count) / hand.taps / 2;
    const at = firstCount + count * period * slower + reaction + unevenness * normal(random);
    taps.push(at);
    given++;
    if (random.chance(doubled)) taps.push(at + 0.06 + 0.08 * uniform(random));
  }
  return taps.toSorted((a, b) => a - b);
}
