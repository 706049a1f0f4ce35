import { expect, test } from "vitest";
import { packPrint } from "../../../src/publishing/pack/pack.js";
import { takesText } from "../../../src/publishing/plan/takes-text.js";
import { planText } from "../../../src/publishing/plan-text.js";
import { planClass } from "../../../src/teaching/plan.js";
import { planRecording } from "../../../src/teaching/recording.js";
import { en } from "../../../src/wording/en.js";
import { fromYaml } from "../../fixtures/from-yaml.js";
import { library, workshopOf } from "../../teaching/builder.js";

/* A pick-up of two counts leads into eights whose last move of the first lasts ten counts; level 3 stands on the head. */
const routine = fromYaml(`levels: [2, 3]
taught: 2
sections:
  - name: Strike
    counts: [{ from: 7, 7: Breathe in, 8: Snap }]
  - name: Flame
    counts:
      - 1-2: Long step left
        3-4: Close
        5: { do: "Melt down, elbows last", lasts: 10 }
      - 7-8: { do: Look up, options: { 3: { do: Stand on the head, risk: [inversion] } } }`);
const takes = takesText(planRecording(routine, library), routine, library);

test("in a recording what leads in is named, and called before what it leads into", () => {
  expect(takes).toContain("“The first part. We call this Strike, which leads into Flame.”");
  const lines = takes.split("\n").filter((line) => line.includes("Call, "));
  expect(lines[0]).toContain("Call, Strike: 7 Breathe in · 8 Snap");
  expect(lines[1]).toContain("Call, eight 1: 1–2 Long step left · 3–4 Close · 5 (10 counts) Melt down, elbows last");
});

test("in a recording an option that is never slowed says so, with what has to be there", () => {
  expect(takes).toContain(
    "Level 3: eight 2: 7–8 Stand on the head (take care: upside down). Never slowly: at full tempo, or only said. Have ready: a mat, room to come down, and a spotter who has been taught it.",
  );
});

test("a class plan calls a long move with its length, and no more of a cue than there is time for", () => {
  const plan = planClass(workshopOf([routine], 60), library);
  const text = planText(plan, en);
  const said = plan.activities.flatMap((one) => text.steps(one).filter(({ label }) => label === "Call"));
  expect(said.map(({ instruction }) => instruction)).toEqual([
    "7 Breathe in · 8 Snap · 1–2 Long step left · 3–4 Close · 5 (10 counts) Melt down, elbows last / 7–8 Look up",
  ]);
});

test("a plan says what a teacher would: nobody warms a seat, water is for drinking, a caution is a sentence of its own", () => {
  expect(en.plan.frame["warm-up"](["seat", "hips", "knees"]).instruction).toBe(
    "Warm the whole body, above all the hips and the knees.",
  );
  const upside = workshopOf([routine], 60, { level: "3" });
  const { elements } = packPrint(upside, library);
  const text = JSON.stringify(elements, (_, value: unknown) =>
    value instanceof Function ? (value() as readonly { text: string }[]).map(({ text }) => text).join("") : value,
  );
  expect(text).toMatch(/Take care: upside down\./);
});
