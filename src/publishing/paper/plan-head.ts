import type { ClassPlan } from "../../teaching/class-plan.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import type { Mark } from "../../typesetting/print.js";
import { type Span, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { bold, plain } from "./note-style.js";
import { margin } from "./page.js";
import { theirs } from "./theirs.js";

/** What a plan's side says beside the plan. */
export interface PlanAbout {
  /** Behind the title of the class: "class plan", "lesson 2". */
  readonly title: string;
  /** What its bookmark and the contents call it. */
  readonly bookmark: string;
  readonly gear: readonly string[];
}

/** What it is, when and where, and in a line each what matters before the class begins. */
export function headBlocks(
  plan: ClassPlan,
  { title, gear }: PlanAbout,
  width: number,
  wording: Wording,
): readonly Block[] {
  const { dates, pack, planSide, versions } = wording;
  const { date, venue, minutes, level, asked, fit } = plan;
  const about: readonly Span[] = [
    ...(date === undefined ? [] : [plain(`${dates.weekday(date)} · `)]),
    ...(venue === undefined ? [] : [theirs(venue, wording), plain(" · ")]),
    plain(pack.class(asked?.starts, minutes, versions.name(level))),
  ];
  const limits = plan.limits.flatMap((one) => [
    ...(one.before > one.limit ? [planSide.limit(one)] : []),
    ...(one.offered !== undefined && one.offered.before > one.limit
      ? [planSide.limitOffered({ ...one, ...one.offered })]
      : []),
  ]);
  const short = Math.ceil(fit.short / 60);
  const note = (spans: readonly Span[]) => textBlock(spans, { size: 10, width, before: 2 });
  return [
    textBlock([theirs(plan.title, wording, { style: "bold" }), plain(title)], { size: 18, width, tag: "H1" }),
    textBlock(about, { size: 11, width, before: 1 }),
    note([bold(fit.fits ? planSide.fits : planSide.tooLong(short, fit.upTo))]),
    ...(limits.length === 0 ? [] : [note([bold(planSide.limits), plain(planSide.listed(limits))])]),
    ...(gear.length === 0 ? [] : [note([bold(planSide.layOut), plain(planSide.listed(gear))])]),
  ];
}

/** What a further page goes on with. */
export function runningHeads(title: string, about: PlanAbout, pages: number, wording: Wording): readonly Mark[] {
  const spans = [
    theirs(title, wording, { style: "bold" as const }),
    plain(`${about.title} ${wording.planSide.continued}`),
  ];
  const [set] = wrap(spans, 11);
  if (set === undefined) return [];
  return Array.from({ length: pages - 1 }, (_, index) => ({
    page: index + 1,
    x: margin.side,
    y: margin.top,
    line: set,
  }));
}
