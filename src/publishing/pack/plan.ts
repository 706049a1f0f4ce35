import type { Activity, Block as ActivityBlock, ClassPlan } from "../../teaching/class-plan.js";
import { type Block, itemBlock, textBlock } from "../../typesetting/block.js";
import type { Wording } from "../../wording/wording.js";
import { headingBlock } from "../paper/note-style.js";
import { planText } from "../plan-text.js";

const size = 10;

/** The class plan on paper: what it comes to, then block by block what is done when, for how long, and what the body meets. */
export function planBlocks(plan: ClassPlan, title: string, width: number, wording: Wording): readonly Block[] {
  const { time } = wording;
  const text = planText(plan, wording);
  const head = ({ topic, start, seconds }: ActivityBlock): Block =>
    textBlock(
      [
        { text: `${time.clock(start)}  ${text.block(topic)}`, style: "bold" },
        { text: `  ${time.clock(seconds)}`, tone: "soft" },
      ],
      { size: 12, width, tag: "H3", before: 10, keepNext: true },
    );
  const item = (activity: Activity): Block => {
    const { start, seconds } = activity;
    const { label, instruction } = text.activity(activity);
    const contacts = text.load(activity);
    const body = [...(contacts === "" ? [] : [contacts]), ...text.cautions([activity])];
    return itemBlock(
      { text: time.clock(start) },
      [
        { text: label, style: "bold" },
        { text: `. ${instruction} ` },
        { text: [...body, time.clock(seconds)].join(" · "), tone: "soft" },
      ],
      { size, width, whole: true },
    );
  };
  return [
    headingBlock(title, { size: 11, width }),
    ...text.summary.map((sentence) => textBlock([{ text: sentence }], { size: 11, width: width * 0.8, before: 4 })),
    ...plan.blocks.flatMap((block) => [head(block), ...plan.activities.slice(block.from, block.to).map(item)]),
  ];
}
