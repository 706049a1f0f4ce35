import fc from "fast-check";
import Fraction from "fraction.js";
import { expect, test } from "vitest";
import type { Context, OutFile } from "../../../src/publishing/publisher.js";
import { record as publisher } from "../../../src/publishing/record/publisher.js";
import { routineJson } from "../../../src/publishing/routine-json.js";
import type { Library, Routine } from "../../../src/routine/routine.js";
import { contextOf } from "../../fixtures/context.js";
import { lowTide, lowTideFindings } from "../../fixtures/low-tide.js";
import { closedFormula, timed, timedRoutine } from "../../fixtures/timed.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

function routineRecord(routine: Routine, of: Library, findings: Context["findings"]): OutFile {
  const [file] = publisher.publish(routine, contextOf(of, findings)) as readonly OutFile[];
  if (file === undefined) throw new Error("There is no record.");
  return file;
}

const file = routineRecord(lowTide, library, lowTideFindings);
const record = JSON.parse(String(file.content)) as ReturnType<typeof routineJson>;

/* Figures worked out by hand: a count lasts 60 / 92 s, or 60 / 96 s from 0:58.0 on, which is 43.8 s after the first count. */

test("the routine as a whole", () => {
  expect(file.path).toBe("routines/low-tide/routine.json");
  expect(record).toMatchObject({ slug: "low-tide", title: "Low Tide", choreographer: "Ines Varga" });
  expect(record.music).toEqual({
    countsPerMinute: 92,
    tempoIsEstimate: false,
    phrase: 8,
    accents: [4, 8],
    firstCount: 14.2,
    countIn: 4,
    feel: "straight",
  });
  expect(record).toMatchObject({ counts: 52, seconds: 63.8, taught: "2" });
});

test("its sections as danced", () => {
  expect(record.sections[0]).toMatchObject({
    name: "Harbour wall",
    wall: 1,
    pass: 1,
    mirrored: false,
    counts: 16,
    at: "0",
    start: 0,
    seconds: 10.435,
    trackTime: 14.2,
  });
  expect(record.sections.map(({ at, start, seconds, trackTime }) => [at, start, seconds, trackTime])).toEqual([
    ["0", 0, 10.435, 14.2],
    ["16", 10.435, 2.609, 24.635],
    ["20", 43.8, 10, 58],
    ["36", 53.8, 10, 68],
  ]);
  expect(record.sections.map(({ wait }) => wait)).toEqual([undefined, 30.757, undefined, undefined]);
  expect(record.sections.map(({ mirrored, pass }) => [mirrored, pass])).toEqual([
    [false, 1],
    [false, 1],
    [true, 1],
    [true, 2],
  ]);
});

test("its versions", () => {
  expect(record.versions.map(({ id, kind }) => [id, kind])).toEqual([
    ["1", "level"],
    ["2", "level"],
    ["3", "level"],
    ["seated", "adaptation"],
  ]);
  const [easiest] = record.versions;
  expect(easiest?.gear).toEqual([
    { item: "knee pads", need: "required" },
    { item: "heels", need: "optional" },
  ]);
  expect(easiest?.cautions).toEqual(["floor-drop", "kneework", "heels"]);
  expect(easiest?.load).toEqual({ hands: 6, knees: 6 });
  expect(easiest?.space).toEqual({ width: 0, depth: 2.4 });
  expect(easiest?.end).toEqual({ facing: "left", weight: "both", height: "standing" });
});

test("a move", () => {
  const moves = record.versions[0]?.moves ?? [];
  expect(moves[0]).toMatchObject({
    section: 0,
    phrase: 1,
    on: "1-3",
    at: "0",
    length: "3",
    start: 0,
    seconds: 1.957,
    trackTime: 14.2,
    do: "Lean into an unseen wall, left palm flat against it",
    mirrored: "Lean into an unseen wall, right palm flat against it",
    hold: false,
    hit: false,
    facing: "left",
    weight: "both",
    height: "standing",
  });
  expect(moves.find(({ on }) => on === "3&")).toMatchObject({ at: "21/2", length: "1/2", phrase: 2 });
  expect(moves.find(({ section }) => section === 2)).toMatchObject({
    do: "Lean into an unseen wall, right palm flat against it",
    trackTime: 58,
  });
  expect(moves.find(({ on }) => on === "5-6")).toMatchObject({ turn: 0.25 });
});

test("practice speeds take waits along", () => {
  expect(record.practice.find(({ percent }) => percent === 75)).toEqual({
    percent: 75,
    countsPerMinute: 69,
    seconds: 85.067,
  });
});

test("findings name their place and nothing else", () => {
  const finding = { severity: "warning", rule: "same-foot", message: "…", line: 41, column: 9, file: "x.md" } as const;
  const { file: _, ...published } = finding;
  expect(routineJson(lowTide, library, [finding]).findings).toEqual([published]);
});

test("clicks are the routine's counts, without the count-in", () => {
  expect(record.clicks.length).toBe(52);
  expect(record.clicks[0]).toEqual({
    at: "0",
    start: 0,
    seconds: 0.652,
    trackTime: 14.2,
    number: 1,
    accent: false,
    section: 0,
    phrase: 1,
  });
  expect(record.clicks.slice(0, 8).map(({ accent }) => accent)).toEqual(
    [1, 2, 3, 4, 5, 6, 7, 8].map((number) => number === 4 || number === 8),
  );
});

test("every time is rounded on its own from the exact one, half away from zero, and nothing is summed", () => {
  fc.assert(
    fc.property(timed, (given) => {
      const { counts, starts, end } = closedFormula(given);
      const figures = routineJson(timedRoutine(given), library, []);
      const rounded = (exact: Fraction) => exact.mul(1000).add(1, 2).floor().div(1000).valueOf();
      expect(figures.clicks.map(({ start }) => start)).toEqual(counts.map(({ start }) => rounded(start)));
      expect(figures.clicks.map(({ trackTime }) => trackTime)).toEqual(
        counts.map(({ start }) => rounded(start.add(given.firstCount))),
      );
      expect(figures.sections.map(({ start }) => start)).toEqual(starts.map(rounded));
      expect(figures.seconds).toBe(rounded(end));
    }),
  );
});

test("the same input gives the same bytes, and a field with nothing to say is left out", () => {
  const bare = danced({
    music: { firstCount: new Fraction(0) },
    sections: [section("Walks", [phrase([move("1-8", "Walk")])])],
  });
  const { content } = routineRecord(bare, library, []);
  expect(routineRecord(bare, library, []).content).toBe(content);
  const read = JSON.parse(String(content));
  expect("song" in read || "date" in read || "steps" in read.versions[0].moves[0]).toBe(false);
  // Nobody travels, so nothing is known of the space.
  expect(String(content).replaceAll('"space": null', "")).not.toContain("null");
});
