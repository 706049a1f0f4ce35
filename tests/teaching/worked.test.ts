import { describe, expect, test } from "vitest";
import { planText } from "../../src/publishing/plan-text.js";
import type { ClassPlan } from "../../src/teaching/class-plan.js";
import { planClass } from "../../src/teaching/plan.js";
import { en } from "../../src/wording/en.js";
import { library, libraryWith, routineOf, workshopOf } from "./builder.js";

/** Kind, speed, runs, start and seconds of every activity. */
function lines(plan: ClassPlan): readonly unknown[] {
  return plan.activities.map(({ kind, speed, runs, start, seconds }) =>
    speed === undefined ? [kind, start, seconds] : [kind, speed, runs, start, seconds],
  );
}

describe("one section of eight counts at 60 counts a minute, in ten minutes", () => {
  /*
   * A count is one second. The count-in is half a phrase: 4 counts. Four new moves without turn or drop: 4 points.
   * Each activity is overhead + runs × (count-in + counts at the speed + 5 s to get back), rounded up to 5 s.
   *
   *   show         15 + (4 + 8) + 5                         =  32    into  35
   *   mark         15 + 5 × 4 points + (4 + 8) ÷ 0.50 + 5   =  64    into  65
   *   drill  60 %  10 + (4 + 8) ÷ 0.60 + 5                  =  35    into  35
   *   drill 100 %  10 + (4 + 8) + 5                         =  27    into  30
   *   run-through  20 + (4 + 8) + 5                         =  37    into  40     least: 205 s
   *
   * A single chunk has nothing to link and no top to begin from. Of 600 s, 2 × 120 s are warm-up and cool-down:
   * 360 − 205 = 155 s are left. There is one chunk, so further runs come in the order of worth ÷ (1 + further runs):
   *
   *   run-through 1.5   20 + 2 × 17     =  54    into  55     15 more, 140 left
   *   mark        1.2   15 + 20 + 2 × 29 = 93    into  95     30 more, 110 left
   *   drill  60 % 1     10 + 2 × 25     =  60    into  60     25 more,  85 left
   *   drill  75 % 1     10 + 12 ÷ 0.75 + 5 = 31  into  35     35 more,  50 left
   *   drill  90 % 1     10 + 12 ÷ 0.9 + 5 = 28.3 into  30     30 more,  20 left
   *   drill 100 % 1     10 + 2 × 17     =  44    into  45     15 more,   5 left
   *   away from the mirror 0.8   20 + 17 = 37    into  40     too long: 5 s are free practice
   */
  const only = { name: "Only", phrases: [{ "1-2": "Reach", "3-4": "Fold", "5-6": "Sway", "7-8": "Settle" }] };
  const plan = planClass(
    workshopOf([routineOf({ tempo: 60, sections: [only] })], 10, { warmUp: 2, coolDown: 2 }),
    library,
  );

  test("the running order", () => {
    expect(lines(plan)).toEqual([
      ["warm-up", 0, 120],
      ["show", 100, 1, 120, 35],
      ["mark", 50, 2, 155, 95],
      ["drill", 60, 2, 250, 60],
      ["drill", 75, 1, 310, 35],
      ["drill", 90, 1, 345, 30],
      ["drill", 100, 2, 375, 45],
      ["run-through", 100, 2, 420, 55],
      ["free-practice", 475, 5],
      ["cool-down", 480, 120],
    ]);
    expect(plan.fit).toMatchObject({ fits: true, least: 205, available: 360, short: 0, minutesNeeded: 8 });
  });

  test("the chunk", () => {
    // Danced: mark 2, drills 2 + 1 + 1 + 2, run-through 2; at full tempo 2 + 2.
    expect(plan.chunks).toMatchObject([
      { id: "test/1", points: 4, density: 4, newMoves: 4, runs: 10, fullTempoRuns: 4 },
    ]);
  });

  test("the song is cued up 15 s before the first count at the most", () => {
    const once = libraryWith({ most: { "run-through": "1" } });
    const song = (firstCount: number) => {
      const late = routineOf({ tempo: 60, firstCount, sections: [only] });
      return planClass(workshopOf([late], 10), once).activities.find(({ kind }) => kind === "run-through")?.seconds;
    };
    // 20 + 9 + 8 + 5 = 42; 20 + 15 + 8 + 5 = 48; before a first count at 2 s the count-in of 4 s is longer: 37.
    expect([9, 40, 2].map(song)).toEqual([45, 50, 40]);
  });
});

describe("two sections on the knees, exactly as long as the least", () => {
  /*
   * 120 counts a minute: a count is half a second, the count-in 2 s, a section 4 s, two new moves: 2 points.
   *
   *   show         15 + 6 + 5              = 26    into 30
   *   mark         15 + 10 + 12 + 5        = 42    into 45
   *   drill  60 %  10 + 10 + 5             = 25    into 25
   *   drill 100 %  10 + 6 + 5              = 21    into 25     each section: 125
   *   link   75 %  10 + (2 + 8) ÷ 0.75 + 5 = 28.3  into 30
   *   from the top 15 + 2 + 8 + 5          = 30    into 30
   *   run-through  20 + 2 + 8 + 5          = 35    into 35     least: 125 + 155 + 65 = 345 s
   *
   * The knees go down once in each section, and each section is danced 6 times: mark, two drills, link, from the top,
   * run-through. At level 1 only the second section has knees in it.
   */
  const sections = [
    { name: "A", phrases: [{ "1-4": { do: "Kneel", contacts: ["knees"] as const, easier: {} }, "5-8": "Rise" }] },
    {
      name: "B",
      phrases: [{ "1-4": { do: "Kneel again", contacts: ["knees"] as const }, "5-8": "Rise and turn out" }],
    },
  ];
  const class345 = workshopOf([routineOf({ tempo: 120, sections })], 345 / 60);
  const easier = (plan: ClassPlan) =>
    plan.activities.flatMap(({ kind, speed, easier, sections }) => (easier ? [[kind, speed, sections, easier]] : []));

  test("the running order and the load", () => {
    const plan = planClass(class345, library);
    expect(lines(plan)).toEqual([
      ["show", 100, 1, 0, 30],
      ["mark", 50, 1, 30, 45],
      ["drill", 60, 1, 75, 25],
      ["drill", 100, 1, 100, 25],
      ["show", 100, 1, 125, 30],
      ["mark", 50, 1, 155, 45],
      ["drill", 60, 1, 200, 25],
      ["drill", 100, 1, 225, 25],
      ["link", 75, 1, 250, 30],
      ["from-the-top", 100, 1, 280, 30],
      ["run-through", 100, 1, 310, 35],
    ]);
    expect(plan.load).toEqual({ taught: { knees: 12 }, easiest: { knees: 6 } });
    expect(plan.activities.find(({ kind }) => kind === "link")).toMatchObject({
      sections: ["A", "B"],
      load: { knees: 2 },
      easiest: { knees: 1 },
    });
  });

  test("a limit of 9 swaps the link, the slow drill of A and the run from the top", () => {
    // 12 − 3. The drill of B has no easier option; the only mark of A is its first time and stays.
    const plan = planClass(class345, libraryWith({ limits: { knees: "9" } }));
    expect(plan.load.taught).toEqual({ knees: 9 });
    expect(plan.limits).toEqual([{ part: "knees", limit: 9, before: 12, after: 9, kept: true, easiest: 6 }]);
    const one = { version: "1", runs: 1 };
    expect(easier(plan)).toEqual([
      ["drill", 60, ["A"], one],
      ["link", 75, ["A", "B"], one],
      ["from-the-top", 100, ["A", "B"], one],
    ]);
    expect(planText(plan, en).summary.join(" ")).toContain(
      "the library's own limit is 9 a class; 12 at level 2, brought to 9",
    );
  });

  test("runs that are all in the easier option have its cautions, and no hard move is drilled that none of them dances", () => {
    // A hard move: a spin costs its move's point and that of a risk. At level 1 nobody spins or kneels in A.
    const spin = { do: "Spin and kneel", contacts: ["knees"], risks: ["spin"], easier: {} } as const;
    const [, b] = sections;
    const hard = routineOf({
      tempo: 120,
      sections: [{ name: "A", phrases: [{ "1-4": spin, "5-8": "Rise" }] }, ...(b ? [b] : [])],
    });
    const planned = (knees: string) => planClass(workshopOf([hard], 10), libraryWith({ limits: { knees } }));
    const inA = ({ activities }: ClassPlan) =>
      activities.filter(({ routine, sections }) => routine !== undefined && sections.join() === "A");
    expect(inA(planned("99")).map(({ kind, moves }) => [kind, moves?.[0]?.cue])).toContainEqual([
      "detail",
      "Spin and kneel",
    ]);
    const tight = inA(planned("9"));
    expect(tight.map(({ kind }) => kind)).not.toContain("detail");
    const swapped = tight.filter(({ runs, easier }) => easier && easier.runs === runs);
    expect(swapped.length).toBeGreaterThan(0);
    for (const { cautions } of swapped) expect(cautions).toEqual([]);
    const danced = tight.filter(({ kind, easier, runs }) => kind === "drill" && easier?.runs !== runs);
    for (const { cautions } of danced) expect(cautions).toEqual(["spin", "kneework"]);
    expect(danced.length).toBeGreaterThan(0);
  });

  test("hard moves on their own have their own cautions, not those of the rest of their section", () => {
    const moves = { "1-4": { do: "Jump", risks: ["jump"] }, "5-8": { do: "Kneel", contacts: ["knees"] } } as const;
    const hard = routineOf({ tempo: 120, sections: [{ name: "A", phrases: [moves] }] });
    const detail = planClass(workshopOf([hard], 10), library).activities.find(({ kind }) => kind === "detail");
    expect(detail).toMatchObject({ moves: [{ cue: "Jump" }], cautions: ["jump"] });
  });

  test("two runs are both", () => {
    expect(
      [en.plan.easier(1, 1, "1"), en.plan.easier(2, 2, "1"), en.plan.easier(3, 3, "1")].map(
        (said) => said.split(" in ")[0],
      ),
    ).toEqual(["This run", "Both runs", "All 3 runs"]);
  });

  test("a limit of 8 cannot be kept, and the plan says why", () => {
    const plan = planClass(class345, libraryWith({ limits: { knees: "8" } }));
    expect(plan.limits).toEqual([{ part: "knees", limit: 8, before: 12, after: 9, kept: false, easiest: 6 }]);
    expect(planText(plan, en).summary.join(" ")).toContain("it is not kept: 9 remain");
  });
});

describe("four sections in a slot for three", () => {
  /*
   * The sections are as above, without the knees. With p sections taught, in seconds:
   *
   *   from the top 15 + 2 + 4p + 5 into 30, 35, 40 for p = 2, 3, 4 (none for 1)
   *   run-through  20 + 2 + 4p + 5 into 35, 35, 40, 45 for p = 1, 2, 3, 4
   *   least of the first p: 125 + 35 = 160;  125 + 155 + 65 = 345;  125 + 310 + 75 = 510;  125 + 465 + 85 = 675
   *
   * A later class begins with what it has, from the top at 75 % and at full tempo:
   *   15 + (2 + 4p) ÷ 0.75 + 5 + (2 + 4p) + 5 into 40, 50, 60 after p = 1, 2, 3
   *
   *   2nd to 3rd 40 + 310 + 75 = 425;  2nd to 4th 590;  3rd and 4th 50 + 310 + 85 = 445;  3rd 50 + 155 + 75 = 280;
   *   4th 60 + 155 + 85 = 300
   *
   * In 520 s three fit. Over two classes the longest is shortest as 345 | 445, over three as 345 | 280 | 300.
   * Of the 10 s left, the next run in order would be from the top at 75 %: 15 + 14 ÷ 0.75 + 5 into 40, too long. So its chunks
   * are drilled at full tempo, the first (all are equally hard) for 10 + 2 × 11 = 32 into 35 − 25 = 10 s.
   */
  const sections = ["A", "B", "C", "D"].map((name) => ({
    name,
    phrases: [{ "1-4": `${name} goes`, "5-8": `${name} comes` }],
  }));
  const plan = planClass(workshopOf([routineOf({ tempo: 120, sections })], 520 / 60), library);

  test("what fits and what does not", () => {
    expect(plan.fit).toMatchObject({ fits: false, least: 675, available: 520, short: 155, minutesNeeded: 12 });
    expect(plan.fit.upTo?.section).toBe("C");
    expect(plan.fit.left.map(({ section }) => section)).toEqual(["D"]);
    expect(plan.chunks.map(({ taught, runs }) => [taught, runs])).toEqual([
      [true, 7], // mark, drills 1 + 2, link, from the top, run-through
      [true, 7], // mark, drills 1 + 1, two links, from the top, run-through
      [true, 6],
      [false, 0],
    ]);
    expect(plan.freePractice).toBe(0);
  });

  test("the division over two and over three classes", () => {
    const divided = plan.fit.divisions.map(({ classes }) =>
      classes.map(({ ends, least, spare }) => [ends.section, least, spare]),
    );
    expect(divided).toEqual([
      [
        ["B", 345, 175],
        ["D", 445, 75],
      ],
      [
        ["B", 345, 175],
        ["C", 280, 240],
        ["D", 300, 220],
      ],
    ]);
  });
});
