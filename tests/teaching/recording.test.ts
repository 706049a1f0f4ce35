import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dance } from "../../src/routine/dance.js";
import type { Routine } from "../../src/routine/routine.js";
import { planRecording } from "../../src/teaching/recording.js";
import { en } from "../../src/wording/en.js";
import { routines } from "../fixtures/arbitrary.js";
import { runs } from "../runs.js";
import { library, libraryWith, routineOf } from "./builder.js";

describe("a recording day", () => {
  /*
   * 60 counts a minute, a count a second, count-in 4 s. A has two moves (2 points) and an option of 4 counts for level 1,
   * B two moves. Each take is as long as it takes, rounded up to 5 s.
   */
  const sections = [
    { name: "A", phrases: [{ "1-4": { do: "Reach", easier: {} }, "5-8": "Fold" }] },
    { name: "B", phrases: [{ "1-4": "Sway", "5-8": "Settle" }] },
  ];
  const plan = planRecording(routineOf({ tempo: 60, sections }), library);

  test("its takes, by hand", () => {
    expect(plan.takes.map(({ kind, speed, seconds, camera }) => [kind, speed, seconds, camera])).toEqual([
      ["welcome", undefined, 40, "front"], // 2 × 20: the title, the levels
      ["show", 100, 20, "front"], // 4 + 16
      ["explain", 50, 35, "behind"], // (4 + 8) ÷ 0.5 + 2 × 5 = 34
      ["options", 50, 15, "close"], // 4 ÷ 0.5 + 5 = 13
      ["follow", 60, 20, "behind"], // 12 ÷ 0.6
      ["follow", 100, 15, "behind"], // 12
      ["explain", 50, 35, "behind"],
      ["follow", 60, 20, "behind"],
      ["follow", 100, 15, "behind"],
      ["link", 75, 30, "behind"], // (4 + 16) ÷ 0.75 = 26.7
      ["from-the-top", 75, 30, "behind"],
      ["from-the-top", 100, 20, "behind"],
      ["mirrored", 75, 30, "front"],
      ["mirrored", 100, 20, "front"],
      ["goodbye", undefined, 20, "front"], // no credit to name
    ]);
    expect(plan.videoSeconds).toBe(365);
    // Every take twice, and the camera placed three times at 60 s.
    expect(plan.daySeconds).toBe(2 * 365 + 3 * 60);
  });

  test("every take is shot from one place of the camera, in the order of the video", () => {
    expect(plan.setups).toEqual([
      { camera: "front", takes: [1, 2, 13, 14, 15], seconds: 60 + 2 * 130 },
      { camera: "behind", takes: [3, 5, 6, 7, 8, 9, 10, 11, 12], seconds: 60 + 2 * 220 },
      { camera: "close", takes: [4], seconds: 60 + 2 * 15 },
    ]);
  });

  test("the teacher's load counts every take", () => {
    const kneeling = [{ name: "A", phrases: [{ "1-8": { do: "Kneel", contacts: ["knees"] as const } }] }];
    const { load, takes } = planRecording(
      routineOf({ tempo: 60, sections: kneeling }),
      libraryWith({ recording: { takes: "3" } }),
    );
    const danced = takes.filter(({ speed }) => speed !== undefined).length;
    expect(danced).toBe(8);
    expect(load).toEqual({ knees: 3 * danced });
  });
});

test("any routine: the takes follow each other, and nothing is followed before it is explained", () => {
  const any = routines()
    .map((written) => dance(written, library).routine)
    .filter((routine): routine is Routine => routine !== undefined);
  fc.assert(
    fc.property(any, (routine) => {
      const { takes, setups, videoSeconds } = planRecording(routine, library);
      let clock = 0;
      for (const take of takes) {
        expect(take.start).toBe(clock);
        clock += take.seconds;
      }
      expect(clock).toBe(videoSeconds);
      expect(setups.flatMap((setup) => setup.takes).toSorted((a, b) => a - b)).toEqual(
        takes.map(({ number }) => number),
      );
      const explained = new Set<string>();
      for (const { kind, names, sections } of takes) {
        if (kind === "explain") explained.add(sections.join());
        if (kind === "follow") expect(explained.has(sections.join()), names.map(en.plan.danced).join()).toBe(true);
      }
    }),
    { numRuns: runs(30) },
  );
});
