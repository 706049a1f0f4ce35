import type { Activity, ClassPlan } from "../../teaching/class-plan.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import type { Wording } from "../../wording/wording.js";
import { headingBlock } from "../paper/note-style.js";
import { planText, type SaidStep } from "../plan-text.js";

const size = 10;

/** The class plan on paper: what it comes to, then minute by minute what is done, and what the body meets. */
export function planBlocks(plan: ClassPlan, title: string, width: number, wording: Wording): readonly Block[] {
  const text = planText(plan, wording);
  const head = (activity: Activity): Block =>
    textBlock(
      [
        { text: `${text.clock(activity)}  ${text.label(activity)}`, style: "bold" },
        { text: `  ${wording.plan.span(activity.seconds)}`, tone: "soft" },
      ],
      { size: 12, width, tag: "H3", before: 10, keepNext: true },
    );
  const item = ({ label, instruction, load, cautions }: SaidStep): Block => {
    const care = cautions.length === 0 ? [] : [wording.plan.takeCare(cautions)];
    const body = [...(load === "" ? [] : [load]), ...care].join(" · ");
    return textBlock(
      [
        ...(label === "" ? [] : [{ text: `${label}. `, style: "bold" as const }]),
        { text: instruction },
        ...(body === "" ? [] : [{ text: ` ${body}`, tone: "soft" as const }]),
      ],
      { size, width, before: 2 },
    );
  };
  return [
    headingBlock(title, { size: 11, width }),
    ...text.summary.map((sentence) => textBlock([{ text: sentence }], { size: 11, width: width * 0.8, before: 4 })),
    ...plan.activities.flatMap((activity) => [head(activity), ...text.steps(activity).map(item)]),
  ];
}
