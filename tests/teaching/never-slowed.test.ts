import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planText } from "../../src/publishing/plan-text.js";
import type { Risk } from "../../src/routine/vocabulary.js";
import type { ActivityStep } from "../../src/teaching/class-plan.js";
import { planClass } from "../../src/teaching/plan.js";
import { en } from "../../src/wording/en.js";
import { runs } from "../runs.js";
import { library, libraryWith, routineOf, type Step, saidIn, stepsOf, workshopOf } from "./builder.js";

const slow = ({ speed }: ActivityStep) => speed < 100;
const plain = { "3-4": "Walk away", "5-6": "Turn the head", "7-8": "Wait" };
const lifted = (easier?: { readonly text: string }) =>
  routineOf({
    tempo: 100,
    sections: [
      {
        name: "Up",
        phrases: [{ "1-2": { do: "Lift her", risks: ["lift"], ...(easier && { easier: {} }) }, ...plain }],
      },
      { name: "Home", phrases: [{ "1-4": "Walk home", "5-8": "Bow" }] },
    ],
  });

describe("a lift", () => {
  test("without an easier option: slow runs have the way in and the way out, and it comes at full tempo before the drill", () => {
    const plan = planClass(workshopOf([lifted()], 30), library);
    for (const one of stepsOf(plan).filter(slow))
      expect([one.kind, one.load, one.cautions]).toEqual([one.kind, {}, []]);
    const marks = saidIn(plan, ({ kind, sections }) => kind === "mark" && sections.includes("Up"));
    expect(marks.length).toBeGreaterThan(0);
    for (const mark of marks)
      expect(mark).toContain("Not slowed: of “Lift her” (1–2) only the way in and the way out.");
    const up = stepsOf(plan)
      .filter(({ sections }) => sections.join() === "Up")
      .map(({ kind, speed }) => [kind, speed]);
    const alone = up.findIndex(([kind, speed]) => kind === "detail" && speed === 100);
    expect(alone).toBeGreaterThan(0);
    expect(up.findIndex(([kind, speed]) => kind === "drill" && speed === 100)).toBeGreaterThan(alone);
    expect(saidIn(plan, ({ kind }) => kind === "detail")[0]).toMatch(
      /“Lift her” \(1–2\)\. Have ready: partner and spotter/,
    );
  });

  test("with one: it is danced below full tempo", () => {
    const marks = saidIn(planClass(workshopOf([lifted({ text: "Walk" })], 30), library), ({ kind }) => kind === "mark");
    expect(marks[0]).toContain("Not slowed: in place of “Lift her” (1–2) dance “Walk”.");
  });

  test("the plan counts them, and keeps to its own default by leaving some out", () => {
    const plan = planClass(workshopOf([lifted()], 60), library);
    const said = planText(plan, en).summary.join(" ");
    expect(plan.load.taught.lift).toBeLessThanOrEqual(12);
    expect(said).toContain(`at full tempo or not at all, in the whole class: lift ${plan.load.taught.lift} times.`);
    expect(said).toContain(
      "Lift: our planning default is 12 a class, which is no safety figure; 15 at level 2, brought to 12",
    );
    const strict = planClass(workshopOf([lifted()], 60), libraryWith({ limits: { lift: "3" } }));
    // Once alone, once in the first drill at full tempo, and once in a run-through stay, whatever the limit is.
    expect(strict.load.taught.lift).toBe(3);
    expect(strict.limits).toMatchObject([{ part: "lift", limit: 3, after: 3, kept: true }]);
    expect(stepsOf(strict).some(({ spared = 0 }) => spared > 0)).toBe(true);
    expect(saidIn(strict, ({ spared = 0 }) => spared > 0)[0]).toContain(
      "leave out what is never slowed, for the limit's sake",
    );
  });

  test("an option that marking dances in its place has been shown by then", () => {
    const kinds = (of: ReturnType<typeof lifted>) =>
      stepsOf(planClass(workshopOf([of], 30), library)).flatMap(({ kind, sections }) =>
        sections.join() === "Up" && ["mark", "options"].includes(kind) ? [kind] : [],
      );
    expect(kinds(lifted({ text: "Walk" }))).toEqual(["options", "mark"]);
  });

  test("at full tempo it goes in turns, since there are not spotters for everybody at once", () => {
    const plan = planClass(workshopOf([lifted()], 30), library);
    expect(saidIn(plan, ({ kind }) => kind === "detail")[0]).toContain(
      "in turns, as many at once as there are spotters",
    );
    for (const said of saidIn(plan, ({ kind, speed }) => kind === "mark" || speed < 100))
      expect(said).not.toContain("in turns");
  });

  test("no advice to teach an easier level where that has as many", () => {
    const both = planClass(workshopOf([lifted()], 30), libraryWith({ limits: { lift: "1" } }));
    expect(planText(both, en).summary.join(" ")).toContain("Teach less: the easiest level has as many.");
    const easier = planClass(workshopOf([lifted({ text: "Walk" })], 30), libraryWith({ limits: { lift: "1" } }));
    expect(planText(easier, en).summary.join(" ")).toContain("Teach an easier level, or less.");
  });
});

/** Risks whose moves are never slowed, as the class is asked for them. */
const unslowed: readonly Risk[] = ["lift", "jump", "inversion", "floor-drop", "climb", "throw"];

test("nothing that is never slowed is danced below full tempo, whatever a routine has", () => {
  const anyMove = fc.record({
    risks: fc.subarray<Risk>([...unslowed, "spin"], { maxLength: 2 }),
    easier: fc.option(fc.record({ risks: fc.subarray<Risk>(["jump", "spin"]) }), { nil: undefined }),
    words: fc.integer({ min: 0, max: 9 }),
  });
  const anySection = fc
    .array(anyMove, { minLength: 2, maxLength: 4 })
    .map((moves) =>
      Object.fromEntries(
        moves.map(({ words, easier, risks }, at): [string, Step] => [
          `${2 * at + 1}-${2 * at + 2}`,
          { do: `Move ${words}`, risks, ...(easier && { easier }) },
        ]),
      ),
    );
  const anyClass = fc.tuple(fc.array(anySection, { minLength: 1, maxLength: 4 }), fc.integer({ min: 5, max: 90 }));
  fc.assert(
    fc.property(anyClass, fc.constantFrom("1", "2"), ([sections, minutes], level) => {
      const routine = routineOf({
        tempo: 90,
        sections: sections.map((phrase, at) => ({ name: `Section ${at}`, phrases: [phrase] })),
      });
      const plan = planClass(workshopOf([routine], minutes, { level }), library);
      for (const one of stepsOf(plan).filter(slow)) {
        expect(one.cautions.filter((risk) => unslowed.includes(risk))).toEqual([]);
        for (const part of ["lift", "jump", "inversions", "floor-drop", "climb", "throw"] as const)
          expect([one.load[part], one.easiest[part]]).toEqual([undefined, undefined]);
      }
      for (const { part, after, limit, kept } of plan.limits) {
        expect(kept).toBe(after <= limit);
        expect(after).toBe(plan.load.taught[part] ?? 0);
      }
    }),
    { numRuns: runs(40) },
  );
});
