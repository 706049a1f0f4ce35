import { expect, test } from "vitest";
import { takesText } from "../../src/publishing/plan/takes-text.js";
import type { Routine } from "../../src/routine/routine.js";
import { planClass } from "../../src/teaching/plan.js";
import { planRecording } from "../../src/teaching/recording.js";
import { eights, library, routineOf, saidIn, stepsOf, workshopOf } from "./builder.js";

/* Two walls, danced twice over; what is asked for here needs no more of the dance than that. */
const walls: Routine = routineOf({
  tempo: 100,
  walls: 2,
  times: 4,
  sections: [eights("A", 1), { name: "B", phrases: [{ "1-4": "Walk", "5-8": { do: "Turn round", turn: 4 } }] }],
});

test("walls are explained right before the first run that has them, and never where the song goes once through", () => {
  const steps = stepsOf(planClass(workshopOf([walls], 60), library));
  const form = steps.findIndex((step) => step.form !== undefined);
  expect(steps[form]).toMatchObject({ kind: "explain", form: { walls: 2, times: 4 } });
  expect(steps[form + 1]?.kind).toBe("run-through");
  expect(steps.findIndex(({ kind }) => kind === "run-through")).toBe(form + 1);
  expect(steps.filter((step) => step.form !== undefined)).toHaveLength(1);
  const once = planClass(workshopOf([routineOf({ tempo: 100, sections: [eights("A", 2)] })], 60), library);
  expect(stepsOf(once).some((step) => step.form !== undefined || step.times !== undefined)).toBe(false);
});

test("a plan says whether all of it is one wall or the whole dance", () => {
  const plan = planClass(workshopOf([walls], 60), library);
  expect(saidIn(plan, ({ kind }) => kind === "from-the-top")[0]).toContain("one time through");
  expect(saidIn(plan, ({ kind }) => kind === "run-through")[0]).toContain("with the song, 4 times through");
  expect(saidIn(plan, ({ form }) => form !== undefined)[0]).toMatch(
    /^Walls\. Say how it goes round: 16 counts, 2 walls, 4 times through\..*facing front, back.*Walk the turn into the next wall once\./,
  );
});

test("a recording says the same aloud, before the whole of it", () => {
  const text = takesText(planRecording(walls, library), walls, library);
  const [around, top] = [text.indexOf("How it goes round."), text.indexOf("From the top")];
  expect(around).toBeGreaterThan(0);
  expect(top).toBeGreaterThan(around);
  expect(text.slice(around, top)).toContain("“16 counts, 2 walls, 4 times through.");
  expect(text.slice(top)).toMatch(/\(one time through\) on the counts[\s\S]*\(4 times through\) on the counts/);
});
