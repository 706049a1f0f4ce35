import fc from "fast-check";
import Fraction from "fraction.js";
import { describe, expect, test } from "vitest";
import { atLines, type LandingSection, landingsOf } from "../../../src/hearing/song/landing.js";
import { dance } from "../../../src/routine/dance.js";
import { library, move, phrase, written, section as writtenSection } from "../../fixtures/written.js";
import { runs, seed } from "../../runs.js";

/* 120 counts a minute, half a second each; 16 counts a section, so they arrive at 10, 18, 26 and 34 s. */
const first = { firstCount: 10 };
const section = (written: number, more: Partial<LandingSection> = {}): LandingSection => ({
  written,
  wall: 1,
  pass: 1,
  counts: 16,
  countsPerMinute: 120,
  ...more,
});
const three = [section(0), section(1), section(2)];

describe("a mark", () => {
  test("near where the counts arrive needs nothing, and tells how far off it was", () => {
    const [, second] = landingsOf(three, first, [{ section: 1, at: 18.06 }]);
    expect(second).toMatchObject({
      arrives: 18,
      begins: 18,
      follows: "arrives",
      by: 0,
      mark: { count: 0, snapped: true },
    });
    expect(second?.mark?.off).toBeCloseTo(0.06, 9);
    expect(second).not.toHaveProperty("at");
  });

  test("four counts later snaps to that count: the dancers wait two seconds, and what comes after comes later too", () => {
    const landings = landingsOf(three, first, [{ section: 1, at: 19.92 }]);
    expect(landings[1]).toMatchObject({ follows: "wait", by: 2, at: 20, begins: 20, mark: { count: 4 } });
    expect(landings[2]).toMatchObject({ arrives: 28, begins: 28, follows: "arrives" });
  });

  test("between two counts holds as it was heard: up to half a count early cuts the last move", () => {
    const [, second] = landingsOf(three, first, [{ section: 1, at: 17.8 }]);
    expect(second).toMatchObject({ follows: "cut", at: 17.8, begins: 17.8, mark: { snapped: false } });
    expect(second?.by).toBeCloseTo(0.2, 9);
  });

  test("a whole count early is more than can be cut", () => {
    expect(landingsOf(three, first, [{ section: 1, at: 17.5 }])[1]).toMatchObject({
      follows: "too-early",
      by: 0.5,
      at: 17.5,
    });
  });

  test("on the first section tells how far off the first count is, and moves nothing", () => {
    const [opening] = landingsOf(three, first, [{ section: 0, at: 10.1 }]);
    expect(opening).toMatchObject({ begins: 10, follows: "arrives" });
    expect(opening?.mark?.off).toBeCloseTo(0.1, 9);
    expect(opening).not.toHaveProperty("at");
  });

  test("snaps to the tempo of the section before it", () => {
    const slower = [section(0), section(1, { countsPerMinute: 60 }), section(2)];
    // Sixteen counts of a second each from 18 s on: they arrive at 34, and the next count falls at 35.
    expect(landingsOf(slower, first, [{ section: 2, at: 35.1 }])[2]).toMatchObject({ arrives: 34, at: 35, by: 1 });
  });

  test("after time without counts holds as it was heard", () => {
    const spoken = [section(0), section(1, { counts: 0, seconds: 5 }), section(2)];
    expect(landingsOf(spoken, first, [{ section: 2, at: 24.3 }])[2]).toMatchObject({
      arrives: 23,
      at: 24.3,
      follows: "wait",
    });
  });

  test("on a repeat can't be written, and moves nothing", () => {
    const twice = [section(0), section(0, { pass: 2 }), section(1)];
    const landings = landingsOf(twice, first, [{ section: 1, at: 19 }]);
    expect(landings[1]).toMatchObject({ begins: 18, unwritable: true, mark: { count: 2 } });
    expect(landings[2]).toMatchObject({ arrives: 26 });
  });

  test("given twice counts as it was given last", () => {
    const marks = [
      { section: 1, at: 19 },
      { section: 1, at: 20 },
    ];
    expect(landingsOf(three, first, marks)[1]).toMatchObject({ at: 20 });
  });
});

test("what the file says holds where nobody marked anything, and goes where the counts arrive there by themselves", () => {
  const written = [section(0), section(1, { at: 20 }), section(2, { at: 28 })];
  const landings = landingsOf(written, first, []);
  expect(landings.map(({ follows }) => follows)).toEqual(["arrives", "wait", "arrives"]);
  expect(atLines(written, landings)).toEqual([{ written: 1, at: 20 }]);
  expect(atLines(written, landingsOf(written, first, [{ section: 1, at: 18 }]))).toEqual([{ written: 2, at: 28 }]);
});

test("a section that lands differently in another time through gets a time for each", () => {
  const walls = [section(0), section(1), section(0, { wall: 2 }), section(1, { wall: 2 })];
  const marks = [
    { section: 1, at: 19 },
    { section: 3, at: 37 },
  ];
  expect(atLines(walls, landingsOf(walls, first, marks))).toEqual([{ written: 1, at: { 1: 19, 2: 37 } }]);
  expect(atLines(walls, landingsOf(walls, first, marks.slice(1)))).toEqual([{ written: 1, at: { 2: 37 } }]);
});

test("what is said to follow is what a file with those lines then does", () => {
  const tempo = fc.constantFrom(76, 92.05, 120);
  // In counts after where the counts arrive: none, whole ones, between two, up to half a count early, and earlier.
  const heard = fc.option(fc.oneof(fc.integer({ min: 0, max: 9 }), fc.double({ min: -1.2, max: 3, noNaN: true })));
  fc.assert(
    fc.property(fc.array(fc.tuple(tempo, heard), { minLength: 2, maxLength: 6 }), (parts) => {
      const sections = parts.map(([countsPerMinute], index) => section(index, { counts: 8, countsPerMinute }));
      const marks: { section: number; at: number }[] = [];
      for (const [index, [, counts]] of parts.entries()) {
        const [before, reached] = [parts[index - 1]?.[0], landingsOf(sections, first, marks)[index]?.arrives];
        if (before === undefined || reached === undefined || counts === null) continue;
        marks.push({ section: index, at: reached + (counts * 60) / before });
      }
      const landings = landingsOf(sections, first, marks);
      const lines = new Map(atLines(sections, landings).map(({ written: index, at }) => [index, at]));
      const { routine, problems } = dance(
        written({
          music: { firstCount: new Fraction(10) },
          sections: parts.map(([countsPerMinute], index) => {
            const at = lines.get(index);
            return writtenSection(`Part ${index}`, [phrase([move("1-8", "Walk")])], {
              tempo: new Fraction(countsPerMinute),
              at: typeof at === "number" ? [{ place: `at ${index}`, seconds: new Fraction(at) }] : [],
            });
          }),
        }),
        library,
      );
      const tooEarly = landings.filter(({ follows }) => follows === "too-early").map((one) => `at ${one.section}`);
      expect(problems.filter(({ severity }) => severity === "error").map(({ place }) => place)).toEqual(tooEarly);
      if (!routine) return;
      for (const [index, { begins }] of landings.entries())
        expect(routine.sections[index]?.start.add(10).valueOf()).toBeCloseTo(begins, 9);
    }),
    { numRuns: runs(160), seed },
  );
});

test("there is nothing to land without counts", () => {
  expect(landingsOf([], first, [])).toEqual([]);
  expect(landingsOf([section(0, { counts: 0, seconds: 4 })], first, [])).toEqual([]);
});
