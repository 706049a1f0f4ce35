import { describe, expect, test } from "vitest";
import { emptyLibrary, readLibrary } from "../../src/reading/read-library.js";

/* One setting a line, as an author would write them. */
const reading = (teaching: string) => readLibrary(`name: A\nteaching:\n  ${teaching.replaceAll("\n", "\n  ")}\n`);

describe("the planner's settings", () => {
  test("nothing written gives the defaults", () => {
    const { library, findings } = readLibrary("name: A\n");
    expect(findings).toEqual([]);
    expect(library?.teaching).toEqual(emptyLibrary.teaching);
    expect(library?.teaching).toMatchObject({ unit: 60, chunkCounts: 16, chunkPoints: 16, explain: 5, again: 5 });
    expect(library?.teaching).toMatchObject({ markSpeed: 50, linkSpeed: 75, leadIn: 15, groups: 2, waterEvery: 35 });
    expect(library?.teaching).toMatchObject({
      limits: {},
      recording: { style: "one-go", takes: 2, setup: 60, talk: 10 },
    });
    expect(library?.teaching).not.toHaveProperty("drillSpeeds");
  });

  test("what is written, and beside it the defaults", () => {
    const { library, findings } = reading(
      "chunk-counts: 24\ndrill-speeds: [50, 80]\npoints: { turn: 1.5 }\n" +
        "most: { drill: 2, from-the-top: 6 }\nlimits: { knees: 60, inversion: 4, lift: 8 }",
    );
    expect(findings).toEqual([]);
    expect(library?.teaching.chunkCounts).toBe(24);
    expect(library?.teaching.points).toMatchObject({ move: 1, turn: 1.5, partCount: 0.25, otherSide: 0.5 });
    expect(library?.teaching.most).toMatchObject({ drill: 2, "from-the-top": 6, link: 3 });
    expect(library?.teaching.limits).toEqual({ knees: 60, inversions: 4, lift: 8 });
    expect(library?.teaching.drillSpeeds).toEqual([50, 80]);
  });

  test.each([
    ["unit: soon", 3, 9, "`unit` must be a whole number from 1 to 60 seconds; here is `soon`."],
    ["unit: 5 seconds", 3, 9, "Write the number alone: 5."],
    ["unit: [5]", 3, 9, "`unit` must be a whole number from 1 to 60 seconds; here is a list."],
    [
      "mark-speed: 110",
      3,
      15,
      "`mark-speed` must be a whole number from 20 to 100 per cent of the tempo; here is `110`.",
    ],
    ["chunk-counts: 16.5", 3, 17, "`chunk-counts` must be a whole number from 4 to 128 counts; here is `16.5`."],
    [
      "drill-speeds: 75",
      3,
      17,
      "`drill-speeds` must be a list of per cents; here is `75`. Write for example `drill-speeds: [60, 80, 100]`.",
    ],
    [
      "drill-speeds: [75, fast]",
      3,
      22,
      "An entry of `drill-speeds` must be a whole number from 20 to 100 per cent of the tempo",
    ],
    ["points: { turn: -1 }", 3, 19, "`turn` must be a number from 0 to 100 points; here is `-1`."],
    ["points: { jump: 1 }", 3, 13, "`jump` is not a key here. The keys here are move, turn, drop, part-count, risk"],
    ["least: { show: 0 }", 3, 18, "`show` must be a whole number from 1 to 20 runs; here is `0`."],
    ["most: { cha: 1 }", 3, 11, "`cha` is not a key here. The keys here are show-all, recap, show, mark, options"],
    [
      "most: 3",
      3,
      9,
      "`most` must be a mapping from activities to numbers; here is `3`. Write for example `most: { drill: 3 }`.",
    ],
    ["limits: { knee: 60 }", 3, 13, "`knee` is not a key here; did you mean `knees`?"],
    ["limits: { toes: 60 }", 3, 13, "The keys here are knees, hands, forearms"],
    ["limits: { knees: few }", 3, 20, "`knees` must be a whole number from 0 to 100000 times; here is `few`."],
    ["recording: { shots: 2 }", 3, 16, "`shots` is not a key here. The keys here are style, takes, setup and talk."],
    ["chunks: 3", 3, 3, "`chunks` is not a key here"],
    ["marked-speed: 50", 3, 3, "`marked-speed` is not a key here; did you mean `mark-speed`?"],
    ["5", 3, 3, "`teaching` must be `key: value` pairs; here is `5`. Write for example `teaching: { groups: 3 }`."],
  ])("%j", (teaching, line, column, message) => {
    const { library, findings } = reading(teaching);
    expect(library).toBeUndefined();
    expect(findings).toMatchObject([{ severity: "error", line, column }]);
    expect(findings[0]?.message).toContain(message);
  });

  test("each wrong setting is told", () => {
    const { findings } = reading("unit: no\ngroups: 3\nlimits: { knees: 9, toes: 1 }");
    expect(findings.map(({ line, column }) => [line, column])).toEqual([
      [3, 9],
      [5, 23],
    ]);
  });
});
