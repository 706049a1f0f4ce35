import { describe, expect, it } from "vitest";
import { countsMarks } from "../../src/publishing/counts-mark.js";
import { fromYaml } from "../fixtures/from-yaml.js";

const file = `levels: [1, 2]
taught: 2
date: 2026-10-02
sections:
  - name: Arrive
    counts:
      - 1-4: Walk in, counterclockwise
        5-6: { do: Turn on the spot, turn: 1 right, options: { 1: Wait } }
        7-8: Clap`;
const marks = (text: string) => Object.fromEntries(countsMarks(fromYaml(text)));
const plain = marks(file);

describe("the mark of a version's counts", () => {
  it("is four letters that copy well, another for each version that dances other counts", () => {
    expect(Object.values(plain)).toEqual([
      expect.stringMatching(/^[3-9A-Y]{4}$/),
      expect.stringMatching(/^[3-9A-Y]{4}$/),
    ]);
    expect(plain[1]).not.toBe(plain[2]);
  });

  it.each([
    ["a word", "Clap", "Snap"],
    ["a count", "7-8: Clap", "7: Clap"],
    ["a hit", "7-8: Clap", "7-8: { do: Clap, hit: true }"],
    ["a caution", "7-8: Clap", "7-8: { do: Clap, risk: [jump] }"],
    ["a section's name", "Arrive", "Enter"],
    ["how often it is danced", "name: Arrive", "name: Arrive\n    repeat: 2"],
  ])("changes with %s", (_, before, after) => {
    const other = marks(file.replace(before, after));
    expect(other[1]).not.toBe(plain[1]);
    expect(other[2]).not.toBe(plain[2]);
  });

  it("of one version stays where another's option changes", () => {
    const other = marks(file.replace("1: Wait", "1: Breathe"));
    expect(other[1]).not.toBe(plain[1]);
    expect(other[2]).toBe(plain[2]);
  });

  it("stays where no count changes: a date, a note, gear, tempo", () => {
    const other = file
      .replace("2026-10-02", "2027-01-01\nmusic: { tempo: 61 }\ngear: [{ item: hat, need: optional }]")
      .replace("7-8: Clap", "7-8: { do: Clap, note: Softly }");
    expect(marks(other)).toEqual(plain);
  });
});
