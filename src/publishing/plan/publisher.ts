import type { Workshop } from "../../routine/routine.js";
import { planClass } from "../../teaching/plan.js";
import { wordingOf } from "../../wording/wording.js";
import type { Publisher } from "../publisher.js";

/** The class plan as data: `workshops/<slug>/plan.json`. */
export const plan: Publisher<Workshop> = {
  name: "plan",
  publish: (workshop, { library }) => [
    {
      path: `workshops/${workshop.slug}/plan.json`,
      kind: "plan",
      mediaType: "application/json",
      label: wordingOf(library.language).outputs.plan,
      content: `${JSON.stringify(planClass(workshop, library), null, 2)}\n`,
    },
  ],
};
