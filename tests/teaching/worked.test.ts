import { describe, expect, test } from "vitest";
import { planText } from "../../src/publishing/plan-text.js";
import type { ClassPlan } from "../../src/teaching/class-plan.js";
import { planClass } from "../../src/teaching/plan.js";
import { en } from "../../src/wording/en.js";
import { library, libraryWith, routineOf, stepsOf, workshopOf } from "./builder.js";

/** Kind, start and minutes of every activity, with kind, speed and runs of its steps. */
function lines(plan: ClassPlan): readonly unknown[] {
  return plan.activities.map(({ kind, start, seconds, steps }) => [
    ...[kind, start / 60, seconds / 60],
    ...steps.map((step) => `${step.kind} ${step.speed} × ${step.runs}`),
  ]);
}

describe("one section of eight counts at 60 counts a minute, in ten minutes", () => {
  /*
   * A count is one second. The count-in is half a phrase: 4 counts. Four new moves without turn or drop: 4 points.
   * A step is overhead + runs × (count-in + counts at the speed + 5 s to get back); an activity is rounded up to minutes.
   *
   *   the whole dance   10 + 4 + 8                               =  22   into 1 min
   *   show              10 + (4 + 8) + 5                         =  27
   *   mark              10 + 5 × 4 points + (4 + 8) ÷ 0.50 + 5   =  59
   *   drill  60 %        5 + (4 + 8) ÷ 0.60 + 5                  =  30
   *   drill 100 %        5 + (4 + 8) + 5                         =  22   138 into 3 min
   *   run-through       15 + (4 + 8) + 5                         =  32   into 1 min       least: 5 min
   *
   * A single chunk has nothing to link and no top to begin from; four new moves at 4 s are less than half a minute of questions.
   * Of 10 min, 2 × 2 are warm-up and cool-down: 1 min is left. There is one chunk, so further runs come in the order of worth ÷
   * (1 + further runs):
   *
   *   run-through 1.5    32 + 17      =  49   in the same minute
   *   mark        1.2   138 + 24 + 5  = 167   in the same 3 min
   *   drill  60 % 1     167 + 20 + 5  = 192   into 4 min: the minute that is left
   *   drill  75 % 1     192 + 5 + 16 + 5 = 218      in the same 4 min
   *   drill  90 % 1     218 + 5 + 13.3 + 5 = 241.3  a minute more: too long, and the end
   */
  const only = { name: "Only", phrases: [{ "1-2": "Reach", "3-4": "Fold", "5-6": "Sway", "7-8": "Settle" }] };
  const plan = planClass(
    workshopOf([routineOf({ tempo: 60, sections: [only] })], 10, { warmUp: 2, coolDown: 2 }),
    library,
  );

  test("the running order", () => {
    expect(lines(plan)).toEqual([
      ["warm-up", 0, 2],
      ["show", 2, 1, "show-all 100 × 1"],
      ["teach", 3, 4, "show 100 × 1", "mark 50 × 2", "drill 60 × 2", "drill 75 × 1", "drill 100 × 1"],
      ["dance", 7, 1, "run-through 100 × 2"],
      ["cool-down", 8, 2],
    ]);
    expect(plan.fit).toMatchObject({ fits: true, least: 300, available: 360, short: 0, minutesNeeded: 9 });
  });

  test("the chunk", () => {
    // Danced: mark 2, drills 2 + 1 + 1, run-through 2; at full tempo 1 + 2.
    expect(plan.chunks).toMatchObject([
      { id: "test/1", points: 4, density: 4, newMoves: 4, runs: 8, fullTempoRuns: 3 },
    ]);
  });

  test("the song is cued up 15 s before the first count at the most", () => {
    const most = { "run-through": "1", "away-from-mirror": "0", mirrored: "0" };
    const once = libraryWith({ most, unit: "1" });
    const song = (firstCount: number) => {
      const late = routineOf({ tempo: 60, firstCount, sections: [only] });
      return planClass(workshopOf([late], 10), once).activities.find(({ kind }) => kind === "dance")?.seconds;
    };
    // 15 + 9 + 8 + 5 = 37; 15 + 15 + 8 + 5 = 43; before a first count at 2 s the count-in of 4 s is longer: 32.
    expect([9, 40, 2].map(song)).toEqual([37, 43, 32]);
  });
});

describe("two sections on the knees, exactly as long as the least", () => {
  /*
   * 120 counts a minute: a count is half a second, the count-in 2 s, a section 4 s, two new moves: 2 points.
   *
   *   the whole dance   10 + 2 + 8              = 20     into 1 min
   *   show              10 + 6 + 5              = 21
   *   mark              10 + 10 + 12 + 5        = 37
   *   drill  60 %        5 + 10 + 5             = 20
   *   drill 100 %        5 + 6 + 5              = 16     each section: 94
   *   level 1 of A       5 + 4 + 5 for one move = 14     A: 108 into 2 min
   *   link   75 %        5 + (2 + 8) ÷ 0.75 + 5 = 23.3   B: 117.3 into 2 min
   *   from the top      10 + 2 + 8 + 5          = 25
   *   run-through       15 + 2 + 8 + 5          = 30     55 into 1 min            least: 6 min
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
  const class6 = workshopOf([routineOf({ tempo: 120, sections })], 6);
  const easier = (plan: ClassPlan) =>
    stepsOf(plan).flatMap(({ kind, speed, easier, sections }) => (easier ? [[kind, speed, sections, easier]] : []));

  test("the running order and the load", () => {
    const plan = planClass(class6, library);
    const teach = ["show 100 × 1", "mark 50 × 1"];
    const drill = ["drill 60 × 1", "drill 100 × 1"];
    expect(lines(plan)).toEqual([
      ["show", 0, 1, "show-all 100 × 1"],
      ["teach", 1, 2, ...teach, "options 100 × 1", ...drill],
      ["teach", 3, 2, ...teach, ...drill, "link 75 × 1"],
      ["dance", 5, 1, "from-the-top 100 × 1", "run-through 100 × 1"],
    ]);
    expect(plan.load).toEqual({ taught: { knees: 12 }, easiest: { knees: 6 } });
    expect(stepsOf(plan).find(({ kind }) => kind === "link")).toMatchObject({
      sections: ["A", "B"],
      load: { knees: 2 },
      easiest: { knees: 1 },
    });
  });

  test("a limit of 9 swaps the link, the slow drill of A and the run from the top", () => {
    // 12 − 3. The drill of B has no easier option; the only mark of A is its first time and stays.
    const plan = planClass(class6, libraryWith({ limits: { knees: "9" } }));
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
    const inA = (plan: ClassPlan) => stepsOf(plan).filter(({ sections }) => sections.join() === "A");
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
    const moves = { "1-4": { do: "Spin", risks: ["spin"] }, "5-8": { do: "Kneel", contacts: ["knees"] } } as const;
    const hard = routineOf({ tempo: 120, sections: [{ name: "A", phrases: [moves] }] });
    const detail = stepsOf(planClass(workshopOf([hard], 10), library)).find(({ kind }) => kind === "detail");
    expect(detail).toMatchObject({ moves: [{ cue: "Spin" }], cautions: ["spin"] });
  });

  test("it says which runs: the last ones, since the first are when nobody is tired", () => {
    const said = (from: number, to: number, of: number) => en.plan.easier({ from, to, of }, "1").split(" in ")[0];
    expect([said(1, 1, 1), said(1, 2, 2), said(1, 3, 3), said(2, 2, 2), said(3, 4, 4)]).toEqual([
      "This run",
      "Both runs",
      "All 3 runs",
      "Run 2 of the 2",
      "Runs 3–4 of the 4",
    ]);
  });

  test("a limit of 8 cannot be kept, and the plan says why", () => {
    const plan = planClass(class6, libraryWith({ limits: { knees: "8" } }));
    expect(plan.limits).toEqual([{ part: "knees", limit: 8, before: 12, after: 9, kept: false, easiest: 6 }]);
    expect(planText(plan, en).summary.join(" ")).toContain("it is not kept: 9 remain");
  });
});

describe("four sections in a slot for three", () => {
  /*
   * The sections are as above, without the knees: A takes 94 s, the others 117.3 s with their link, each 2 min, and the whole
   * dance is shown in 10 + 2 + 16 = 28 s, 1 min. With p sections taught:
   *
   *   from the top (from two on) and run-through: 26 into 1 min; 25 + 30 into 1; 29 + 34 = 63 into 2; 33 + 38 = 71 into 2
   *   least of the first p: 1 + 2 + 1 = 4;  1 + 4 + 1 = 6;  1 + 6 + 2 = 9;  1 + 8 + 2 = 11, and a minute for questions
   *   on eight new moves (32 s; on six or fewer it is less than half a minute): 12
   *
   * A later class begins with what it has, from the top at 75 % and at full tempo:
   *   10 + (2 + 4p) ÷ 0.75 + 5 + (2 + 4p) + 5, that is 34, 43.3 and 52.7 after p = 1, 2, 3: each 1 min
   *
   *   2nd to 3rd 1 + 4 + 2 = 7;  2nd to 4th 9;  3rd and 4th 1 + 4 + 2 = 7;  3rd 1 + 2 + 2 = 5;  4th 5
   *
   * In 9 min three fit. Over two classes the longest is shortest as 6 | 7, over three as 6 | 5 | 5. The dance's 63 s leave
   * room in its second minute for two of the runs that help most: from the top at 75 % (10 + 14 ÷ 0.75 + 5 = 33.7, makes
   * 96.7) and once more at full tempo (19, makes 115.7).
   */
  const sections = ["A", "B", "C", "D"].map((name) => ({
    name,
    phrases: [{ "1-4": `${name} goes`, "5-8": `${name} comes` }],
  }));
  const plan = planClass(workshopOf([routineOf({ tempo: 120, sections })], 9), library);

  test("what fits and what does not", () => {
    expect(plan.fit).toMatchObject({ fits: false, least: 720, available: 540, short: 180, minutesNeeded: 12 });
    expect(plan.fit.upTo?.section).toBe("C");
    expect(plan.fit.left.map(({ section }) => section)).toEqual(["D"]);
    expect(plan.chunks.map(({ taught, runs }) => [taught, runs])).toEqual([
      [true, 8], // mark, drills 1 + 1, link, from the top 1 + 2, run-through
      [true, 9], // the same, and a second link
      [true, 8],
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
        ["B", 360, 180],
        ["D", 420, 120],
      ],
      [
        ["B", 360, 180],
        ["C", 300, 240],
        ["D", 300, 240],
      ],
    ]);
  });
});
