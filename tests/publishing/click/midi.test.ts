import fc from "fast-check";
import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { clickMidi } from "../../../src/publishing/click/midi.js";
import { lowTide } from "../../fixtures/low-tide.js";
import { readMidi } from "../../fixtures/read-midi.js";
import { closedFormula, type Timed, timed, timedRoutine } from "../../fixtures/timed.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

const microsecond = 0.000_001;

/** Largest distance, in seconds, between the clicks in the file and where they must be. */
function drift(given: Timed): number {
  const { notes } = readMidi(clickMidi(timedRoutine(given), library));
  const { counts } = closedFormula(given);
  const origin = new Fraction(60).mul(given.countIn).div(given.sections[0]?.tempo ?? 1);
  const due = counts.map(({ start }) => start.add(origin).valueOf());
  expect(notes.length).toBe(given.countIn + counts.length);
  return Math.max(...due.map((seconds, index) => Math.abs(seconds - (notes[given.countIn + index]?.seconds ?? 0))));
}

test("every count sounds within a tenth of a millisecond of its exact time, whatever the tempos, waits and re-syncs", () => {
  fc.assert(fc.property(timed, (given) => drift(given) <= 0.000_1 + microsecond));
});

test("accents differ from other counts in key and velocity, and the count-in has none", () => {
  fc.assert(
    fc.property(timed, (given) => {
      const { notes } = readMidi(clickMidi(timedRoutine(given), library));
      const { counts } = closedFormula(given);
      const heard = notes.map(({ key, velocity, channel }) => `${channel} ${key} ${velocity}`);
      const wanted = [
        ...Array.from({ length: given.countIn }, () => "9 77 80"),
        ...counts.map(({ accent }) => (accent ? "9 76 120" : "9 77 80")),
      ];
      expect(heard).toEqual(wanted);
    }),
  );
});

test("the count-in goes at the first section's tempo, and the file begins with it", () => {
  const { notes } = readMidi(clickMidi(lowTide, library));
  const each = 60 / 92;
  for (const index of [0, 1, 2, 3, 4]) expect(notes[index]?.seconds).toBeCloseTo(index * each, 5);
});

test("a wait is silent: nothing sounds between the tag's last count and the re-synced section", () => {
  const { notes, markers, end } = readMidi(clickMidi(lowTide, library));
  const countIn = 4 * (60 / 92);
  // 20 counts at 92, then a wait until 0:58.0 on a track whose first count is at 0:14.2.
  expect(notes[4 + 19]?.seconds).toBeCloseTo(countIn + 19 * (60 / 92), 5);
  expect(notes[4 + 20]?.seconds).toBeCloseTo(countIn + 43.8, 5);
  expect(end).toBeCloseTo(countIn + 63.8, 5);
  expect(markers.map(({ text }) => text)).toEqual([
    "Harbour wall",
    "Tag",
    "Harbour wall again",
    "Harbour wall again, pass 2",
  ]);
  expect(markers[2]?.seconds).toBeCloseTo(countIn + 43.8, 5);
});

test("over twelve thousand counts nothing drifts", () => {
  const eights = (number: number) => Array.from({ length: number }, () => 8);
  const long: Timed = {
    firstCount: "0",
    countIn: 4,
    sections: [
      { tempo: "277/3", lengths: eights(500), meeting: "follows" },
      { tempo: "131.7", lengths: eights(500), meeting: { wait: "61.237" } },
      { tempo: "61.333", lengths: eights(500), meeting: { early: "0.437" } },
    ],
  };
  expect(drift(long)).toBeLessThan(0.000_1 + microsecond);
});

test("a steady routine of an ordinary length has one tempo and no more", () => {
  const given: Timed = {
    firstCount: "0",
    countIn: 4,
    sections: [{ tempo: "92", lengths: Array.from({ length: 20 }, () => 8), meeting: "follows" }],
  };
  // 60 000 000 µs / 92 = 652 173.9 µs a quarter note.
  expect(readMidi(clickMidi(timedRoutine(given), library)).tempos.map(({ microseconds }) => microseconds)).toEqual([
    652_174,
  ]);
});

test("a tempo has 24 bits: counts and waits that are longer take several quarters", () => {
  const given: Timed = {
    firstCount: "0",
    countIn: 2,
    sections: [
      { tempo: "2.5", lengths: [4], meeting: "follows" },
      { tempo: "120", lengths: [8], meeting: { wait: "300" } },
    ],
  };
  expect(drift(given)).toBeLessThan(0.000_1);
  for (const { microseconds } of readMidi(clickMidi(timedRoutine(given), library)).tempos)
    expect(microseconds).toBeLessThan(2 ** 24);
});

test("a wait shorter than half a count belongs to the count before it, so that bars stay whole", () => {
  const given: Timed = {
    firstCount: "0",
    countIn: 4,
    sections: [
      { tempo: "120", lengths: [8], meeting: "follows" },
      { tempo: "120", lengths: [8], meeting: { wait: "0.1" } },
    ],
  };
  const { tempos } = readMidi(clickMidi(timedRoutine(given), library));
  expect(tempos.map(({ microseconds }) => microseconds)).toEqual([500_000, 600_000, 500_000]);
});

test("names keep their accents and the same routine gives the same bytes", () => {
  const routine = danced({ sections: [section("Café à midi – 8", [phrase([move("1-8", "Walk")])])] });
  const file = clickMidi(routine, library);
  expect(readMidi(file).markers[0]?.text).toBe("Café à midi – 8");
  expect(clickMidi(routine, library)).toEqual(file);
});
