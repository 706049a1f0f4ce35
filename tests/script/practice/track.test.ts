/// <reference lib="dom" />

import fc from "fast-check";
import { afterEach, describe, expect, test, vi } from "vitest";
import { alignedTo, placeOn, positionOn, recall, remember } from "../../../templates/script/practice/own-copy.js";
import { layOut, type Wish } from "../../../templates/script/practice/schedule.js";
import type { Score } from "../../../templates/script/practice/score.js";
import { clicksOn, track } from "../../../templates/script/practice/track.js";
import { runs } from "../../runs.js";

/** Eight counts of half a second, three seconds without counts, and eight counts again. */
const score: Score = {
  countIn: 2,
  phrase: 8,
  sections: [
    { name: "Bell", start: 0, end: 4, at: 0, counts: 8, count: 0.5, uncounted: false },
    { name: "Fog", start: 4, end: 7, at: 8, counts: 0, count: 0, uncounted: true },
    { name: "Buoy", start: 7, end: 11, at: 8, counts: 8, count: 0.5, uncounted: false },
  ].map((section) => ({ ...section, wall: 1, pass: 1, mirrored: false })),
  beats: [0, 2].flatMap((section) =>
    Array.from({ length: 8 }, (_, i) => ({
      start: (section === 0 ? 0 : 7) + i / 2,
      number: i + 1,
      label: String(i + 1),
      accent: i === 7,
      section,
      opens: i === 0,
    })),
  ),
};
const wish: Wish = { from: 0, to: 2, loops: false, countInAgain: false };
const whole = layOut(score, wish);

/** As much of an audio element as is asked where no file is open and nothing sounds. */
const audioOf = () =>
  ({
    currentTime: 0,
    playbackRate: 1,
    preservesPitch: false,
    paused: true,
    ended: false,
    play: async () => {},
  }) as HTMLAudioElement;

afterEach(() => {
  vi.unstubAllGlobals();
});

const sounding = (audio: HTMLAudioElement) => ({ audio, element: () => audio, change: () => {} });

describe("where the first count falls", () => {
  test("is as published, moves with what the learner says, and is as published again once that is forgotten", () => {
    const own = track(sounding(audioOf()), "night-ferry", 14.2, whole);
    expect(own.copy()).toEqual({ first: 14.2, stretch: 1 });
    own.nudge(0.25);
    expect(own.copy()?.first).toBe(14.45);
    expect(own.isLaid()).toBe(true);
    own.forget();
    expect([own.copy()?.first, own.isLaid()]).toEqual([14.2, false]);
  });

  test("is not known of a routine that does not say it, until the learner has said it", () => {
    const sound = audioOf();
    const own = track(sounding(sound), "night-ferry", null, whole);
    expect(own.copy()).toBeUndefined();
    // What sounds 20 s into the file is 8 s into the routine.
    sound.currentTime = 20;
    own.alignTo(8);
    expect(own.copy()?.first).toBe(12);
  });
});

test("a device remembers how a file lies, against what was published, and what it remembers from before files had a tempo", () => {
  const kept = new Map<string, string>();
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => kept.set(key, text),
    removeItem: (key: string) => kept.delete(key),
  });
  remember("ferry", 14, { first: 10.5, stretch: 1.25 });
  expect(recall("ferry", 14)).toEqual({ first: 10.5, stretch: 1.25 });
  // The routine is published anew, half a second later.
  expect(recall("ferry", 14.5)).toEqual({ first: 11, stretch: 1.25 });
  remember("ferry", 14, undefined);
  expect(recall("ferry", 14)).toBeUndefined();
  kept.set("old", "-2.5");
  expect(recall("old", 14)).toEqual({ first: 11.5, stretch: 1 });
  vi.unstubAllGlobals();
});

describe("a copy of another tempo", () => {
  const copies = fc.record({
    first: fc.double({ min: -5, max: 60, noNaN: true }),
    stretch: fc.double({ min: 0.7, max: 1.4, noNaN: true }),
  });
  const positions = fc.double({ min: -10, max: 600, noNaN: true });

  test("has a place for every position and a position for every place, and goes through the one that it is aligned to", () => {
    fc.assert(
      fc.property(copies, positions, positions, (copy, position, place) => {
        expect(positionOn(copy, placeOn(copy, position))).toBeCloseTo(position, 9);
        const aligned = alignedTo(copy, position, place);
        expect(placeOn(aligned, position)).toBeCloseTo(place, 9);
        expect(placeOn(aligned, position + 1) - placeOn(aligned, position)).toBeCloseTo(copy.stretch, 9);
      }),
      { numRuns: runs(400) },
    );
  });

  // A copy at four fifths of the tempo: a second of the routine is 1.25 s of it. Its first count is at 10 s.
  const slow = { first: 10, stretch: 1.25 };

  test("is played from its own places: the count-in, a change of speed at its next count, the wait at full speed, the end", async () => {
    const sound = audioOf();
    const own = track(sounding(sound), "night-ferry", 3, whole);
    own.lay(slow);
    await own.start(whole, 60);
    // Two counts of 0.5 s before the first, each 0.625 s of the copy.
    expect(sound.currentTime).toBeCloseTo(10 - 1.25, 9);
    const at = (place: number) => {
      sound.currentTime = place;
      own.wake();
      return { rate: sound.playbackRate, position: own.where()?.position ?? Number.NaN, over: own.where()?.over };
    };
    expect(at(11.25)).toEqual({ rate: 0.6, position: 1, over: false });
    own.setSpeed(80);
    // The next count is 1.5 s into the routine: 11.875 s into the copy.
    expect(at(11.87).rate).toBe(0.6);
    expect(at(11.88).rate).toBe(0.8);
    // Without counts from 15 s on, and counted in from a second of the routine before 18.75 s.
    expect(at(14.99).rate).toBe(0.8);
    expect(at(15.01).rate).toBe(1);
    expect(at(17.49).rate).toBe(1);
    expect(at(17.51).rate).toBe(0.8);
    // 11 s of the routine end at 23.75 s.
    expect(at(23.7).over).toBe(false);
    expect(at(23.75).over).toBe(true);
  });

  test("goes round in its own places", async () => {
    const sound = audioOf();
    const own = track(sounding(sound), "night-ferry", 3, whole);
    own.lay(slow);
    await own.start(layOut(score, { ...wish, from: 2, loops: true }), 100);
    sound.currentTime = 23.75;
    own.wake();
    expect(sound.currentTime).toBeCloseTo(10 + 7 * 1.25, 9);
    expect(own.where()).toMatchObject({ round: 1, position: 7, leadsTo: 7 });
  });

  test("has its clicks where its counts are: the count-in, the counts, the accents, and nothing in time without counts", () => {
    const all = clicksOn(slow, whole, 0, 0, 100);
    // 2 counts in, 8, 2 within the time without counts that lead to the others, 8.
    const counts = Array.from({ length: 8 }, (_, i) => ({ at: i * 0.625, sound: i === 7 ? "accent" : "count" }));
    expect(all).toEqual([
      { at: 8.75, sound: "count-in" },
      { at: 9.375, sound: "count-in" },
      ...counts.map(({ at, sound }) => ({ at: 10 + at, sound })),
      { at: 17.5, sound: "count-in" },
      { at: 18.125, sound: "count-in" },
      ...counts.map(({ at, sound }) => ({ at: 18.75 + at, sound })),
    ]);
    expect(clicksOn(slow, whole, 0, 10, 10.625)).toEqual([{ at: 10, sound: "count" }]);
    // Where nobody knows the first count there is nothing to click.
    expect(clicksOn(undefined, whole, 0, 0, 100)).toEqual([]);
    // A later round without a count-in has none.
    const again = layOut(score, { ...wish, to: 0, loops: true });
    expect(clicksOn(slow, again, 1, 0, 100).map(({ sound }) => sound)).toEqual(counts.map(({ sound }) => sound));
  });
});
