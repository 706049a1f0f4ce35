import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { takesText } from "../../src/publishing/plan/takes-text.js";
import { readContent } from "../../src/reading/read-content.js";
import { dance } from "../../src/routine/dance.js";
import type { Routine } from "../../src/routine/routine.js";
import { planClass } from "../../src/teaching/plan.js";
import { planRecording } from "../../src/teaching/recording.js";
import { en } from "../../src/wording/en.js";
import { routines } from "../fixtures/arbitrary.js";
import { fromYaml } from "../fixtures/from-yaml.js";
import { runs } from "../runs.js";
import { library, libraryWith, routineOf, workshopOf } from "./builder.js";

/*
 * 60 counts a minute, a count a second, count-in 4 s. A has two moves (2 points) and an option of 4 counts for level 1,
 * B two moves. Each is as long as it takes, rounded up to 5 s. A class has 15 s around a show, marking and a run from the top,
 * 10 s around a drill and a link, and 5 s to get back to the place after each run.
 */
const sections = [
  { name: "A", phrases: [{ "1-4": { do: "Reach", easier: {} }, "5-8": "Fold" }] },
  { name: "B", phrases: [{ "1-4": "Sway", "5-8": "Settle" }] },
];
const routine = routineOf({ tempo: 60, sections });
const around = { overhead: { show: 15, mark: 15, drill: 10, link: 10, "from-the-top": 15 } };
const inOneGo = libraryWith(around);
const inTakes = libraryWith({ ...around, recording: { style: "takes" } });

describe("a recording in one go", () => {
  const plan = planRecording(routine, inOneGo);

  test("goes as a class does, with its ways back, by hand", () => {
    expect(plan.takes.map(({ kind, speed, seconds, camera }) => [kind, speed, seconds, camera])).toEqual([
      ["welcome", undefined, 40, "front"], // 4 × 10: the title, no music, the levels, how it starts
      ["show", 100, 40, "front"], // 15 + 4 + 16 + 5
      ["explain", 50, 90, "behind"], // shown 15 + 4 + 8 + 5, marked 15 + 2 × 5 + (4 + 8) ÷ 0.5 + 5: 86
      ["options", undefined, 20, "behind"], // 5 + 4 ÷ 0.5 + 5 = 18
      ["follow", 60, 35, "behind"], // 10 + 12 ÷ 0.6 + 5
      ["follow", 100, 30, "behind"], // 10 + 12 + 5
      ["explain", 50, 90, "behind"],
      ["follow", 60, 35, "behind"],
      ["follow", 100, 30, "behind"],
      ["link", 75, 45, "behind"], // 10 + (4 + 16) ÷ 0.75 + 5 = 41.7
      ["from-the-top", 75, 50, "behind"], // 15 + 20 ÷ 0.75 + 5 = 46.7
      ["from-the-top", 100, 40, "behind"],
    ]);
    expect(plan.videoSeconds).toBe(545);
  });

  test("is recorded once, from one place of the camera", () => {
    expect(plan.setups).toEqual([{ takes: plan.takes.map(({ number }) => number), seconds: 605 }]);
    expect(plan.daySeconds).toBe(605);
  });
});

describe("a recording in takes", () => {
  const plan = planRecording(routine, inTakes);

  test("is what is left when the ways back are cut out, by hand", () => {
    // 20 of 40, 86 - 40, 13, 20, 12; 26.7 of the link and of the slow run.
    expect(plan.takes.map(({ seconds }) => seconds)).toEqual([40, 20, 50, 15, 20, 15, 50, 20, 15, 30, 30, 20]);
    // Every take twice, and the camera placed twice at 60 s.
    expect(plan.setups).toEqual([
      { camera: "front", takes: [1, 2], seconds: 60 + 2 * 60 },
      { camera: "behind", takes: [3, 4, 5, 6, 7, 8, 9, 10, 11, 12], seconds: 60 + 2 * 265 },
    ]);
  });

  test("the teacher's load counts every time that a take is shot", () => {
    const kneeling = [{ name: "A", phrases: [{ "1-8": { do: "Kneel", contacts: ["knees"] as const } }] }];
    const knees = routineOf({ tempo: 60, sections: kneeling });
    // Shown, and shown and marked before it is drilled twice; from the top twice.
    expect(planRecording(knees, library).load).toEqual({ knees: 7 });
    expect(planRecording(knees, libraryWith({ recording: { style: "takes", takes: "3" } })).load).toEqual({
      knees: 21,
    });
  });
});

test("it is danced on the other side only for a film that is danced anew", () => {
  const kinds = (by: string) =>
    planRecording(
      fromYaml(
        `video: { breakdown: "https://e.example/a", breakdown-mirrored: "https://e.example/b"${by} }\nsections: [{ name: A, counts: [{ 1-8: Sway }] }]`,
      ),
      library,
    ).takes.filter(({ kind }) => kind === "mirrored").length;
  expect([kinds(""), kinds(", mirrored-by: danced")]).toEqual([0, 2]);
});

test("a section that is danced again is known, whichever way, and what is the dancers' own is not drilled", () => {
  const again = fromYaml(`music: { tempo: 60, pauses: [6] }
sections:
  - { name: Opening, seconds: 12 }
  - { name: A, counts: [{ 1-4: Step left, 5: Clap, 7-8: Sway right }] }
  - { name: Free, improvised: yes, counts: [{ length: 8 }] }
  - { name: A there, same-as: A, mirrored: yes, time: half }`);
  const { takes } = planRecording(again, inOneGo);
  expect(takes.map(({ kind }) => kind)).toEqual(
    "welcome show uncounted explain follow follow own link known link from-the-top from-the-top goodbye".split(" "),
  );
  // Said to be waited out: as long as it lasts at any speed. 20 + 12 + 5, and 8 + 8 + 16 counts at a second each.
  expect(takes.map(({ kind, seconds }) => kind === "uncounted" && seconds).filter(Boolean)).toEqual([40]);
  const slow = takes.find(({ kind, speed }) => kind === "from-the-top" && speed === 75);
  expect(slow?.seconds).toBe(80); // 15 + 12 + (4 + 32) ÷ 0.75 + 5
  const text = takesText(planRecording(again, inOneGo), again, library);
  expect(text).toContain("“The first part. We call this Opening. It has no counts and lasts 12 seconds.”");
  expect(text).toContain("“Next part. We call this Free. It is yours: dance what you like.”");
  expect(text).toContain(
    "“Next part. We call this A there. You know this: it is A on the other side. It is half-time.”",
  );
  expect(text).toContain("“On the six you do nothing: leave it empty.”");
});

test("each group's calls are its own counts, and an option says whose it is", () => {
  const two = fromYaml(`levels: [1, 2]
groups: [Ebb, Flood]
sections:
  - name: A
    counts: [{ 1-4: hold, 5-8: Sway }]
    parts: { Flood: [{ 1-4: { do: Sway, options: { 2: Leap } }, 5-8: hold }] }`);
  const lines = takesText(planRecording(two, library), two, library)
    .split("\n")
    .map((line) => line.trim());
  expect(lines).toContain("Call, Ebb: 1–4 hold · 5–8 Sway");
  expect(lines).toContain("Call, Flood: 1–4 Sway · 5–8 hold");
  expect(lines.join("\n")).toContain("Level 2 (Flood): 1–4 Leap");
});

test("in one go a video of a demo routine is within a third of the class that teaches it, and says everything once", async () => {
  const { routines: demo, library: shelf } = await readContent("content");
  expect(demo.length).toBeGreaterThan(4);
  for (const one of demo) {
    const plan = planRecording(one, shelf);
    const alone = { level: one.taught };
    const { minutesNeeded } = planClass(workshopOf([one], 60, alone), shelf).fit;
    const { least } = planClass(workshopOf([one], minutesNeeded, alone), shelf).fit;
    expect(Math.abs(plan.videoSeconds - least), one.slug).toBeLessThan(least / 3);
    const said = takesText(plan, one, shelf)
      .split("\n")
      .filter((line) => line.startsWith("   “"));
    expect(new Set(said).size).toBe(said.length);
    expect(said[1]).toContain("There is no music in this video.");
  }
});

test("any routine: the takes follow each other, and nothing is followed before it is explained", () => {
  const any = routines()
    .map((written) => dance(written, library).routine)
    .filter((one): one is Routine => one !== undefined);
  fc.assert(
    fc.property(any, (one) => {
      for (const shelf of [inOneGo, inTakes]) {
        const { takes, setups, videoSeconds } = planRecording(one, shelf);
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
        for (const { kind, names, sections: danced } of takes) {
          if (kind === "explain") explained.add(danced.join());
          if (kind === "follow") expect(explained.has(danced.join()), names.map(en.plan.danced).join()).toBe(true);
        }
      }
    }),
    { numRuns: runs(30) },
  );
});

test("moves that are taken on their own are named", () => {
  const hard = routineOf({
    tempo: 60,
    sections: [{ name: "A", phrases: [{ "1-4": "Walk", "5-8": { do: "Spin", turn: 8 } }] }],
  });
  const shelf = libraryWith({ least: { detail: 1 } });
  const lines = takesText(planRecording(hard, shelf), hard, shelf).split("\n");
  const at = lines.findIndex((line) => line.includes("Hard moves: A, 50 per cent."));
  expect(lines[at + 1]).toBe("   Call: 5–8 Spin");
});
