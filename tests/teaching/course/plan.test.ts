import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planText } from "../../../src/publishing/plan-text.js";
import { dance } from "../../../src/routine/dance.js";
import type { Routine } from "../../../src/routine/routine.js";
import type { CoursePlan } from "../../../src/teaching/course/course-plan.js";
import { type CourseWorkshop, planCourse } from "../../../src/teaching/course/plan.js";
import { planClass } from "../../../src/teaching/plan.js";
import { en } from "../../../src/wording/en.js";
import { routines as written } from "../../fixtures/arbitrary.js";
import { fromYaml } from "../../fixtures/from-yaml.js";
import { processorSeconds } from "../../fixtures/processor.js";
import { runs } from "../../runs.js";
import { eights, library, routineOf, saidIn, stepsOf, workshopOf } from "../builder.js";

const courseOf = (routines: readonly Routine[], minutes: number, extra: Partial<CourseWorkshop>): CourseWorkshop => ({
  ...workshopOf(routines, minutes),
  lessons: 2,
  ...extra,
});
const inOneLine = ({ lessons }: CoursePlan) =>
  lessons.map(({ lesson: { fresh, recalled, run } }) =>
    [fresh, recalled]
      .map((list) => list.map(({ section }) => section).join(""))
      .concat(run.map(({ sections }) => sections.join(""))),
  );

describe("four eights of four new moves each", () => {
  const routine = routineOf({ tempo: 60, sections: [..."ABCD"].map((name) => eights(name, 1)) });
  test("over two lessons: two and two, the first two recalled, the whole of it run", () => {
    const plan = planCourse(courseOf([routine], 60, {}), library);
    expect(inOneLine(plan)).toEqual([
      ["AB", "", "AB"],
      ["CD", "AB", "ABCD"],
    ]);
    expect(plan.fit).toEqual({ fits: true, lessons: 2, needed: 1, left: [] });
  });
  test("a long section makes a lesson, two short ones another", () => {
    // 8, 4 and 4 points: 8² + 8² is less than 12² + 4².
    const uneven = routineOf({ tempo: 60, sections: [eights("A", 2), eights("B", 1), eights("C", 1)] });
    expect(inOneLine(planCourse(courseOf([uneven], 60, {}), library)).map(([fresh]) => fresh)).toEqual(["A", "BC"]);
  });
  test("over five: one a lesson, and nothing new in the last", () => {
    const plan = planCourse(courseOf([routine], 60, { lessons: 5 }), library);
    expect(inOneLine(plan)).toEqual([
      ["A", "", "A"],
      ["B", "A", "AB"],
      ["C", "B", "ABC"],
      ["D", "CA", "ABCD"],
      ["", "DB", "ABCD"],
    ]);
  });
});

describe("what a course says of itself", () => {
  const routine = routineOf({ tempo: 60, sections: [..."ABCD"].map((name) => eights(name, 1)) });
  const other = routineOf({ slug: "other", tempo: 60, sections: [eights("X", 1), eights("Y", 2)] });

  test("how many lessons it would take, and what is left out", () => {
    const plan = planCourse(courseOf([routine, other], 10, {}), library);
    expect(plan.fit.fits).toBe(false);
    const left = plan.fit.left.map(({ section }) => section).join("");
    expect("ABCDXY".endsWith(left)).toBe(true);
    const lessons = plan.fit.needed ?? 0;
    expect(planCourse(courseOf([routine, other], 10, { lessons }), library).fit.fits).toBe(true);
    expect(planCourse(courseOf([routine, other], 10, { lessons: lessons - 1 }), library).fit.fits).toBe(false);
  });

  test("that no number of lessons is enough for a section that is longer than each", () => {
    const long = routineOf({ tempo: 60, sections: [eights("A", 1), eights("Long", 8)] });
    const { fit } = planCourse(courseOf([long], 12, { lessons: 3 }), library);
    expect(fit).toEqual({
      fits: false,
      lessons: 3,
      left: [{ routine: "test", title: "Title of test", section: "Long" }],
    });
  });

  test("what was known before is recalled in the first lesson and never taught", () => {
    const known = { test: ["A", "B"] };
    const plan = planCourse(courseOf([routine, other], 60, { lessons: 3, known }), library);
    expect(inOneLine(plan).map(([fresh]) => fresh)).toEqual(["CD", "X", "Y"]);
    expect(plan.lessons[0]?.lesson.recalled.map(({ section }) => section)).toEqual(["A", "B"]);
  });

  test("what is all known is recalled and run, and a slot without time for teaching teaches nothing", () => {
    const known = { test: [..."ABCD"] };
    const plan = planCourse(courseOf([routine], 60, { lessons: 4, known }), library);
    expect(inOneLine(plan)).toEqual([
      ["", "ABCD", "ABCD"],
      ["", "", "ABCD"],
      ["", "ABCD", "ABCD"],
      ["", "", "ABCD"],
    ]);
    const none = planCourse(courseOf([routine], 10, { warmUp: 10 }), library);
    expect(inOneLine(none)).toEqual([
      ["", ""],
      ["", ""],
    ]);
    expect(none.fit).toMatchObject({ fits: false, left: [{ section: "A" }, {}, {}, {}] });
  });

  test("a lesson speaks of what it dances, not of what another lesson has", () => {
    const plan = planCourse(courseOf([routine, other], 60, { lessons: 3 }), library);
    expect(plan.routines.map(({ slug }) => slug)).toEqual(["test", "other"]);
    const said = plan.lessons.map((lesson) => planText(lesson, en).summary.join(" "));
    expect(said.join(" ")).not.toContain("No part of this class");
    expect(said[1]).toMatch(/Known, and recalled at the start: A.* \(Title of test\)\./);
  });

  test("a pick-up comes with the section that it leads into", () => {
    const led = fromYaml(`
sections:
  - { name: Breath, counts: [{ from: 7, 7-8: Breathe in }] }
  - { name: Wall, counts: [{ 1-4: Lean, 5-8: Push off }] }
  - { name: Tide, counts: [{ 1-4: Roll, 5-8: Rise }] }
`);
    const plan = planCourse(courseOf([led], 60, {}), library);
    expect(inOneLine(plan)).toEqual([
      ["BreathWall", "", "BreathWall"],
      ["Tide", "BreathWall", "BreathWallTide"],
    ]);
    expect(plan.lessons[0]?.chunks[0]?.name).toMatchObject({ section: "Wall" });
  });

  test("of each routine only the sections that it asks for", () => {
    const sections = { test: ["A", "C"] };
    const plan = planCourse(courseOf([routine, other], 60, { lessons: 3, sections }), library);
    expect(inOneLine(plan).map(([fresh]) => fresh)).toEqual(["AC", "X", "Y"]);
  });

  test("the densest of what is new; of all, where nothing is", () => {
    const spins = { do: "Spin", turn: 8, risks: ["spin"] } as const;
    const turning = { name: "Turning", phrases: [{ "1-2": spins, "3-4": "Reach", "5-6": "Fold", "7-8": "Rest" }] };
    const plan = planCourse(
      courseOf([routineOf({ tempo: 60, sections: [eights("A", 1), turning] })], 60, { lessons: 4 }),
      library,
    );
    expect(plan.lessons.map(({ lesson }) => lesson.hard[0]?.name.section)).toEqual([
      "A",
      "Turning",
      "Turning",
      "Turning",
    ]);
  });

  test("ten routines over twelve lessons are planned in under two seconds", () => {
    const routines = Array.from({ length: 10 }, (_, number) =>
      routineOf({
        slug: `routine-${number}`,
        tempo: 90 + number,
        sections: Array.from({ length: 5 }, (__, at) => eights(`${number} ${at}`, 2)),
      }),
    );
    const took = processorSeconds(() => {
      const plan = planCourse(courseOf(routines, 90, { lessons: 12 }), library);
      expect(plan.lessons.map(({ fit }) => fit.fits)).toEqual(plan.lessons.map(() => true));
    });
    expect(took).toBeLessThan(2);
  });
});

test("a lesson that teaches two routines ends in a run of both, however short it is", () => {
  const two = ["one", "other"].map((slug) => routineOf({ slug, tempo: 60, sections: [eights(slug, 1)] }));
  const lesson = { taught: { one: ["one"], other: ["other"] }, recalled: {}, danced: {}, endsInRun: true };
  const { minutesNeeded, least } = planClass(workshopOf(two, 60), library, lesson).fit;
  expect(least).toBeGreaterThan(planClass(workshopOf(two, 60), library, { ...lesson, endsInRun: false }).fit.least);
  const { activities } = planClass(workshopOf(two, minutesNeeded), library, lesson);
  const songs = activities.filter(({ steps }) => steps.some(({ kind }) => kind === "run-through"));
  expect(songs.map(({ routine }) => routine).slice(0, 3)).toEqual(["one", "other", "one"]);
});

/** Any routine that can be danced: repeats, the other side, tempo changes, up to three times through. */
const anyRoutine = written()
  .map((sketch) => dance(sketch, library).routine)
  .filter((routine): routine is Routine => routine !== undefined);

const anyCourse = fc
  .record({
    routines: fc.array(anyRoutine, { minLength: 1, maxLength: 3 }),
    minutes: fc.integer({ min: 5, max: 90 }),
    lessons: fc.integer({ min: 2, max: 9 }),
    known: fc.boolean(),
  })
  .map(({ routines, minutes, lessons, known }) => {
    const named = routines.map((routine, index) => ({ ...routine, slug: `routine-${index}` }));
    const before = { "routine-0": [named[0]?.sections[0]?.name ?? ""] };
    return courseOf(named, minutes, { lessons, warmUp: 1, ...(known && { known: before }) });
  });

test("any course: each section once, after what stands before it in its dance; lessons that fit and end in a run of all", () => {
  fc.assert(
    fc.property(anyCourse, (workshop) => {
      const plan = planCourse(workshop, library);
      expect(plan.lessons).toHaveLength(workshop.lessons);
      const known = new Set((workshop.known?.["routine-0"] ?? []).map((section) => `routine-0 ${section}`));
      for (const { lesson, ...planned } of plan.lessons) {
        for (const { routine, section } of lesson.fresh) {
          const dance = workshop.routines.find(({ slug }) => slug === routine)?.sections ?? [];
          const first = dance.findIndex(({ name }) => name === section);
          for (const { name, seconds } of dance.slice(0, first))
            if (name !== section && seconds === undefined) expect(known).toContain(`${routine} ${name}`);
          expect(known).not.toContain(`${routine} ${section}`);
          known.add(`${routine} ${section}`);
        }
        for (const { routine, section } of lesson.recalled) expect(known).toContain(`${routine} ${section}`);
        const run = lesson.run.flatMap(({ routine, sections }) => sections.map((section) => `${routine} ${section}`));
        expect(new Set(run)).toEqual(known);
        expect(planned.fit.fits).toBe(true);
        const seconds = planned.activities.map((activity) => activity.seconds);
        expect(seconds.reduce((sum, one) => sum + one, 0)).toBe(workshop.minutes * 60);
        // Whatever is learnt or gone through again comes before the last run of each routine.
        const runsOfAll = ["from-the-top", "run-through", "away-from-mirror", "mirrored", "groups"];
        const isRun = (kind: string) => runsOfAll.includes(kind);
        const steps = stepsOf(planned);
        const learnt = steps.findLastIndex(({ chunks, kind }) => chunks.length > 0 && !isRun(kind));
        const after = steps.slice(learnt + 1).filter(({ kind }) => kind === "run-through");
        const sung = new Set(after.flatMap(({ chunks }) => chunks));
        expect(sung).toEqual(new Set(planned.chunks.map(({ id }) => id)));
      }
      const { needed, left } = plan.fit;
      expect(left.length === 0).toBe(needed !== undefined && needed <= workshop.lessons);
      const more = planCourse({ ...workshop, lessons: workshop.lessons + 1 }, library);
      expect(more.fit.left.length).toBeLessThanOrEqual(left.length);
    }),
    { numRuns: runs(16) },
  );
});

/* A pick-up, a way down, a turn with a caution, and a plain end: four sections, and four lessons. */
const downAndUp = fromYaml(`
sections:
  - name: Lead
    counts: [{ 7-8: Breathe in }]
  - name: Down
    counts: [{ 1-2: Bend, 3-8: { do: Sink to the knees, height: kneeling } }]
  - name: Low
    counts: [{ 1-4: Look left, 5-8: Look right }]
  - name: Rise
    counts: [{ 1-8: { do: Rise, height: standing } }]
  - name: Round
    counts: [{ 1-4: { do: Spin once, turn: 8 right, risk: [spin] }, 5-8: Stand }]
`);

describe("a lesson's recap", () => {
  const lesson = (recalled: readonly string[]) =>
    planClass(workshopOf([downAndUp], 60, { level: downAndUp.taught }), library, {
      ...{ taught: {}, recalled: { [downAndUp.slug]: recalled }, endsInRun: true },
      danced: { [downAndUp.slug]: ["Lead", "Down", "Low", "Rise", "Round"].filter((name) => !recalled.includes(name)) },
    });
  const said = (recalled: readonly string[]) => saidIn(lesson(recalled), ({ kind }) => kind === "recap")[0] ?? "";

  test("names the pick-up too, as the plan's summary does", () => {
    expect(said(["Lead", "Down"])).toContain("Recap: Lead and Down.");
  });

  test("says where it begins anew, and how everybody stands there", () => {
    expect(said(["Down", "Rise"])).toMatch(/Stop before “Rise”, since .* begin it anew, facing front, .*kneeling\./);
    expect(said(["Low", "Rise"])).not.toContain("Stop before");
  });

  test("with nothing new leaves time for what the group finds hard", () => {
    expect(lesson(["Low"]).freePractice).toBeGreaterThanOrEqual(600);
  });
});

test("the last lesson is told the hard places that the lessons before it were: what has a caution before what is dense", () => {
  const plan = planCourse(courseOf([downAndUp], 60, { lessons: 5, level: downAndUp.taught }), library);
  expect(plan.lessons.at(-1)?.lesson).toMatchObject({ fresh: [], hard: [{ name: { section: "Round" } }, {}] });
});
