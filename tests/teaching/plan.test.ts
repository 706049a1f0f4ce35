import { describe, expect, test } from "vitest";
import { plan as publisher } from "../../src/publishing/plan/publisher.js";
import { planText } from "../../src/publishing/plan-text.js";
import { planClass } from "../../src/teaching/plan.js";
import { en } from "../../src/wording/en.js";
import { contextOf } from "../fixtures/context.js";
import { eights, library, libraryWith, routineOf, workshopOf } from "./builder.js";

describe("chunks", () => {
  const chunks = (sections: Parameters<typeof routineOf>[0]["sections"], teaching = {}) =>
    planClass(workshopOf([routineOf({ tempo: 100, sections })], 60), libraryWith(teaching)).chunks.map(
      ({ name, counts, points }) => [en.plan.danced(name), counts, points],
    );

  test("a long section is cut into chunks of two eights", () => {
    expect(chunks([eights("Long", 5)])).toEqual([
      ["Long, eights 1–2", 16, 8],
      ["Long, eights 3–4", 16, 8],
      ["Long, eight 5", 8, 4],
    ]);
  });

  test("a dense section is cut sooner", () => {
    expect(chunks([eights("Dense", 2)], { "chunk-points": "7" })).toEqual([
      ["Dense, eight 1", 8, 4],
      ["Dense, eight 2", 8, 4],
    ]);
  });

  test("a short phrase joins its neighbour, and no cut goes through a move", () => {
    const tag = { ...eights("End", 2), phrases: [...(eights("End", 2).phrases ?? []), { "7-8": "Wait for it" }] };
    expect(chunks([tag])).toHaveLength(2);
    const through = {
      name: "Through",
      phrases: [{ "1-4": "Walk" }, { "1-4": "Run", "7-2": "Spiral down" }, { "3-4": "Rise" }],
    };
    expect(chunks([through]).map(([label]) => label)).toEqual(["Through"]);
  });

  test("what was met before costs little, the other side half", () => {
    const sections = [
      { name: "A", phrases: [{ "1-4": "Step left", "5-8": { do: "Roll right", turn: 2 } }] },
      { name: "A again", sameAs: "A" },
      { name: "A over there", sameAs: "A", mirrored: "always" as const },
    ];
    // A new move 1, a turn half a point more; known 0.2 of it, on the other side 0.5 of it.
    expect(chunks(sections).map(([, , points]) => points)).toEqual([2.5, 0.5, 1.25]);
  });

  test("both sides of a section that is danced on both are taught, and told apart", () => {
    const sections = [{ ...eights("Both", 1, { repeat: 2, mirrored: "alternate" as const }) }];
    expect(chunks(sections).map(([label]) => label)).toEqual(["Both", "Both (other side)"]);
  });
});

describe("the running order", () => {
  test("a section that holds nothing new is shown and danced, not marked", () => {
    const routine = routineOf({ tempo: 100, sections: [eights("A", 1), { name: "A again", sameAs: "A" }] });
    const settings = libraryWith({ most: { mark: "1" } });
    const kinds = planClass(workshopOf([routine], 8), settings).activities.flatMap(({ kind, sections }) =>
      sections.join() === "A again" ? [kind] : [],
    );
    expect(kinds).toContain("show");
    expect(kinds).toContain("drill");
    const bare = libraryWith({ most: { show: "1", mark: "0", drill: "1", detail: "0" } });
    const least = planClass(workshopOf([routine], 8), bare).activities.filter(({ kind }) => kind === "mark");
    expect(least.map(({ sections }) => sections.join())).toEqual(["A"]);
  });

  test("water stands between two routines rather than within one", () => {
    const routines = ["one", "two"].map((slug) =>
      routineOf({ slug, tempo: 100, sections: [eights(`A of ${slug}`, 2), eights(`B of ${slug}`, 2)] }),
    );
    const { activities } = planClass(workshopOf(routines, 40, { breaks: 4 }), library);
    const water = activities.findIndex(({ kind }) => kind === "water");
    expect([activities[water - 1]?.routine, activities[water + 1]?.routine]).toEqual(["one", "two"]);
    expect(activities[water]?.seconds).toBe(240);
  });

  test("a long class has its breaks in several places", () => {
    const routine = routineOf({ tempo: 90, sections: ["A", "B", "C", "D"].map((name) => eights(name, 4)) });
    const { activities } = planClass(workshopOf([routine], 120, { breaks: 10 }), library);
    // 110 minutes of teaching in stretches of at most 35: four, with three breaks between them.
    const water = activities.filter(({ kind }) => kind === "water").map(({ seconds }) => seconds);
    expect(water).toEqual([200, 200, 200]);
  });

  test("from the top dances a time through, the song all of them", () => {
    const routine = routineOf({ tempo: 60, walls: 1, times: 3, sections: [eights("A", 1), eights("B", 1)] });
    const { activities } = planClass(workshopOf([routine], 60), libraryWith({ again: "0" }));
    const each = (kind: string) => {
      const found = activities.find((activity) => activity.kind === kind && activity.speed === 100);
      return (found?.seconds ?? 0) / (found?.runs ?? 1);
    };
    // 20 s for 4 + 16 counts, 52 s for 4 + 48, and an overhead.
    expect(each("from-the-top")).toBeLessThan(20 + 20);
    expect(each("run-through")).toBeGreaterThan(52);
  });

  test("water and free practice are all there is where nothing is taught", () => {
    const { activities, fit } = planClass(workshopOf([], 20, { warmUp: 5, breaks: 2, coolDown: 3 }), library);
    expect(activities.map(({ kind, seconds }) => [kind, seconds])).toEqual([
      ["warm-up", 300],
      ["water", 120],
      ["free-practice", 600],
      ["cool-down", 180],
    ]);
    expect(fit.fits).toBe(true);
  });

  test("a slot too short for its first section teaches chunks of it", () => {
    const routine = routineOf({ tempo: 100, sections: [eights("Long", 6)] });
    // 185 s for the first chunk, 230 s for the second with its link, of 420 s; the third would take 230 s more.
    const plan = planClass(workshopOf([routine], 7), library);
    expect(plan.fit.upTo).toBeUndefined();
    expect(plan.fit.divisions).toEqual([]);
    expect(plan.chunks.map(({ taught }) => taught)).toEqual([true, true, false]);
    expect(planText(plan, en).summary[0]).toContain("Not even the first section fits whole");
  });

  test("a level that a routine does not have is said, and its own is planned", () => {
    const plan = planClass(
      workshopOf([routineOf({ tempo: 100, sections: [eights("A", 1)] })], 30, { level: "9" }),
      library,
    );
    expect(plan.routines).toEqual([{ slug: "test", title: "Title of test", version: "2", easiest: "1" }]);
    expect(planText(plan, en).summary.join(" ")).toContain("has no level 9");
  });
});

test("ten routines are planned in under a second", () => {
  const routines = Array.from({ length: 10 }, (_, number) =>
    routineOf({
      slug: `routine-${number}`,
      tempo: 90 + number,
      sections: Array.from({ length: 8 }, (__, at) => eights(`${number} ${at}`, 4)),
    }),
  );
  for (const minutes of [60, 600, 1200]) {
    const start = performance.now();
    const plan = planClass(workshopOf(routines, minutes), library);
    expect(performance.now() - start).toBeLessThan(1000);
    expect(plan.chunks).toHaveLength(160);
  }
});

test("plan.json has the fields that readers of it count on", () => {
  const workshop = workshopOf([routineOf({ tempo: 100, sections: [eights("A", 1)] })], 20, { warmUp: 5 });
  const [file] = publisher.publish(workshop, contextOf(library)) as readonly { path: string; content: string }[];
  expect(file?.path).toBe("workshops/class/plan.json");
  const data = JSON.parse(file?.content ?? "");
  expect(data).toMatchObject({ minutes: 20, level: "2", load: { easiest: {}, taught: {} } });
  expect(data.activities[0]).toMatchObject({ kind: "warm-up", start: 0, seconds: 300, load: {} });
  expect(data.activities.find((activity: { kind: string }) => activity.kind === "drill")).toMatchObject({
    routine: "test",
    sections: ["A"],
    speed: 60,
    runs: expect.any(Number),
    start: expect.any(Number),
    seconds: expect.any(Number),
    load: {},
  });
});

test("a tempo that nobody has measured is said as `about` so many at every speed, and stays a number in the data", () => {
  const routine = routineOf({ tempo: 80, tempoIsEstimate: true, sections: [eights("A", 1)] });
  const plan = planClass(workshopOf([routine], 30), library);
  const drills = plan.activities.filter(({ kind, speed }) => kind === "drill" && speed === 75);
  expect(drills.map(({ countsPerMinute, tempoIsEstimate }) => [countsPerMinute, tempoIsEstimate])).toEqual([
    [60, true],
  ]);
  expect(drills.map((drill) => planText(plan, en).activity(drill).instruction)[0]).toContain(
    "(about 60 counts a minute)",
  );
});
