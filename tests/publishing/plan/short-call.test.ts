import { expect, test } from "vitest";
import { shortCall } from "../../../src/wording/en/short-call.js";

/* Three words a count at the most: common practice, no source. Each line cut by hand. */
test.each([
  ["Fold", 1, "Fold"],
  ["Walk to the back and turn", 4, "Walk to the back and turn"],
  ["Draw the arms up, elbows last", 1, "Draw arms up"],
  ["Palms meet overhead, weight on both feet", 1, "Palms meet overhead"],
  ["Breathe in and lift the right hand past the face", 1, "Breathe in"],
  ["Step back on the left foot, chin to the chest", 1, "Step back left"],
  ["Quarter turn left onto the left foot", 1, "Quarter turn left"],
  ["Left foot plants in front, both hands on the thigh", 1, "Left plants front"],
  ["Right foot crosses behind", 1, "Right crosses behind"],
  ["Left toes draw a half circle round behind you", 2, "Left toes draw half round behind"],
  ["The left knee swings across the right", 1, "Left swings across"],
  ["Snap the fingers of the hand", 0.5, "Snap"],
])("“%s” in %d counts is called “%s”", (cue, counts, call) => {
  expect(shortCall(cue, counts)).toBe(call);
  const words = call.split(" ").length;
  expect(words).toBeLessThanOrEqual(Math.max(1, counts * 3));
});
