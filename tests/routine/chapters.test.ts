import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { chapterOf, chapterProblems } from "../../src/routine/chapters.js";
import { dance } from "../../src/routine/dance.js";
import { danced, library, move, phrase, section, written } from "../fixtures/written.js";

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

const chapter = (title: string) => ({ place: title, at: new Fraction(0), title });
const found = (names: readonly string[], titles: readonly string[], name: string) => {
  const sections = danced({ sections: names.map((one) => section(one, [phrase([move("1-8", "Walk")])])) }).sections;
  return chapterOf({ sections, video: { chapters: titles.map(chapter) } }, name)?.title;
};

test.each<[string, readonly string[], readonly string[], string | undefined]>([
  ["Tag", ["Tag"], ["Stage and tags"], undefined],
  ["Tag", ["Tag"], ["The tag: four steps"], "The tag: four steps"],
  ["Wall", ["Wall"], ["Run-through: Wall", "Wall, counts"], "Wall, counts"],
  ["Wall", ["Wall"], ["Wall, full tempo", "Goodbye"], "Wall, full tempo"],
  ["Wall", ["Wall", "Tag"], ["Wall and Tag", "Wall"], "Wall"],
  ["Wall", ["Wall", "Wall again"], ["Wall again"], undefined],
  ["Wall again", ["Wall", "Wall again"], ["Wall", "Wall again"], "Wall again"],
  ["Wall", ["Wall", "Wall again"], ["Wall again", "From wall to Wall again"], "From wall to Wall again"],
  ["Über", ["Über"], ["Darüber", "über, Schritt für Schritt"], "über, Schritt für Schritt"],
])("the chapter that teaches %s of %j, among %j, is %s", (name, names, titles, expected) => {
  expect(found(names, titles, name)).toBe(expected);
});

test("sections that no chapter names are one note, those that are danced as others left out", () => {
  const walk = [phrase([move("1-8", "Walk")])];
  const sections = [
    ...["Verse", "Bridge", "Tag"].map((name) => section(name, walk)),
    section("Verse again", undefined, { sameAs: "Verse" }),
  ];
  const video = { chapters: [chapter("Verse, counts")] };
  const { problems } = dance(written({ sections, video }), library);
  const notes = problems.filter(({ rule }) => rule === "no-chapter");
  expect(notes.map(({ severity, place }) => [severity, place])).toEqual([["note", "Verse, counts"]]);
  expect(notes[0]?.message).toMatch(/^no chapter names `Bridge`, `Tag`; write/);
});
