import { describe, expect, test } from "vitest";
import { score } from "../../../templates/script/practice/score.js";
import { evenRun, type TappedCopy, tapped } from "../../../templates/script/practice/tapped.js";
import { nightFerry } from "../../fixtures/night-ferry.js";
import { type Hand, tapAlong } from "../../hearing/song/hand.js";
import { runs } from "../../runs.js";
import { published } from "./published.js";

const ferry = score(published(nightFerry));
/** Counts at 92 a minute, as many as anybody taps. */
const long = { position: 0, count: 60 / 92, counts: 1000 };

function said(times: readonly number[], run = long, isEstimate = false): TappedCopy {
  const result = tapped(times, run, isEstimate);
  if ("more" in result) throw new Error(`${result.more} more`);
  return result;
}

/** Of so many hands, how many in a hundred fit. */
function share(hand: Omit<Hand, "seed">, isEstimate: boolean, fits: (result: TappedCopy) => boolean): number {
  const tries = runs(400);
  const results = Array.from({ length: tries }, (_, seed) => said(tapAlong({ ...hand, seed }), long, isEstimate));
  return (100 * results.filter(fits).length) / tries;
}

describe("the counts that can be tapped", () => {
  test("go on evenly over sections, up to a wait", () => {
    // 16 counts and 4 at 92 a minute; the track goes on at 58.0 s, long after.
    expect(evenRun(ferry, 0)).toEqual({ position: 0, count: 60 / 92, counts: 20 });
    expect(evenRun(ferry, 1)?.counts).toBe(4);
  });

  test("of a later section are at its own tempo", () => {
    const run = evenRun(ferry, 2);
    expect(run?.position).toBeCloseTo(58 - 14.2, 6);
    expect(run).toMatchObject({ count: 60 / 96, counts: 32 });
  });
});

describe("taps of a human hand: 30 ms uneven, 5 % missed, 3 % doubled, the first two late", () => {
  test("on a copy at the routine's tempo give the first count within 30 ms, and that very tempo", () => {
    const hand = { countsPerMinute: 92, firstCount: 20, taps: 32 };
    const fits = ({ copy }: TappedCopy) => copy.stretch === 1 && Math.abs(copy.first - 20) < 0.03;
    expect(share(hand, false, fits)).toBeGreaterThanOrEqual(95);
  });

  test("on a copy at another tempo give that, whichever way the routine's is known", () => {
    const hand = { countsPerMinute: 95, firstCount: 20, taps: 32 };
    const fits = ({ copy }: TappedCopy) =>
      Math.abs(copy.stretch * (95 / 92) - 1) < 0.004 && Math.abs(copy.first - 20) < 0.03;
    expect(share(hand, false, fits)).toBeGreaterThanOrEqual(95);
    expect(share(hand, true, fits)).toBeGreaterThanOrEqual(95);
  });

  test("where nobody measured the routine's tempo, the copy's is the one that was tapped", () => {
    const { copy, countsPerMinute } = said(
      tapAlong({ countsPerMinute: 92.3, firstCount: 20, taps: 32, seed: 7 }),
      long,
      true,
    );
    expect(copy.stretch).not.toBe(1);
    expect(countsPerMinute).toBeCloseTo(92 / copy.stretch, 9);
  });

  test("on every other count, or twice on each, mean the same song", () => {
    for (const countsPerMinute of [46, 184]) {
      const { copy } = said(tapAlong({ countsPerMinute, firstCount: 20, taps: 32, seed: 3 }));
      expect(copy.stretch).toBe(1);
      expect(Math.abs(copy.first - 20)).toBeLessThan(0.03);
    }
  });
});

test("taps from a later section on say where the routine's first count is", () => {
  const run = { position: 43.8, count: 60 / 96, counts: 32 };
  const times = Array.from({ length: 12 }, (_, i) => 60 + i * run.count);
  expect(said(times, run).copy.first).toBeCloseTo(60 - 43.8, 6);
});

test("too few taps say how many more, and uneven ones that they follow no beat", () => {
  const even = (taps: number) => Array.from({ length: taps }, (_, i) => 20 + (i * 60) / 92);
  expect(tapped(even(1), long, false)).toEqual({ more: 7 });
  expect(tapped(even(5), long, false)).toEqual({ more: 3 });
  expect(said(even(8)).copy.first).toBeCloseTo(20, 6);
  // Of ten taps on a count, one is missing: a bounce is none.
  expect(
    tapped(
      [...even(7), 20.05].sort((a, b) => a - b),
      long,
      false,
    ),
  ).toEqual({ more: 1 });
  // A key that is held down.
  expect(
    tapped(
      Array.from({ length: 30 }, (_, i) => 20 + i / 30),
      long,
      false,
    ),
  ).toEqual({ more: 0 });
});

test("once every count of the run is past, there is no more to tap", () => {
  const run = { position: 0, count: 0.5, counts: 12 };
  const taps = (count: number) => Array.from({ length: count }, (_, i) => 20 + i / 2);
  expect(said(taps(11), run).complete).toBe(false);
  expect(said(taps(12), run).complete).toBe(true);
});
