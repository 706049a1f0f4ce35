import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planText } from "../../src/publishing/plan-text.js";
import { dance as danceWritten } from "../../src/routine/dance.js";
import type { Routine } from "../../src/routine/routine.js";
import type { ClassPlan } from "../../src/teaching/class-plan.js";
import { planClass } from "../../src/teaching/plan.js";
import { en } from "../../src/wording/en.js";
import { routines as written } from "../fixtures/arbitrary.js";
import { fromYaml } from "../fixtures/from-yaml.js";
import { runs } from "../runs.js";
import { eights, library, routineOf, saidIn, stepsOf, workshopOf } from "./builder.js";

const dance = routineOf({ tempo: 60, sections: ["A", "B", "C", "D"].map((name) => eights(name, 1)) });
const kinds = (plan: ClassPlan, section: string) =>
  stepsOf(plan).flatMap(({ kind, sections }) => (sections.join() === section ? [kind] : []));
const danced = (plan: ClassPlan, wanted: string) =>
  stepsOf(plan)
    .findLast(({ kind }) => kind === wanted)
    ?.sections.join("");

describe("sections of a routine", () => {
  test("without the keys all of it is taught", () => {
    const plan = planClass(workshopOf([dance], 60), library);
    expect(plan.chunks.map(({ section, taught }) => [section, taught])).toEqual(
      [..."ABCD"].map((name) => [name, true]),
    );
    expect(planText(plan, en).summary.join()).not.toMatch(/No part|Known/);
  });

  test("only those are taught and danced, and the plan says what is left out", () => {
    const plan = planClass(workshopOf([dance], 60, { sections: { test: ["A", "C"] } }), library);
    expect(plan.chunks.map(({ section }) => section)).toEqual(["A", "C"]);
    expect(stepsOf(plan).some(({ kind }) => kind === "recap")).toBe(false);
    expect(danced(plan, "run-through")).toBe("AC");
    expect(planText(plan, en).summary[0]).toBe("No part of this class: B and D (Title of test).");
    expect(stepsOf(plan).find(({ kind }) => kind === "run-through")).toMatchObject({ pieces: 2 });
    expect(saidIn(plan, ({ kind }) => kind === "run-through")[0]).toContain("in two pieces");
  });

  test("known ones are recalled before anything new, never taught, and danced in the runs", () => {
    const plan = planClass(workshopOf([dance], 60, { known: { test: ["A", "B"] } }), library);
    expect(stepsOf(plan)[0]).toMatchObject({
      kind: "recap",
      sections: ["A", "B"],
      speed: 75,
    });
    expect(kinds(plan, "A")).toEqual([]);
    expect(new Set(kinds(plan, "C"))).toEqual(new Set(["show", "mark", "drill"]));
    expect(kinds(plan, "B,C")).toEqual(["link"]);
    expect(danced(plan, "run-through")).toBe("ABCD");
    expect(plan.chunks.map(({ taught, recalled = false, newMoves }) => [taught, recalled, newMoves])).toEqual([
      [false, true, 0],
      [false, true, 0],
      [true, false, 4],
      [true, false, 4],
    ]);
  });

  test("a class that knows it all recalls it and dances it", () => {
    const plan = planClass(workshopOf([dance], 20, { known: { test: ["A", "B", "C", "D"] } }), library);
    const all = stepsOf(plan).map(({ kind }) => kind);
    expect(all.filter((kind) => ["show", "mark", "drill", "link"].includes(kind))).toEqual([]);
    expect(all[0]).toBe("recap");
    expect(danced(plan, "run-through")).toBe("ABCD");
    expect(plan.fit.fits).toBe(true);
  });
});

test("a lesson given by values: what is neither taught nor recalled is danced in the runs all the same", () => {
  const lesson = { taught: { test: ["D"] }, recalled: { test: ["C"] }, danced: { test: ["A"] } };
  const plan = planClass(workshopOf([dance], 60), library, lesson);
  expect(stepsOf(plan).find(({ kind }) => kind === "recap")?.sections).toEqual(["C"]);
  expect(danced(plan, "run-through")).toBe("ACD");
  expect(plan.routines[0]).toMatchObject({ recalled: ["C"], leftOut: ["B"] });
  expect(plan.chunks.find(({ section }) => section === "A")).toMatchObject({ taught: false, newMoves: 0 });
});

test("a routine that is only danced again comes at the end of the class", () => {
  const two = [dance, routineOf({ slug: "other", tempo: 60, sections: [eights("X", 1)] })];
  const lesson = { taught: { other: ["X"] }, recalled: {}, danced: { test: ["A", "B"] } };
  const plan = planClass(workshopOf(two, 30), library, lesson);
  const runs = stepsOf(plan).flatMap(({ kind, routine }) => (kind === "run-through" ? [routine] : []));
  expect(runs.slice(0, 2)).toEqual(["other", "test"]);
});

test("of several routines each has its own choice", () => {
  const two = [dance, routineOf({ slug: "other", tempo: 60, sections: [eights("X", 1), eights("Y", 1)] })];
  const plan = planClass(workshopOf(two, 90, { sections: { other: ["Y"] } }), library);
  expect(plan.chunks.map(({ section }) => section)).toEqual(["A", "B", "C", "D", "Y"]);
});

test("whatever a lesson has of a routine: each section is come by as it says, once, and the minutes add up", () => {
  const anyRoutine = written()
    .map((sketch) => danceWritten(sketch, library).routine)
    .filter((routine): routine is Routine => routine !== undefined);
  const uses = ["taught", "recalled", "danced", "none"] as const;
  const anyUses = fc.array(fc.constantFrom(...uses), { minLength: 12, maxLength: 12 });
  fc.assert(
    fc.property(anyRoutine, anyUses, fc.integer({ min: 5, max: 120 }), (routine, chosen, minutes) => {
      const names = [...new Set(routine.sections.map(({ name }) => name))];
      const named = (use: (typeof uses)[number]) => ({
        [routine.slug]: names.filter((_, index) => chosen[index % chosen.length] === use),
      });
      const lesson = { taught: named("taught"), recalled: named("recalled"), danced: named("danced") };
      const plan = planClass(workshopOf([routine], minutes), library, lesson);
      const steps = stepsOf(plan);
      expect(plan.activities.reduce((sum, { seconds }) => sum + seconds, 0)).toBe(minutes * 60);
      const sectionsIn = (wanted: readonly string[]) =>
        new Set(steps.flatMap(({ kind, sections }) => (wanted.includes(kind) ? sections : [])));
      const isKnown = (name: string) => !lesson.taught[routine.slug]?.includes(name);
      // A pick-up is named with the section that it leads into, and comes by as that does.
      const led = new Set(plan.chunks.flatMap(({ name }) => name.pickUp ?? []));
      for (const name of sectionsIn(["show", "mark", "again", "explain"]))
        expect(led.has(name) || !isKnown(name)).toBe(true);
      for (const name of sectionsIn(["recap"]))
        expect(led.has(name) || lesson.recalled[routine.slug]?.includes(name)).toBe(true);
      const none = named("none")[routine.slug] ?? [];
      for (const { sections } of steps) expect(sections.filter((name) => none.includes(name))).toEqual([]);
      const firstNew = steps.findIndex(({ kind }) => ["show", "again", "explain"].includes(kind));
      const lastRecap = steps.findLastIndex(({ kind }) => kind === "recap");
      expect(firstNew < 0 || lastRecap < firstNew).toBe(true);
      for (const { section, newMoves, taught } of plan.chunks) {
        if (isKnown(section)) expect([newMoves, taught]).toEqual([0, false]);
      }
      if (plan.fit.fits) {
        const sung = sectionsIn(["run-through"]);
        for (const name of names) if (!none.includes(name)) expect([name, sung.has(name)]).toEqual([name, true]);
      }
    }),
    { numRuns: runs(40) },
  );
});

describe("the end of a class", () => {
  const order = (extra: object = {}) =>
    stepsOf(planClass(workshopOf([dance], 60, extra), library)).map(({ kind }) => kind);

  test("is danced with the song: the other ways come before it", () => {
    const kinds = order();
    expect(kinds).toContain("away-from-mirror");
    expect(kinds.lastIndexOf("away-from-mirror")).toBeLessThan(kinds.indexOf("run-through"));
    expect(["run-through", "groups"]).toContain(kinds.at(-1));
  });

  test("of a class in the middle of the dance says where in the song that begins", () => {
    // Eight counts at 60 a minute a section: C comes 16 seconds after the first count, which is at 0:05.
    const known = routineOf({ tempo: 60, firstCount: 5, sections: [..."ABCD"].map((name) => eights(name, 1)) });
    const run = (of: Routine, sections: string[]) =>
      saidIn(
        planClass(workshopOf([of], 60, { sections: { test: sections } }), library),
        ({ kind }) => kind === "run-through",
      )[0];
    expect(run(known, ["C", "D"])).toContain("“C” begins at 0:21 in the song");
    expect(run(dance, ["C"])).toContain("Start the song shortly before “C”.");
    expect(run(known, ["A", "B"])).not.toContain("begins at");
  });
});

test("a long class without water says so", () => {
  const said = (minutes: number, breaks: number) =>
    planText(planClass(workshopOf([dance], minutes, { breaks }), library), en).summary.join(" ");
  expect(said(60, 0)).toContain("No water is planned");
  expect(said(60, 3)).not.toContain("No water is planned");
  expect(said(30, 0)).not.toContain("No water is planned");
});

test("the way into an improvised eight and out of it is linked; itself it is never drilled", () => {
  const own = { "1-8": { do: "Whatever you like", improvised: true } };
  const routine = routineOf({
    tempo: 60,
    sections: [eights("A", 1), { name: "Own", phrases: [own] }, eights("C", 1)],
  });
  const links = (of: Routine) =>
    stepsOf(planClass(workshopOf([of], 60), library)).flatMap(({ kind, sections }) =>
      kind === "link" ? [sections.join(" into ")] : [],
    );
  expect(links(routine)).toEqual(["A into Own", "Own into C"]);
  expect(kinds(planClass(workshopOf([routine], 60), library), "Own")).toEqual(["explain"]);
});

test("one section after a spoken opening has no run from the top of its own; the next one has", () => {
  const spoken = fromYaml(`sections:
  - { name: Voice, seconds: 12 }
  - { name: A, counts: [{ 1-4: Step left, 5-8: Sway right }] }
  - { name: B, counts: [{ 1-4: Kneel, 5-8: Look up }] }
  - { name: C, counts: [{ 1-4: Turn the head, 5-8: Bow }] }`);
  const plan = planClass(workshopOf([spoken], 60, { level: spoken.taught }), library);
  const tops = stepsOf(plan).flatMap(({ kind, until, speed }) =>
    kind === "from-the-top" && speed === 100 ? [until?.section ?? "all"] : [],
  );
  expect(tops).toEqual(["B", "all"]);
});
