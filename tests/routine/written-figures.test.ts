import { expect, it } from "vitest";
import { writtenTempo, writtenTime, writtenTimes } from "../../src/routine/written-figures.js";

// By hand: 3 min 5.5 s; a thousandth that rounds up to the next minute.
it.each([
  [0, "0:00.0"],
  [185.5, "3:05.5"],
  [58, "0:58.0"],
  [14.205, "0:14.205"],
  [10.01, "0:10.01"],
  [59.9996, "1:00.0"],
  [3600, "60:00.0"],
])("%s seconds are written %s", (seconds, text) => {
  expect(writtenTime(seconds)).toBe(text);
});

it("times by the time through, and tempos to the hundredth", () => {
  expect([writtenTimes(58), writtenTimes({ 1: 58, 2: 104.25 })]).toEqual(["0:58.0", "{ 1: 0:58.0, 2: 1:44.25 }"]);
  expect([92, 92.04999, 76.5].map(writtenTempo)).toEqual(["92", "92.05", "76.5"]);
});
