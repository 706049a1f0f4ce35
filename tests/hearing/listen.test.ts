import { describe, expect, it } from "vitest";
import { readCaptions } from "../../src/hearing/captions.js";
import { listen } from "../../src/hearing/listen.js";
import type { Draft } from "../../src/hearing/types.js";

/** Said words, one every so many seconds from a time on, as captions that time each word. */
function timed(runs: readonly (readonly [start: number, each: number, words: string])[]): string {
  const clock = (at: number) =>
    `00:${String(Math.floor(at / 60)).padStart(2, "0")}:${(at % 60).toFixed(3).padStart(6, "0")}`;
  const cues = runs.map(([start, each, words]) => {
    const said = words.split(" ");
    const [first, ...rest] = said;
    const line = `${first}${rest.map((word, index) => `<${clock(start + (index + 1) * each)}><c> ${word}</c>`).join("")}`;
    return `${clock(start)} --> ${clock(start + said.length * each)}\n${line}\n`;
  });
  return `WEBVTT\n\n${cues.join("\n")}`;
}

function heard(captions: string): Draft {
  const recording = readCaptions(captions);
  const draft = "why" in recording ? recording : listen(recording);
  if ("why" in draft) throw new Error(draft.why);
  return draft;
}

const cues = ({ sections }: Draft) =>
  sections.flatMap(({ phrases }) =>
    phrases.map(({ moves }) => Object.fromEntries(moves.map(({ on, cue }) => [on, cue]))),
  );

const countIn = "five six seven eight";

describe("listening", () => {
  it("lays words behind their numbers on them", () => {
    const call = "one step two touch three step four touch five slide six seven clap eight hold";
    const draft = heard(
      timed([
        [5, 0.7, countIn],
        [7.8, 0.35, call],
        [20, 0.7, countIn],
        [22.8, 0.35, call],
      ]),
    );
    expect(cues(draft)).toEqual([{ 1: "step", 2: "touch", 3: "step", 4: "touch", 5: "slide", 7: "clap", 8: "hold" }]);
    expect(draft.sections[0]?.phrases[0]?.moves.every(({ trust }) => trust === "sure")).toBe(true);
    expect(draft).toMatchObject({ phrase: 8, countIn: 4, runs: [{ phrases: [0] }, { phrases: [0] }] });
  });

  it("lays words in the place of numbers on the counts that are missing", () => {
    const call = "step together drag four kick back clap eight reach two pull four sway six look snap";
    const draft = heard(
      timed([
        [5, 0.7, countIn],
        [7.8, 0.7, call],
        [30, 0.7, countIn],
        [32.8, 0.7, call],
      ]),
    );
    expect(cues(draft)).toEqual([
      { 1: "step", 2: "together", 3: "drag", 5: "kick", 6: "back", 7: "clap" },
      { 1: "reach", 3: "pull", 5: "sway", 7: "look", 8: "snap" },
    ]);
  });

  it("hears numbers where captions write other words, and none in talk", () => {
    const call = "step to drag for kick six clap ate";
    const talk = "do that four times at home and one more time for me and I have three of these";
    const draft = heard(
      timed([
        [2, 0.4, talk],
        [15, 0.7, "5678"],
        [17.8, 0.7, call],
        [30, 0.7, countIn],
        [32.8, 0.7, call],
      ]),
    );
    expect(cues(draft)).toEqual([{ 1: "step", 3: "drag", 5: "kick", 7: "clap" }]);
    expect(draft.runs).toHaveLength(2);
  });

  it("asks where she doubts, and believes her where she takes it back", () => {
    const call = "step two drag four kick six clap eight";
    const runs = [
      [5, 0.7, countIn],
      [7.8, 0.7, call],
      [20, 0.7, countIn],
      [22.8, 0.7, call],
    ] as const;
    const doubted = heard(timed([...runs, [32, 0.4, "the clap is on seven I think maybe it's on six"]]));
    expect(doubted.sections[0]?.phrases[0]?.moves.at(-1)).toMatchObject({ on: "7", cue: "clap", trust: "likely" });
    const settled = heard(
      timed([...runs, [32, 0.4, "I think the clap is on six"], [40, 0.4, "no sorry the clap is on seven"]]),
    );
    expect(settled.sections[0]?.phrases[0]?.moves.at(-1)).toMatchObject({ on: "7", cue: "clap", trust: "sure" });
  });

  it("hears what is needed, how it starts and what hits", () => {
    const call = "step two drag four kick six clap eight";
    const draft = heard(
      timed([
        [1, 0.4, "you need knee pads and a scarf is optional"],
        [6, 0.4, "we start facing the left and the weight is on the right"],
        [14, 0.7, countIn],
        [16.8, 0.7, call],
        [26, 0.4, "the four and the eight hit"],
        [32, 0.7, countIn],
        [34.8, 0.7, call],
      ]),
    );
    expect(draft.gear.map(({ item, need }) => [item, need])).toEqual([
      ["knee pads", "required"],
      ["scarf", "optional"],
    ]);
    expect(draft.start).toMatchObject({ facing: { value: "left" }, weight: { value: "right" } });
    expect(draft.accents.counts).toEqual([4, 8]);
  });

  it("says so where nothing was counted", () => {
    expect(() => heard("[0:01] hello everybody and welcome\n[0:05] I will count next week")).toThrow("no-counts");
  });
});
