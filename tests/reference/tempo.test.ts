import { expect, test } from "vitest";
import { routineJson } from "../../src/publishing/routine-json.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { library } from "../fixtures/written.js";

/** The figures of a routine of so many phrases to a tempo as an author writes it. */
function figures(tempo: string, phrase: number, phrases: number) {
  const counts = Array.from({ length: phrases }, () => `      - { 1-${phrase}: Dance on }`).join("\n");
  const text = `---
title: Measure
choreographer: Ines Varga
music: { tempo: ${tempo}, phrase: ${phrase} }
sections:
  - name: All of it
    counts:
${counts}
---
`;
  const { routine, findings } = readRoutine(text, "measure", library);
  if (!routine) throw new Error(findings.map(({ message }) => message).join("\n"));
  return routineJson(routine, library, []);
}

/*
 * Tempo regulations of ballroom and Latin competitions in bars a minute (WDSF Competition Rules, musical tempos, from memory:
 * the middle or an end of each dance's range), with the beats of a bar. Seconds are those of 32 bars: 32 × 60 / bars a minute.
 */
test.each([
  ["Waltz", 29, 3, 87, 66.207],
  ["Tango", 32, 4, 128, 60],
  ["Viennese waltz", 60, 3, 180, 32],
  ["Slow foxtrot", 29, 4, 116, 66.207],
  ["Quickstep", 50, 4, 200, 38.4],
  ["Samba", 51, 2, 102, 37.647],
  ["Cha-cha-cha", 31, 4, 124, 61.935],
  ["Rumba", 26, 4, 104, 73.846],
  ["Paso doble", 60, 2, 120, 32],
  ["Jive", 43, 4, 172, 44.651],
])(
  "%s: %i bars a minute of %i beats are %i counts a minute, and 32 bars last %f s",
  (_, bars, beats, tempo, seconds) => {
    const computed = figures(`{ bars-per-minute: ${bars}, beats-per-bar: ${beats} }`, beats, 32);
    expect(computed.music.countsPerMinute).toBe(tempo);
    expect(computed.counts).toBe(32 * beats);
    expect(computed.seconds).toBe(seconds);
  },
);

/*
 * Country dances are written "8 × 32": eight times through a tune of 32 bars, two steps a bar for a reel or a jig (the
 * convention of Scottish country dance books and recordings; tempos from memory).
 */
test.each([
  ["a reel at 112 steps a minute", "112", 274.286],
  ["a reel at 56 bars a minute", "{ bars-per-minute: 56, beats-per-bar: 2 }", 274.286],
  ["a jig at 120 steps a minute", "120", 256],
])("8 × 32 bars of %s", (_, tempo, seconds) => {
  const computed = figures(tempo, 8, (8 * 32 * 2) / 8);
  expect(computed.counts).toBe(512);
  expect(computed.seconds).toBe(seconds);
});

test("a fast song counted slowly: 184 beats a minute, two to a count, are 92 counts a minute", () => {
  expect(figures("{ beats-per-minute: 184, beats-per-count: 2 }", 8, 1).music.countsPerMinute).toBe(92);
});

/* The table that sound engineers set delays by: one beat in milliseconds, 60 000 / beats a minute, to a tenth (from memory). */
test.each([
  [60, 1000],
  [65, 923.1],
  [70, 857.1],
  [75, 800],
  [80, 750],
  [85, 705.9],
  [90, 666.7],
  [95, 631.6],
  [100, 600],
  [105, 571.4],
  [110, 545.5],
  [115, 521.7],
  [120, 500],
  [125, 480],
  [130, 461.5],
  [135, 444.4],
  [140, 428.6],
  [145, 413.8],
  [150, 400],
  [155, 387.1],
  [160, 375],
  [165, 363.6],
  [170, 352.9],
  [175, 342.9],
  [180, 333.3],
  [185, 324.3],
  [190, 315.8],
  [195, 307.7],
  [200, 300],
])("at %i a minute a beat lasts %f ms", (tempo, milliseconds) => {
  const { clicks } = figures(String(tempo), 8, 2);
  // The table is rounded to a tenth of a millisecond, the figure to a whole one.
  expect(Math.abs((clicks[1]?.start ?? 0) - milliseconds / 1000)).toBeLessThanOrEqual(0.00055 + 1e-9);
  // Ten beats further a rounding of each beat would have added up.
  expect(Math.abs((clicks[11]?.start ?? 0) - (11 * 60) / tempo)).toBeLessThanOrEqual(0.0005 + 1e-9);
});
