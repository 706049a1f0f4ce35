import { expect, test } from "vitest";
import { clickMidi } from "../../src/publishing/click/midi.js";
import { routineJson } from "../../src/publishing/routine-json.js";
import { readContent } from "../../src/reading/read-content.js";
import type { Routine } from "../../src/routine/routine.js";
import { lowTide } from "../fixtures/low-tide.js";
import { readMidi } from "../fixtures/read-midi.js";
import { timedRoutine } from "../fixtures/timed.js";
import { library } from "../fixtures/written.js";

/*
 * Standard MIDI File 1.0 (MIDI Manufacturers Association), meta event FF 51 03: tempo in microseconds a quarter note, 24 bits;
 * 120 a minute, 500 000 µs, where a file has none. Read back with midi-parser-js.
 */

const steady = (tempo: string, lengths = [8]) =>
  timedRoutine({ firstCount: "0", countIn: 4, sections: [{ tempo, lengths, meeting: "follows" }] });

test.each([
  ["120", 500_000],
  ["60", 1_000_000],
  ["96", 625_000],
  ["87", 689_655],
])("%s counts a minute are %i µs a quarter note", (tempo, microseconds) => {
  expect(readMidi(clickMidi(steady(tempo), library)).tempos).toEqual([{ seconds: 0, microseconds }]);
});

test("the file's first bytes: a header of six bytes, format 1, two tracks, ticks a quarter note", () => {
  // "MThd", length 6, format, tracks, division: all big-endian; bit 15 of the division is 0 for ticks a quarter note.
  expect([...clickMidi(steady("120"), library).subarray(0, 14)]).toEqual([
    77, 84, 104, 100, 0, 0, 0, 6, 0, 1, 0, 2, 0, 96,
  ]);
});

/** A routine long enough to drift, with odd tempos, a wait and a re-sync. */
const long = timedRoutine({
  firstCount: "12.345",
  countIn: 8,
  sections: [
    { tempo: "277/3", lengths: Array.from({ length: 700 }, () => 8), meeting: "follows" },
    { tempo: "133.7", lengths: Array.from({ length: 700 }, () => 6), meeting: { wait: "7.77" } },
    { tempo: "61.333", lengths: Array.from({ length: 300 }, () => 12), meeting: { early: "0.499" } },
  ],
});

const demo = (await readContent("content")).routines;

test.each<[string, Routine]>([
  ["low-tide", lowTide],
  ["12 000 counts", long],
  ...demo.map((one) => [one.slug, one] as [string, Routine]),
])("%s: every section and every accent sounds within 1 ms of routine.json", (_, routine) => {
  const { notes, markers } = readMidi(clickMidi(routine, library));
  const { clicks, sections, music } = routineJson(routine, library, []);
  const countIn = (60 / (sections[0]?.countsPerMinute ?? 60)) * music.countIn;
  const off = (seconds: number, start: number) => Math.abs(seconds - countIn - start);

  expect(notes.length).toBe(music.countIn + routine.counts);
  const danced = notes.slice(music.countIn);
  for (const [index, { start }] of clicks.entries())
    expect(off(danced[index]?.seconds ?? 0, start)).toBeLessThan(0.001);
  expect(danced.map(({ key }) => key === 76)).toEqual(clicks.map(({ accent }) => accent));

  expect(markers.length).toBe(sections.length);
  for (const [index, { start, name }] of sections.entries()) {
    expect(off(markers[index]?.seconds ?? 0, start)).toBeLessThan(0.001);
    expect(markers[index]?.text).toContain(name);
  }
});
