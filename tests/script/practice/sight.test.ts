import { describe, expect, test } from "vitest";
import { playerWording } from "../../../src/wording/player.js";
import { cues, score } from "../../../templates/script/practice/score.js";
import { sightAt } from "../../../templates/script/practice/sight.js";
import { nightFerry } from "../../fixtures/night-ferry.js";
import { published } from "./published.js";

const english = playerWording("en");
const file = published(nightFerry);
const tide = score(file);
const moves = cues(file, tide, { version: "2", otherSide: false, group: "" }, english);
const count = 60 / 92;
const see = (position: number, round: { begins: number; again?: number } = { begins: 0 }, list = moves) => {
  const { next, cue, ...rest } = sightAt(tide, list, round, position);
  return { ...rest, cue: cue?.text, next: next?.text };
};

describe("what there is to see", () => {
  test("in the count-in: its number, and the first cue to come", () => {
    expect(see(-2.5 * count)).toMatchObject({
      state: "count-in",
      count: "6",
      accent: false,
      cue: undefined,
      next: "Lean into an unseen rail, left palm flat on it",
      section: 0,
    });
    expect(see(-9 * count)).toMatchObject({ state: "count-in", count: "" });
  });

  test("on a count: its number, the cue, and the next", () => {
    expect(see(0)).toMatchObject({ state: "count", count: "1", cue: moves[0]?.text, next: moves[1]?.text });
    expect(see(2.99 * count)).toMatchObject({ count: "3", cue: moves[0]?.text });
    expect(see(3 * count)).toMatchObject({ count: "4", cue: "Push off onto the left foot", accent: true });
  });

  test("between two counts the part is named once the move has begun there", () => {
    expect(see(10.2 * count)).toMatchObject({ count: "3", part: "", cue: "Left heel taps" });
    expect(see(10.5 * count)).toMatchObject({ count: "3", part: "&", cue: "Right heel taps" });
    expect(see(11 * count)).toMatchObject({ count: "4", part: "", cue: "Both heels drop" });
  });

  test("in a wait: nothing to dance, then the numbers that lead out of it", () => {
    expect(see(25)).toMatchObject({ state: "wait", count: "", cue: undefined, section: 2 });
    expect(see(43.8 - 60 / 96 + 0.01)).toMatchObject({ state: "wait", count: "8" });
    expect(see(43.8)).toMatchObject({ state: "count", count: "1" });
  });

  test("at the end of a round the first cue of the next is in sight; without one, nothing", () => {
    const inRun = moves.filter(({ section }) => section <= 1);
    const late = 19.5 * count;
    expect(see(late, { begins: 0, again: 0 }, inRun).next).toBe(moves[0]?.text);
    expect(see(late, { begins: 0 }, inRun).next).toBeUndefined();
  });

  test("after the end nothing comes, and it is still the last section", () => {
    const last = tide.sections.length - 1;
    expect(see((tide.sections[last]?.end ?? 0) + 5)).toMatchObject({ section: last, cue: undefined, next: undefined });
  });

  test("a count-in in the middle leads to the count that was asked for", () => {
    const begins = tide.beats[8]?.start ?? 0;
    expect(see(begins - count / 2, { begins })).toMatchObject({ state: "count-in", count: "8", next: "hold" });
    expect(see(begins, { begins })).toMatchObject({ state: "count", count: "1", cue: "hold" });
  });
});
