import type { Activity, ClassPlan, Block as Stretch } from "../../teaching/class-plan.js";
import { type Block, itemBlock, textBlock } from "../../typesetting/block.js";
import type { Wording } from "../../wording/wording.js";
import { clockText } from "../figures.js";
import { headingBlock } from "../paper/note-style.js";
import { cautionOf } from "../safety.js";

const size = 10;

/** The class plan on paper: what it comes to, then block by block what is done when, for how long, and what the body meets. */
export function planBlocks(plan: ClassPlan, width: number, wording: Wording): readonly Block[] {
  const style = { size, width };
  return [
    headingBlock(wording.pack.classPlan, { size: 11, width }),
    ...plan.summary.map((sentence) => textBlock([{ text: sentence }], { size: 11, width: width * 0.8, before: 4 })),
    ...plan.blocks.flatMap((stretch) => [
      headBlock(stretch, width),
      ...plan.activities.slice(stretch.from, stretch.to).map((activity) => activityBlock(activity, style)),
    ]),
  ];
}

function headBlock({ label, start, seconds }: Stretch, width: number): Block {
  const text = `${clockText(start)}  ${label}`;
  return textBlock(
    [
      { text, style: "bold" },
      { text: `  ${clockText(seconds)}`, tone: "soft" },
    ],
    {
      size: 12,
      width,
      tag: "H3",
      before: 10,
      keepNext: true,
    },
  );
}

function activityBlock(activity: Activity, style: { readonly size: number; readonly width: number }): Block {
  const { start, seconds, label, instruction } = activity;
  const soft = [...bodyWords(activity), clockText(seconds)].join(" · ");
  return itemBlock(
    { text: clockText(start) },
    [{ text: label, style: "bold" }, { text: `. ${instruction} ` }, { text: soft, tone: "soft" }],
    { ...style, whole: true },
  );
}

/** What an activity asks of the body: contacts by part, and its cautions. */
function bodyWords({ load, cautions }: Activity): readonly string[] {
  const contacts = Object.entries(load).map(([part, times]) => `${part} ${times}`);
  return [...(contacts.length > 0 ? [contacts.join(", ")] : []), ...cautions.map((risk) => cautionOf(risk).label)];
}
