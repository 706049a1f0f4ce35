import { describe, expect, test } from "vitest";
import { feelTexts } from "../../src/publishing/feel-texts.js";
import { parseSpans, wrongPart } from "../../src/routine/spans.js";
import { tellsLength } from "../../src/routine/tells-length.js";
import { wordingOf } from "../../src/wording/wording.js";
import { errors, one, readKeys, whole } from "../fixtures/read-keys.js";

const points = (text: string) => {
  const parsed = parseSpans(text);
  return "wrong" in parsed
    ? parsed.wrong
    : parsed.spans.map((span) => span.points.map((p) => `${p.count}${p.part}`).join(" "));
};
/** "on at length" of each move of the only version. */
const places = (yaml: string, music?: string) =>
  (whole(yaml, music).versions[0]?.moves ?? []).map(
    ({ on, at, length }) => `${on} at ${at.toFraction()} for ${length.toFraction()}`,
  );
const said = (yaml: string, music?: string) =>
  readKeys(yaml, music)
    .findings.filter(({ severity }) => severity === "error")
    .map(({ message }) => message)
    .join("\n");

describe("counts as they are called", () => {
  test.each([
    ["7&8", ["7 7& 8"]],
    ["7a8", ["7 7a 8"]],
    ["1&2&3", ["1 1& 2 2& 3"]],
    ["8&1", ["8 8& 1"]],
    ["1e&a2", ["1 1e 1& 1a 2"]],
    ["1&a", ["1 1& 1a"]],
    ["1&2,3&4", ["1 1& 2", "3 3& 4"]],
  ])("%s names each of its points", (text, named) => expect(points(text)).toEqual(named));

  test("are the whole span to the clock and to other moves, and print as written", () => {
    expect(places(one("- 1-6: Walk\n  7&8: Coaster"))).toEqual(["1-6 at 0 for 6", "7&8 at 6 for 2"]);
    expect(errors(one("- 7&8: Coaster\n  7e: Clap"))).toEqual(["overlap 9"]);
    expect(errors(one("- 7&8: Coaster\n  8: Clap"))).toEqual(["overlap 9"]);
    // What starts after its last point within that count trims it, as it does everything else.
    expect(places(one("- 7&8: Coaster\n  8&: Clap"))).toEqual(["7&8 at 6 for 3/2", "8& at 15/2 for 1/2"]);
    expect(["7&8", "8&1", "1-3", "5", "3&"].map(tellsLength)).toEqual([true, true, true, false, false]);
  });

  test("run on into the next phrase", () =>
    expect(places(one("- 8&1: Shuffle\n- 2-8: Walk"))).toEqual(["8&1 at 7 for 2", "2-8 at 9 for 7"]));

  test("have a foot for each point, where there is a list of feet", () => {
    const step = (feet: string) => errors(one(`- 7&8: { do: Coaster, step: ${feet} }`));
    expect(step("[left, right, left]")).toEqual([]);
    expect(step("left")).toEqual([]);
    expect(step("[left, right]")).toEqual(["steps 8"]);
    expect(errors(one("- 1-2: { do: Walk, step: [left, right, left] }"))).toEqual([]);
    expect(said(one("- 7&8: { do: Coaster, step: [left, right] }"))).toContain(
      "3 points (7, 7&, 8) and `step` has 2 feet",
    );
  });

  test("leave nothing out and go on in order", () => {
    expect(points("1&3")).toContain("`1-3`");
    expect(points("1a&2")).toContain("`1e&a`");
    expect(points("2&1&2&1")).toContain("more than one phrase");
  });
});

describe("swing", () => {
  const swing = "music: { tempo: 120, feel: swing }";

  test("divides a count once, two thirds past it", () =>
    expect(places(one("- 3: Step\n  3&: Close"), swing)).toEqual(["3 at 2 for 2/3", "3& at 8/3 for 1/3"]));

  test("has no e and no a", () => {
    expect(errors(one("- 3e: A"), swing)).toEqual(["count 8"]);
    expect(errors(one("- 3a: A"), swing)).toEqual(["count 8"]);
    expect(errors(one("- 7a8: A"), swing)).toEqual(["count 8"]);
    expect(wrongPart({ count: 3, part: "a" }, "swing")).toContain("`3&` (two thirds past it)");
  });

  test("may be a phrase's own, and a section's", () => {
    const yaml =
      "sections:\n  - name: A\n    feel: swing\n    counts:\n      - 1&: Clap\n      - { feel: triplet, 1&: Clap, 1a: Stamp }";
    expect(places(yaml)).toEqual(["1& at 2/3 for 1/3", "1& at 25/3 for 1/3", "1a at 26/3 for 1/3"]);
    expect(whole(yaml).sections[0]?.phrases.map(({ feel }) => feel)).toEqual(["swing", "triplet"]);
  });

  test("holds for the part of a span that stands in its phrase", () => {
    // 8& is half past in straight; the 1& that it runs on to is two thirds past in swing, and what comes after trims there.
    const yaml = one("- 8&-1: Slide\n- { feel: swing, 1&: Clap }");
    expect(places(yaml)).toEqual(["8&-1 at 15/2 for 7/6", "1& at 26/3 for 1/3"]);
    expect(errors(one("- 8-1a: Slide\n- { feel: swing, 2-8: Walk }"))).toEqual(["count 8"]);
    expect(errors(one("- { feel: swing, 8-1a: Slide }\n- 2-8: Walk"))).toEqual([]);
  });
});

describe("a triplet section that never uses `a`", () => {
  const notes = (counts: string, feel: string) =>
    readKeys(one(counts), `music: { tempo: 100, feel: ${feel} }`).findings.filter(
      ({ rule }) => rule === "triplet-or-swing",
    ).length;

  test("is asked whether swing is meant", () => {
    expect(notes("- 1&: Close", "triplet")).toBe(1);
    expect(notes("- 1&2: Shuffle", "triplet")).toBe(1);
    expect(notes("- 1&: Close\n- 1a: Close", "triplet")).toBe(0);
    expect(notes("- 1-8: Walk", "triplet")).toBe(0);
    expect(notes("- 1&: Close", "swing")).toBe(0);
    expect(notes("- { feel: swing, 1&: Close }", "triplet")).toBe(0);
  });
});

describe("what is printed of a feel", () => {
  test("is named where it is not as around it", () => {
    const routine = whole(
      "sections:\n  - name: A\n    feel: swing\n    counts:\n      - 1-8: Walk\n      - { feel: triplet, 1-8: Walk }\n  - name: B\n    counts: [{ 1-8: Walk }]",
    );
    const texts = routine.sections.map((section) => feelTexts(routine, section, wordingOf("en")));
    expect(texts).toEqual([["swung", "phrase 2 in triplets"], []]);
  });
});

describe("counts that are spelt another way are answered with how they are written here", () => {
  test.each([
    ["1 e & a 2", "`1e&a2`"],
    ["1 & 2", "`1&2`, or `1,2`"],
    ["1 and 2", "`1&2`, or `1,2`"],
    ["7 + 8", "`7&8`"],
    ["1 & a", "`1&a`"],
    ["3 and", "`3&`"],
    ["3 ah", "`3a`"],
    ["7and8", "`7&8`"],
    ["1 2 3 4", "`1-4` for one that lasts over them, or `1,2,3,4`"],
    ["5/6", "`5-6`"],
    ["1 & 2 & 3 & 4", "`1&2&3&4`"],
  ])("%s", (text, meant) => expect(points(text)).toContain(meant));

  test("and what can't be guessed with what a count is", () => expect(points("1st")).toContain("is not a count"));
});

test("half a count in decimals is offered as the half that is called, beside what else it could be", () => {
  expect(points("1.5")).toContain("`1&` for one that begins half a count after 1");
  expect(points("1.5")).toContain("`1-5` for one that lasts over them");
  expect(points("1.4")).not.toContain("&");
});
