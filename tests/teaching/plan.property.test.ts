import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planText } from "../../src/publishing/plan-text.js";
import { dance } from "../../src/routine/dance.js";
import type { Routine, Workshop } from "../../src/routine/routine.js";
import type { ActivityStep, ClassPlan } from "../../src/teaching/class-plan.js";
import { type Load, plus } from "../../src/teaching/load.js";
import { planClass } from "../../src/teaching/plan.js";
import { en } from "../../src/wording/en.js";
import { routines as written } from "../fixtures/arbitrary.js";
import { runs } from "../runs.js";
import { library, libraryWith, stepsOf, workshopOf } from "./builder.js";

/** Any routine that can be danced: repeats, the other side, tempo changes, up to three times through. */
const anyRoutine = written()
  .map((sketch) => dance(sketch, library).routine)
  .filter((routine): routine is Routine => routine !== undefined);

const anyFrame = fc.record({
  warmUp: fc.constantFrom(0, 5, 12),
  coolDown: fc.constantFrom(0, 4),
  breaks: fc.constantFrom(0, 1, 5, 10),
  level: fc.constantFrom("1", "2", "3", "4"),
});

const anyClass = fc
  .record({
    routines: fc.array(anyRoutine, { maxLength: 3 }),
    minutes: fc.oneof(fc.integer({ min: 1, max: 240 }), fc.constantFrom(7.5, 0.1)),
    frame: anyFrame,
  })
  .map(({ routines, minutes, frame }) => {
    const named = routines.map((routine, index) => ({ ...routine, slug: `routine-${index}` }));
    return workshopOf(named, minutes, frame);
  });

/** Steps before one, of those that dance a chunk. */
function before(steps: readonly ActivityStep[], index: number, chunk: string): readonly ActivityStep[] {
  return steps.slice(0, index).filter(({ chunks }) => chunks.includes(chunk));
}

function check(name: string, holds: (workshop: Workshop, plan: ClassPlan) => void): void {
  test(name, () => {
    fc.assert(
      fc.property(anyClass, (workshop) => holds(workshop, planClass(workshop, library))),
      { numRuns: runs(30) },
    );
  });
}

describe("any class", () => {
  check("fills its slot to the second, without a gap or an overlap", (workshop, plan) => {
    let clock = 0;
    for (const { start, seconds } of plan.activities) {
      expect(start).toBe(clock);
      expect(Number.isInteger(seconds) && seconds > 0).toBe(true);
      clock += seconds;
    }
    expect(clock).toBe(Math.round(workshop.minutes * 60));
    if (!Number.isInteger(workshop.minutes)) return;
    for (const { seconds } of plan.activities) expect(seconds % 60).toBe(0);
  });

  check("has warm-up, breaks and cool-down as long as asked for, where the slot holds them", (workshop, plan) => {
    const { warmUp, breaks, coolDown, minutes } = workshop;
    if (warmUp + breaks + coolDown > minutes) return;
    const minutesOf = (wanted: string) =>
      plan.activities.filter(({ kind }) => kind === wanted).reduce((sum, { seconds }) => sum + seconds, 0) / 60;
    expect([minutesOf("warm-up"), minutesOf("water"), minutesOf("cool-down")]).toEqual([warmUp, breaks, coolDown]);
  });

  check(
    "dances nothing before it is shown, said to be known or explained, and nothing with the song before it",
    (_, plan) => {
      const steps = stepsOf(plan);
      const firsts = ["show", "again", "explain"];
      steps.forEach(({ kind, chunks }, index) => {
        if (firsts.includes(kind) || kind === "show-all") return;
        for (const chunk of chunks) {
          const earlier = before(steps, index, chunk);
          expect(earlier.some((one) => firsts.includes(one.kind))).toBe(true);
          if (kind === "run-through" || kind === "groups")
            expect(earlier.some(({ speed, ...one }) => speed === 100 && /drill|again|explain/.test(one.kind))).toBe(
              true,
            );
        }
      });
    },
  );

  check("teaches nothing from nothing that was danced before, and everything once", (_, plan) => {
    for (const { id, before: known, improvised, counts } of plan.chunks) {
      const alone = stepsOf(plan).filter(({ chunks }) => chunks.length === 1 && chunks[0] === id);
      const times = (wanted: string) => alone.filter(({ kind }) => kind === wanted).length;
      const free = improvised === true || counts === 0;
      const taught = plan.chunks.find((chunk) => chunk.id === id)?.taught ? 1 : 0;
      expect([times("explain"), times("again"), times("show")]).toEqual(
        free ? [taught, 0, 0] : known ? [0, taught, 0] : [0, 0, taught],
      );
      if (free || known) expect(times("mark")).toBe(0);
    }
  });

  check("has water or talk within a quarter of an hour of floor work", (_, plan) => {
    const floor = new Set(
      plan.chunks.flatMap(({ id, load }) =>
        (["knees", "hips", "seat", "spine"] as const).some((part) => load.taught[part]) ? [id] : [],
      ),
    );
    let since = 0;
    for (const { kind, seconds, chunks } of plan.activities) {
      if (kind === "water" || kind === "questions") since = 0;
      if (kind === "show" || !chunks.some((id) => floor.has(id))) continue;
      since += seconds;
      // An activity that is longer than that is not cut in two, and stands alone.
      expect(since <= 15 * 60 || since === seconds).toBe(true);
    }
  });

  check("drills at rising speeds", (_, plan) => {
    for (const { id } of plan.chunks) {
      const speeds = stepsOf(plan).flatMap(({ kind, chunks, speed }) =>
        kind === "drill" && chunks.includes(id) ? [speed] : [],
      );
      expect(speeds).toEqual(speeds.toSorted((a, b) => a - b));
    }
  });

  check("teaches what it says it teaches, and ends each routine with the song", (_, plan) => {
    for (const { taught, runs } of plan.chunks) expect(runs > 0).toBe(taught);
    if (plan.fit.upTo === undefined) return;
    const sung = new Set(stepsOf(plan).flatMap(({ kind, chunks }) => (kind === "run-through" ? chunks : [])));
    expect([...sung].sort()).toEqual(plan.chunks.flatMap(({ id, taught }) => (taught ? [id] : [])).toSorted());
  });

  check("says by how much it does not fit, and every part of a division fits", (workshop, plan) => {
    const { fits, least, available, short, minutesNeeded, divisions, left } = plan.fit;
    expect(fits).toBe(least <= available);
    expect(short).toBe(Math.max(0, least - available));
    expect(left.length === 0).toBe(fits);
    expect(planClass({ ...workshop, minutes: minutesNeeded }, library).fit.fits || fits).toBe(true);
    for (const { classes } of divisions) {
      for (const share of classes) expect(share.least + share.spare).toBe(available);
      for (const share of classes) expect(share.spare).toBeGreaterThanOrEqual(0);
      const everything = planClass({ ...workshop, minutes: 100_000 }, library);
      expect(classes.flatMap(({ sections }) => sections).length).toBe(
        new Set(everything.chunks.map(({ routine, sectionIndex }) => `${routine} ${sectionIndex}`)).size,
      );
    }
  });

  check("sums the load of its activities", (_, plan) => {
    const sum = (loads: readonly Load[]) => loads.reduce((total, load) => plus(total, load), {});
    expect(plan.load.taught).toEqual(sum(plan.activities.map(({ load }) => load)));
    expect(plan.load.easiest).toEqual(sum(plan.activities.map(({ easiest }) => easiest)));
  });

  check("is the same for the same input, and plain data", (workshop, plan) => {
    expect(planClass(workshop, library)).toEqual(plan);
    expect(JSON.parse(JSON.stringify(plan))).toEqual(plan);
  });
});

test("more minutes never teach less", () => {
  fc.assert(
    fc.property(anyClass, fc.integer({ min: 1, max: 40 }), (workshop, more) => {
      const short = planClass(workshop, library);
      const long = planClass({ ...workshop, minutes: workshop.minutes + more }, library);
      const taught = (plan: ClassPlan) => plan.chunks.filter((chunk) => chunk.taught).map(({ id }) => id);
      expect(taught(long)).toEqual(expect.arrayContaining(taught(short)));
      if (taught(long).length > taught(short).length) return;
      long.chunks.forEach((chunk, index) => {
        expect(chunk.runs).toBeGreaterThanOrEqual(short.chunks[index]?.runs ?? 0);
      });
    }),
    { numRuns: runs(100) },
  );
});

test("a limit is kept, or the plan says why; further runs never break one that the least keeps", () => {
  fc.assert(
    fc.property(
      anyClass,
      fc.constantFrom("knees" as const, "hands" as const, "spine" as const, "inversions" as const),
      fc.integer({ min: 0, max: 60 }),
      (workshop, part, limit) => {
        const limited = libraryWith({ limits: { [part]: String(limit) } });
        const plan = planClass(workshop, limited);
        // What never happens needs no limit.
        const keptIn = ({ limits }: ClassPlan) => limits.find((one) => one.part === part)?.kept ?? true;
        const kept = keptIn(plan);
        expect(kept).toBe((plan.load.taught[part] ?? 0) <= limit);
        expect(planText(plan, en).summary.some((sentence) => /not kept/.test(sentence))).toBe(
          plan.limits.some((one) => !one.kept),
        );
        const bare = planClass(workshop, libraryWith({ limits: { [part]: limit }, most: plan.settings.least }));
        if (keptIn(bare)) expect(kept).toBe(true);
      },
    ),
    { numRuns: runs(40) },
  );
});
