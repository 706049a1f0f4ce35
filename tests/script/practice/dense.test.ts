import { expect, test } from "vitest";
import { firstSpeed, readableCues } from "../../../templates/script/practice/dense.js";
import type { Cue, Score } from "../../../templates/script/practice/score.js";

/* Counts of half a second, two phrases of four. */
const beats = Array.from({ length: 8 }, (_, index) => ({
  start: index / 2,
  number: (index % 4) + 1,
  label: String((index % 4) + 1),
  accent: false,
  section: 0,
  opens: index % 4 === 0,
}));
const score: Score = { sections: [], beats, countIn: 4, phrase: 4 };
const cue = (start: number, end: number, more: Partial<Cue> = {}): Cue => ({
  start,
  end,
  section: 0,
  hit: false,
  on: String(((start * 2) % 4) + 1),
  part: "",
  text: `move ${start * 2 + 1}`,
  ...more,
});
const each = beats.map(({ start }) => cue(start, start + 0.5));

test("moves too quick to be read stand together for as long as two of them need, and never over the end of a phrase", () => {
  // At full tempo each stands half a second: four of them fill 2 s, the first three 1.5 s, which is less than 1.6 s.
  const joined = readableCues(score, each, 100);
  expect(joined.map(({ start, end }) => [start, end])).toEqual([
    [0, 2],
    [2, 4],
  ]);
  expect(joined[0]?.run?.map(({ on, text }) => `${on} ${text}`)).toEqual([
    "1 move 1",
    "2 move 2",
    "3 move 3",
    "4 move 4",
  ]);
});

test("at a speed that leaves each its 0.8 s they stay on their own", () => {
  expect(readableCues(score, each, 60)).toEqual(each);
});

test("a slow move, one alone, and one that asks for care are joined to nothing", () => {
  const cues = [cue(0, 1), cue(1, 1.5), cue(1.5, 2, { care: "jump" }), cue(2, 4)];
  expect(readableCues(score, cues, 100)).toEqual(cues);
});

test("a section is offered at the fastest speed that leaves each of its moves 0.8 s, else at the slowest", () => {
  // Half a second at full tempo is 0.83 s at 60 %, and 0.67 s at 75 %.
  expect(firstSpeed(each, 0, [60, 75, 90, 100])).toBe(60);
  expect(firstSpeed([cue(0, 0.75)], 0, [60, 75, 90, 100])).toBe(90);
  expect(firstSpeed([cue(0, 0.25)], 0, [75, 60, 100])).toBe(60);
  expect(firstSpeed([], 0, [60, 100])).toBe(100);
});
