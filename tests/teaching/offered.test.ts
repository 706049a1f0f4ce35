import { expect, test } from "vitest";
import { takesText } from "../../src/publishing/plan/takes-text.js";
import { planText } from "../../src/publishing/plan-text.js";
import type { ActivityStep } from "../../src/teaching/class-plan.js";
import { planClass } from "../../src/teaching/plan.js";
import { planRecording } from "../../src/teaching/recording.js";
import { en } from "../../src/wording/en.js";
import { fromYaml } from "../fixtures/from-yaml.js";
import { library, libraryWith, routineOf, saidIn, stepsOf, workshopOf } from "./builder.js";

/* A class at level 1 walks where level 2, which is offered to whoever has it, stands on the head. */
const headstand = routineOf({
  tempo: 100,
  sections: [
    {
      name: "Up",
      phrases: [
        {
          "1-4": { do: "Stand on the head", risks: ["inversion"], easier: {} },
          "5-6": "Come down",
          "7-8": "Wait",
        },
      ],
    },
    { name: "Home", phrases: [{ "1-4": "Walk home", "5-8": "Bow" }] },
  ],
});
const at = (minutes: number, of = library) => planClass(workshopOf([headstand], minutes, { level: "1" }), of);
const ofUp = ({ sections }: ActivityStep) => sections.includes("Up");

test("what is never slowed of a level above the class's gives way below full tempo, to what the class dances", () => {
  const slow = saidIn(at(30), (one) => ofUp(one) && one.kind === "mark");
  expect(slow[0]).toContain("in place of “Stand on the head” (Level 2, 1–4) dance “Walk”");
  for (const one of stepsOf(at(30)).filter((step) => ofUp(step) && step.speed < 100 && !step.moves?.length))
    expect([one.kind, one.without?.map(({ cue, instead }) => [cue, instead])]).toEqual([
      one.kind,
      [["Stand on the head", ["Walk"]]],
    ]);
});

test("who takes it is counted: once as it is shown, and in every run at full tempo that has it", () => {
  const plan = at(12);
  const runs = stepsOf(plan)
    .filter((step) => ofUp(step) && step.speed === 100 && step.kind !== "show" && step.kind !== "options")
    .reduce((sum, step) => sum + step.runs - (step.asTaught?.runs ?? 0), 0);
  expect(plan.load.taught.inversions).toBeUndefined();
  expect(plan.load.offered?.inversions).toBe(runs + 1);
  expect(planText(plan, en).summary.join(" ")).toContain(
    `Danced at full tempo or not at all, by those who take the highest level offered: upside down ${runs + 1} times.`,
  );
});

test("the planning's own limit holds for them too: further runs are danced as the class does", () => {
  const plan = at(60);
  expect(plan.limits).toMatchObject([{ part: "inversions", limit: 8, before: 0, offered: { after: 8, kept: true } }]);
  expect(plan.limits[0]?.offered?.before).toBeGreaterThan(8);
  expect(saidIn(plan, ({ asTaught }) => asTaught !== undefined)[0]).toMatch(
    /Level 2 dances .* as the class does, for the limit's sake\./,
  );
  const strict = at(60, libraryWith({ limits: { inversions: "1" } }));
  expect(strict.limits).toMatchObject([{ offered: { after: 3, kept: false } }]);
  expect(planText(strict, en).summary.join(" ")).toContain("for them it is not kept");
});

test("a run with something in it that has a caution, the class's or an option's, is danced without what is not safe today", () => {
  const [level1, level2] = [at(60), planClass(workshopOf([headstand], 60), library)];
  for (const plan of [level1, level2])
    for (const said of saidIn(plan, ({ kind }) => kind === "run-through" || kind === "away-from-mirror")) {
      expect(said).toContain("Leave out what is not safe today, and go on.");
      expect(said).not.toContain("whatever happens");
    }
  const plain = routineOf({ tempo: 100, sections: [{ name: "Home", phrases: [{ "1-4": "Walk", "5-8": "Bow" }] }] });
  const said = saidIn(planClass(workshopOf([plain], 20), library), ({ kind }) => kind === "run-through");
  expect(said[0]).toContain("with the song, whatever happens.");
});

test("a recording shows such an option at full tempo, with what its caution asks for", () => {
  const routine = fromYaml(`levels: [1, 2]
taught: 1
sections:
  - name: Up
    counts:
      - 1-4: { do: Walk, options: { 2: { do: Stand on the head, height: inverted, risk: [inversion] } } }
        5-8: { do: Wait, height: standing }`);
  const text = takesText(planRecording(routine, library), routine, library);
  expect(text).toMatch(/Level 2: .*Stand on the head.*\(take care: upside down\)\. Never slowly.*Have ready: a mat/);
});

test("in the details a version that dances all of it otherwise does not read as if it danced all of it", () => {
  const said = en.planSide.details.optionsOf({ names: [], options: [{ versions: ["seated"], cautions: [] }] }, true);
  expect(said).toBe("Seated: all of it in its own version.");
});

test("in the details steps with a caution are told apart, and what keeps them safe is said once, behind them", () => {
  const { sentence } = en.planSide.details;
  const safe = "Leave out what is not safe today, and go on.";
  expect(sentence([`away from the mirror full. ${safe}`, `song × 2. ${safe}`])).toBe(
    `away from the mirror full · song × 2. ${safe}`,
  );
  expect(sentence(["other side full. As one.", "song"])).toBe("other side full. As one. Song.");
});
