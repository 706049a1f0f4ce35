import type { Workshop } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import { planOf } from "../plan-of.js";
import type { Publisher } from "../publisher.js";

/** The class plan, or a course with a plan for each of its lessons, as data: `workshops/<slug>/plan.json`. */
export const plan: Publisher<Workshop> = {
  name: "plan",
  publish: (workshop, { library }) => [
    {
      path: `workshops/${workshop.slug}/plan.json`,
      kind: "plan",
      mediaType: "application/json",
      label: wordingOf(library.language).outputs.plan,
      content: `${JSON.stringify(planOf(workshop, library), null, 2)}\n`,
    },
  ],
};
