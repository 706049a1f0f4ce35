import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { chapterProblems } from "../../src/routine/chapters.js";

function problems(times: readonly number[], length?: number): readonly (readonly [string, string])[] {
  const chapters = times.map((at, index) => ({
    place: `${index + 1}`,
    at: new Fraction(at),
    title: `Part ${index + 1}`,
  }));
  const video = { chapters, ...(length === undefined ? {} : { length: new Fraction(length) }) };
  return chapterProblems(video).map(({ rule, place }) => [rule, place]);
}

/* Common practice of video sites, no source: the first at 0:00, rising, at least three, ten seconds or more. */

test("a list that video sites take has no finding, and neither has none", () => {
  expect(problems([0, 10, 20], 30)).toEqual([]);
  expect(problems([])).toEqual([]);
  expect(problems([], 60)).toEqual([]);
});

test("each fault is found at its chapter", () => {
  expect(problems([5, 20, 40], 60)).toEqual([["chapter-times", "1"]]);
  expect(problems([0, 9.9, 40], 60)).toEqual([["chapter-times", "1"]]);
  expect(problems([0, 40, 30, 60], 90)).toEqual([["chapter-times", "3"]]);
  expect(problems([0, 20, 20], 90)).toEqual([["chapter-times", "3"]]);
  expect(problems([0, 20, 40], 45)).toEqual([["chapter-times", "3"]]);
  expect(problems([0, 20, 40], 40)).toEqual([["chapter-times", "3"]]);
  expect(problems([0, 20], 40)).toEqual([["chapter-number", "1"]]);
  expect(problems([0, 20, 40])).toEqual([["video-length", "1"]]);
});

test("a message says what to write instead", () => {
  const chapters = [{ place: "1", at: new Fraction(5), title: "Welcome" }];
  const messages = chapterProblems({ chapters, length: new Fraction(12) }).map(({ message }) => message);
  expect(messages).toEqual([
    'The first chapter, "Welcome", starts 5 seconds into the video. Start the list at 0:00, for instance with "0:00 Welcome".',
    'The chapter "Welcome" lasts 7 seconds; video sites ask for 10 seconds or more. Join it with the one before or after it.',
    "There is one chapter; video sites show none below 3. Add chapters, or take the list out.",
  ]);
});
