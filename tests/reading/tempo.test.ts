import { expect, test } from "vitest";
import { clickMidi } from "../../src/publishing/click/midi.js";
import { emptyLibrary } from "../../src/reading/read-library.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { sample } from "./sample.js";

const errors = (text: string) =>
  readRoutine(text, "sample", emptyLibrary)
    .findings.filter(({ severity }) => severity === "error")
    .map(({ line, column, message }) => `${line}:${column} ${message}`);

const music = (tempo: string) => sample().replace("tempo: 92", `tempo: ${tempo}`);
const section = (keys: string, tempo = "92") =>
  music(tempo).replace("  - name: Verse\n", `  - name: Verse\n    ${keys}\n`);

test.each([
  ["10"],
  ["1000"],
  ["{ beats-per-minute: 40, beats-per-count: 4 }"],
  ["{ beats-per-minute: 4000, beats-per-count: 4 }"],
  ["{ bars-per-minute: 2.5, beats-per-bar: 4 }"],
  ["{ bars-per-minute: 250, beats-per-bar: 4 }"],
])("the music may go at %s", (tempo) => expect(errors(music(tempo))).toEqual([]));

test.each([
  ["0.000000001", "here is `0.000000001`. Write at least 10."],
  ["9.99", "A tempo lies between 10 and 1000 counts a minute; here is `9.99`. Write at least 10."],
  ["1500", "A tempo lies between 10 and 1000 counts a minute; here is `1500`. Write at most 1000."],
  ["1000.001", "here is `1000.001`"],
  [
    "{ beats-per-minute: 20, beats-per-count: 4 }",
    "20 beats a minute, 4 to a count, make 5 counts a minute, and a tempo lies between 10 and 1000: write at least 40 beats a minute.",
  ],
  ["{ beats-per-minute: 29, beats-per-count: 3 }", "make 9.66 counts a minute, and"],
  ["{ beats-per-minute: 0.001, beats-per-count: 64 }", "make less than 0.01 counts a minute, and"],
  [
    "{ bars-per-minute: 900, beats-per-bar: 60 }",
    "900 bars a minute, 60 counts each, make 54000 counts a minute, and a tempo lies between 10 and 1000: write at most 16.66 bars a minute.",
  ],
])("the music may not go at %s", (tempo, message) => {
  const [found, ...others] = errors(music(tempo));
  expect([others, found?.startsWith("5:10 ")]).toEqual([[], true]);
  expect(found?.toLowerCase()).toContain(message.toLowerCase());
});

test.each([
  ["tempo: 10", "92"],
  ["tempo: 5\n    time: double", "92"],
  ["tempo: 2000\n    time: half", "92"],
  ["time: half", "20"],
  ["time: double", "500"],
])("a section may go at %s to music at %s", (keys, tempo) => expect(errors(section(keys, tempo))).toEqual([]));

test.each([
  ["tempo: 5", "92", "8:12 A tempo lies between 10 and 1000 counts a minute; here is `5`. Write at least 10."],
  [
    "tempo: 15\n    time: half",
    "92",
    "8:12 15 counts a minute make 7.5 counts a minute in half time, and a tempo lies between 10 and 1000: write at least 20, or `time: full`.",
  ],
  [
    "time: double",
    "600",
    "8:11 600 counts a minute make 1200 counts a minute in double time, and a tempo lies between 10 and 1000: write at most 500, or `time: full`.",
  ],
  [
    "tempo: { beats-per-minute: 60, beats-per-count: 4 }\n    time: half",
    "92",
    "8:12 60 beats a minute, 4 to a count, make 7.5 counts a minute in half time, and a tempo lies between 10 and 1000: write at least 80 beats a minute, or `time: full`.",
  ],
])("a section may not go at %s to music at %s", (keys, tempo, message) =>
  expect(errors(section(keys, tempo))).toEqual([message]),
);

test("a click track has an event less or more for its tempo's fractions, and none for its slowness", () => {
  const size = (tempo: string) => {
    const { routine } = readRoutine(music(tempo), "sample", emptyLibrary);
    return routine ? clickMidi(routine, emptyLibrary).length : 0;
  };
  expect([size("10"), size("20"), size("500")]).toEqual(Array(3).fill(size("1000")));
});
