import { describe, expect, test } from "vitest";
import { planText } from "../../src/publishing/plan-text.js";
import type { ClassPlan } from "../../src/teaching/class-plan.js";
import { planClass } from "../../src/teaching/plan.js";
import { en } from "../../src/wording/en.js";
import { eights, library, routineOf, workshopOf } from "./builder.js";

const dance = routineOf({ tempo: 60, sections: ["A", "B", "C", "D"].map((name) => eights(name, 1)) });
const kinds = ({ activities }: ClassPlan, section: string) =>
  activities.flatMap(({ kind, sections }) => (sections.join() === section ? [kind] : []));
const danced = ({ activities }: ClassPlan, wanted: string) =>
  activities.findLast(({ kind }) => kind === wanted)?.sections.join("");

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
    expect(plan.activities.some(({ kind }) => kind === "recap")).toBe(false);
    expect(danced(plan, "run-through")).toBe("AC");
    expect(planText(plan, en).summary[0]).toBe("No part of this class: B and D (Title of test).");
    const songs = plan.activities.filter(({ kind }) => kind === "run-through");
    expect(songs.map((song) => [song.pieces, planText(plan, en).activity(song).instruction])).toEqual([
      [2, expect.stringContaining("in two pieces")],
    ]);
  });

  test("known ones are recalled before anything new, never taught, and danced in the runs", () => {
    const plan = planClass(workshopOf([dance], 60, { known: { test: ["A", "B"] } }), library);
    expect(plan.activities.filter(({ kind }) => kind !== "free-practice")[0]).toMatchObject({
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
    const all = plan.activities.map(({ kind }) => kind);
    expect(all.filter((kind) => ["show", "mark", "drill", "link"].includes(kind))).toEqual([]);
    expect(all[0]).toBe("recap");
    expect(danced(plan, "run-through")).toBe("ABCD");
    expect(plan.fit.fits).toBe(true);
  });
});

test("a lesson given by values: what is neither taught nor recalled is danced in the runs all the same", () => {
  const lesson = { taught: { test: ["D"] }, recalled: { test: ["C"] }, danced: { test: ["A"] } };
  const plan = planClass(workshopOf([dance], 60), library, lesson);
  expect(plan.activities.find(({ kind }) => kind === "recap")?.sections).toEqual(["C"]);
  expect(danced(plan, "run-through")).toBe("ACD");
  expect(plan.routines[0]).toMatchObject({ recalled: ["C"], leftOut: ["B"] });
  expect(plan.chunks.find(({ section }) => section === "A")).toMatchObject({ taught: false, newMoves: 0 });
});

test("of several routines each has its own choice", () => {
  const two = [dance, routineOf({ slug: "other", tempo: 60, sections: [eights("X", 1), eights("Y", 1)] })];
  const plan = planClass(workshopOf(two, 90, { sections: { other: ["Y"] } }), library);
  expect(plan.chunks.map(({ section }) => section)).toEqual(["A", "B", "C", "D", "Y"]);
});
