/// <reference lib="dom" />

import { expect, test } from "vitest";
import { track } from "../../../templates/script/practice/track.js";

/** As much of an audio element as is asked where no file is open. */
const audio = () => ({ currentTime: 0, preservesPitch: false }) as HTMLAudioElement;

test("where the first count falls is as published, and moves with what the learner says", () => {
  const own = track(audio(), "night-ferry", 14.2);
  expect(own.firstCount()).toBe(14.2);
  own.nudge(0.25);
  expect(own.firstCount()).toBe(14.45);
});

test("of a routine that does not say it, it is not known until the learner has said it", () => {
  const sound = audio();
  const own = track(sound, "night-ferry", null);
  expect(own.firstCount()).toBeUndefined();
  // What sounds 20 s into the file is 8 s into the routine.
  sound.currentTime = 20;
  own.alignTo(8);
  expect(own.firstCount()).toBe(12);
});
