import { risks } from "../routine/vocabulary.js";
import type { Activity, BlockTopic, ClassPlan } from "../teaching/class-plan.js";
import { isFrame } from "../teaching/kinds.js";
import { loadParts } from "../teaching/load.js";
import type { Wording } from "../wording/wording.js";

/** What a class plan says: values of the planner through the catalogue, the same on page and paper. */
export interface PlanText {
  /** In a few plain sentences: what fits, where the time goes, what the body meets. */
  readonly summary: readonly string[];
  readonly block: (topic: BlockTopic) => string;
  readonly activity: (activity: Activity) => { readonly label: string; readonly instruction: string };
  /** What the body meets in it: contacts, and cautions by their short names. */
  readonly load: (activity: Activity) => string;
  readonly cautions: (activities: readonly Activity[]) => readonly string[];
}

export function planText(plan: ClassPlan, wording: Wording): PlanText {
  const { plan: said, time } = wording;
  const names = new Map(plan.chunks.map(({ id, name }) => [id, name]));
  const own = new Set(plan.chunks.flatMap(({ id, improvised }) => (improvised ? [id] : [])));
  const used = loadParts.filter((part) => plan.load.taught[part]);
  return {
    summary: summaryOf(plan, said),
    block: (topic) => {
      if (topic.is === "top") return said.blocks.top(topic.title);
      if (topic.is === "dance") return said.blocks.dance(topic.title);
      if (topic.is !== "chunk") return said.frame[topic.is](used, 0).label;
      const name = names.get(topic.chunk);
      return name ? said.blocks.chunk(topic.title, name) : topic.title;
    },
    activity: (activity) => {
      const { kind, seconds, runs = 0, easier, countsPerMinute, tempoIsEstimate = false } = activity;
      if (isFrame(kind)) return said.frame[kind](used, seconds);
      const { label, instruction } = said.activities[kind]({
        names: activity.chunks.flatMap((id) => names.get(id) ?? []),
        title: activity.title ?? "",
        ...(activity.until && { until: activity.until }),
        speed: activity.speed ?? 100,
        ...(countsPerMinute !== undefined && { tempo: time.tempo({ countsPerMinute, tempoIsEstimate }) }),
        runs,
        improvised: activity.chunks.length > 0 && activity.chunks.every((id) => own.has(id)),
        moves: activity.moves ?? [],
        groups: plan.settings.groups,
      });
      if (easier === undefined) return { label, instruction };
      return { label, instruction: `${instruction} ${said.easier(easier.runs, runs, easier.version)}` };
    },
    load: ({ load, groups }) => said.contacts(load, groups),
    cautions: (activities) => cautionsOf(activities, wording),
  };
}

/** The risks that some activities meet, with the groups where not all dancers of any of them do. */
function cautionsOf(activities: readonly Activity[], { risks: said }: Wording): readonly string[] {
  return risks.flatMap((risk) => {
    const meet = activities.filter(({ cautions }) => cautions.includes(risk));
    if (meet.length === 0) return [];
    const groups = meet.map(({ cautionGroups = [] }) => cautionGroups.find((one) => one.risk === risk)?.groups ?? []);
    const names = groups.some((those) => those.length === 0) ? [] : [...new Set(groups.flat())];
    return [said.of(risk, names)];
  });
}

function summaryOf(plan: ClassPlan, said: Wording["plan"]): readonly string[] {
  const { fit, level, minutes, load, groups = [] } = plan;
  const several = plan.routines.length > 1;
  const easiest = plan.routines.every(({ version, easiest }) => version === easiest);
  const planned = {
    level,
    easiest: easiest ? [...new Set(plan.routines.map(({ version }) => version))] : undefined,
  };
  return [
    ...(fit.fits
      ? said.fits(fit.least, fit.available, plan.freePractice)
      : [
          said.tooLong(fit.least, fit.available, fit.short, fit.upTo),
          ...fit.divisions.map(({ classes }) => said.division(classes, minutes)),
          said.minutesNeeded(fit.minutesNeeded),
        ]),
    ...plan.routines
      .filter(({ version }) => version !== level)
      .map(({ title, version }) => said.otherLevel(title, level, version)),
    ...plan.routines.flatMap(({ title, pauses }) => (pauses === undefined ? [] : [said.pauses(title, pauses)])),
    ...said.loads(load.taught, load.easiest, planned),
    ...said.groupLoads(groups, planned, several),
    ...plan.limits.map((outcome) => said.limit(outcome, planned, several)),
  ];
}
