import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nearestCount, timeOfCount } from "../../../src/hearing/song/grid.js";
import { fitTaps } from "../../../src/hearing/song/taps.js";
import type { TapFit } from "../../../src/hearing/song/types.js";
import { randomFrom } from "../../fuzz/random.js";
import { runs, seed } from "../../runs.js";
import { type Hand, tapAlong, uniform } from "./hand.js";

function fitted(taps: readonly number[]): TapFit {
  const fit = fitTaps(taps);
  if ("why" in fit) throw new Error(fit.why);
  return fit;
}

/** Of so many hands, spread over 56 to 180 counts a minute, how many in a hundred are read so closely. */
function within(taps: number, tempo: number, seconds: number, tries: number): { tempo: number; firstCount: number } {
  let [tempos, firsts] = [0, 0];
  for (let index = 0; index < tries; index++) {
    const hand: Hand = { countsPerMinute: 56 + (124 * index) / (tries - 1), firstCount: 14.2, taps, seed: index };
    const fit = fitTaps(tapAlong(hand));
    if ("why" in fit) continue;
    if (Math.abs(fit.countsPerMinute / hand.countsPerMinute - 1) <= tempo) tempos++;
    if (Math.abs(fit.firstCount - hand.firstCount) <= seconds) firsts++;
  }
  return { tempo: (100 * tempos) / tries, firstCount: (100 * firsts) / tries };
}

describe("taps of a human hand: 30 ms uneven, 5 % missed, 3 % doubled, the first two late", () => {
  test("32 taps give the tempo within 0.4 % and the first count within 30 ms, 95 times in 100", () => {
    const { tempo, firstCount } = within(32, 0.004, 0.03, runs(480));
    expect(tempo).toBeGreaterThanOrEqual(95);
    expect(firstCount).toBeGreaterThanOrEqual(95);
  });

  test("96 taps give both twice as closely", () => {
    const { tempo, firstCount } = within(96, 0.002, 0.015, runs(480));
    expect(tempo).toBeGreaterThanOrEqual(95);
    expect(firstCount).toBeGreaterThanOrEqual(95);
  });
});

describe("a steady hand", () => {
  const even = (count: number, from = 10, period = 0.5) =>
    Array.from({ length: count }, (_, index) => from + index * period);

  test("taps every half second from 10 s on are 120 counts a minute from 10 s on", () => {
    const fit = fitted(even(32));
    expect(fit.countsPerMinute).toBeCloseTo(120, 6);
    expect(fit.firstCount).toBeCloseTo(10, 6);
    expect(fit.certainty).toBe("sure");
    expect(fit.missed).toEqual([]);
    expect(fit.taps.map(({ count, kind }) => [count, kind])).toEqual(even(32).map((_, index) => [index, "on"]));
  });

  test("the order in which they are given does not matter, and what is no time is passed over", () => {
    expect(fitTaps([...even(12).toReversed(), Number.NaN])).toEqual(fitTaps(even(12)));
  });

  test("a missed tap is said to be missing, and moves nothing", () => {
    const fit = fitted(even(24).filter((_, index) => index !== 7));
    expect(fit.missed).toEqual([7]);
    expect(fit.countsPerMinute).toBeCloseTo(120, 6);
  });

  test("a tap between two counts is shown as off the beat, a bounce as doubled", () => {
    const fit = fitted([...even(24), 15.24, 18.09]);
    expect(fit.taps.filter(({ kind }) => kind !== "on").map(({ at, kind }) => [at, kind])).toEqual([
      [15.24, "off"],
      [18.09, "doubled"],
    ]);
    expect(fit.countsPerMinute).toBeCloseTo(120, 1);
  });

  test("the first two come late: the first count is still where it was heard", () => {
    const fit = fitted(even(24).map((at, index) => (index < 2 ? at + 0.2 : at)));
    expect(fit.firstCount).toBeCloseTo(10, 3);
    expect(fit.taps.slice(0, 3).map(({ kind, count }) => [kind, count])).toEqual([
      ["late", 0],
      ["late", 1],
      ["on", 2],
    ]);
  });

  test("three taps say nothing, and neither does a key that is held down", () => {
    expect(fitTaps(even(3))).toEqual({ why: "too-few" });
    expect(fitTaps(even(60, 10, 0.03))).toEqual({ why: "no-beat" });
    expect(fitTaps(Array.from({ length: 60 }, () => 4))).toEqual({ why: "no-beat" });
  });

  test("taps at random are hardly ever taken for counts, and never for sure ones", () => {
    const tries = runs(240);
    const fits = Array.from({ length: tries }, (_, seed) => {
      const random = randomFrom(seed, 3);
      return fitTaps(Array.from({ length: 32 }, () => uniform(random) * 16));
    }).flatMap((fit) => ("why" in fit ? [] : [fit]));
    expect(fits.length).toBeLessThanOrEqual(tries / 4);
    expect(fits.filter(({ certainty }) => certainty === "sure")).toEqual([]);
  });

  test("few taps are never sure", () => {
    expect(fitted(even(6)).certainty).toBe("unsure");
    expect(fitted(even(10)).certainty).toBe("likely");
  });
});

describe("a tempo that changes", () => {
  const slowing = tapAlong({ countsPerMinute: 100, firstCount: 5, taps: 96, seed: 3, endsAt: 0.85 });

  test("is said to be unsteady, with the range, and nothing about it is sure", () => {
    const { unsteady, certainty } = fitted(slowing);
    expect(certainty).toBe("unsure");
    // It goes from 100 evenly down to near 85; a quarter of it, which a tempo is told from, begins and ends inside that.
    expect(unsteady?.fastest).toBeGreaterThan(95);
    expect(unsteady?.slowest).toBeLessThan(90);
    expect(unsteady?.slowest).toBeGreaterThan(70);
  });

  test("a steady hand is hardly ever said to be unsteady", () => {
    const tries = runs(240);
    const said = Array.from({ length: tries }, (_, seed) =>
      fitted(tapAlong({ countsPerMinute: 60 + (seed % 120), firstCount: 5, taps: 64, seed: 7000 + seed })),
    ).filter(({ unsteady }) => unsteady !== undefined);
    expect(said.length).toBeLessThanOrEqual(tries / 50);
  });

  test("a drift of 6 % is found in 96 taps of a hand at any tempo", () => {
    const tries = runs(160);
    const found = Array.from({ length: tries }, (_, seed) =>
      fitted(tapAlong({ countsPerMinute: 56 + (124 * seed) / tries, firstCount: 5, taps: 96, seed, endsAt: 0.94 })),
    ).filter(({ unsteady }) => unsteady !== undefined);
    expect(found.length).toBeGreaterThanOrEqual(0.95 * tries);
  });
});

test("whatever the times are, there is an answer", () => {
  const time = fc.oneof(fc.double(), fc.double({ min: 0, max: 600, noNaN: true }), fc.integer({ min: -5, max: 20 }));
  fc.assert(
    fc.property(fc.array(time, { maxLength: 40 }), (times) => {
      const fit = fitTaps(times);
      if ("why" in fit) return;
      expect(fit.countsPerMinute).toBeGreaterThan(0);
      expect(Number.isFinite(fit.firstCount)).toBe(true);
      expect(fit.taps[0]?.count).toBe(0);
    }),
    { numRuns: runs(1000), seed },
  );
});

test("even counts say where a count falls, and which one a moment is nearest to", () => {
  const grid = { firstCount: 10, countsPerMinute: 120 };
  expect([0, 3, -2].map((count) => timeOfCount(grid, count))).toEqual([10, 11.5, 9]);
  expect(nearestCount(grid, 11.625)).toEqual({ count: 3, off: 0.125 });
  expect(nearestCount(grid, 9.375)).toEqual({ count: -1, off: -0.125 });
});
