import type { Risk } from "../routine/vocabulary.js";
import type { Activity, ActivityStep, ClassPlan, PlannedChunk } from "../teaching/class-plan.js";
import { isFrame } from "../teaching/kinds.js";
import type { LoadPart } from "../teaching/load.js";
import type { Wording } from "../wording/wording.js";
import { asidesOf, type Danced, dancedOf, planText } from "./plan-text.js";

/** An activity as the plan's side has it, and what its details say. */
export interface PlanEntry {
  readonly kind: Activity["kind"];
  /** The routine's slug, and the section that is taught. */
  readonly routine?: string;
  readonly section?: string;
  /** By the clock, to the minute. */
  readonly clock: string;
  /** Minutes since the beginning of the slot. */
  readonly start: number;
  /** Whole, so that those of all activities are the slot's. */
  readonly minutes: number;
  /** With its routine. */
  readonly name: string;
  /** As it is called in its place: where the entry before it was of the same routine, without that. */
  readonly short: string;
  /** What is done, a word or two a step. */
  readonly how: readonly string[];
  /** All that it meets, with whose it is where not everybody's. */
  readonly cautions: readonly string[];
  readonly details: PlanDetails;
}

/** What there is to look up about an activity. */
export interface PlanDetails {
  readonly steps: string;
  readonly hard: readonly string[];
  /** All that is said of the options, or what the handouts do not say. */
  readonly options: (whole: boolean) => readonly string[];
  readonly call?: string;
  /** What the body meets in it, part by part. */
  readonly load: string;
}

/** A plan's activities in order. Where the library plans in smaller units, the clock is rounded, and the minutes are what lies between. */
export function planEntries(plan: ClassPlan, wording: Wording): readonly PlanEntry[] {
  const text = planText(plan, wording);
  const chunks = new Map(plan.chunks.map((chunk) => [chunk.id, chunk]));
  return plan.activities.map((activity, index): PlanEntry => {
    const { kind, routine, chunk = "", start, seconds } = activity;
    const [from, to] = [Math.round(start / 60), Math.round((start + seconds) / 60)];
    const section = kind === "teach" ? chunks.get(chunk)?.section : undefined;
    const before = plan.activities.slice(0, index).findLast((one) => one.routine !== undefined)?.routine;
    const name = text.label(activity);
    return {
      kind,
      ...(routine !== undefined && { routine }),
      ...(section !== undefined && { section }),
      clock: text.clock({ ...activity, start: from * 60 }),
      start: from,
      minutes: to - from,
      name,
      short: (before === routine && shortName(activity, chunks, wording)) || name,
      how: howOf(activity, chunks, plan, wording),
      cautions: activity.cautions.map((risk) => cautionOf(risk, activity, wording)),
      details: detailsOf(activity, text.used, chunks, plan, wording),
    };
  });
}

type Chunks = ReadonlyMap<string, PlannedChunk>;

/** What an activity is called where its routine is known. */
function shortName({ kind, chunk = "", steps }: Activity, chunks: Chunks, { planSide }: Wording): string | undefined {
  if (isFrame(kind)) return undefined;
  if (kind === "dance" && steps.every((step) => step.kind === "groups")) return planSide.topics.groups;
  if (kind !== "teach") return planSide.topics[kind];
  const name = chunks.get(chunk)?.name;
  return name && planSide.topics.teach(name);
}

function howOf(activity: Activity, chunks: Chunks, plan: ClassPlan, wording: Wording): readonly string[] {
  const { how } = wording.planSide;
  return activity.steps.map((step) => {
    const danced = dancedOf(step, activity.title ?? "", chunks, plan, wording);
    const isAlone = activity.kind === "from-the-top" && step.kind === "from-the-top";
    return how[isAlone ? "drill" : step.kind](danced);
  });
}

/** A risk with the groups that meet it, and the versions where it is those of its options alone. */
function cautionOf(risk: Risk, { steps, cautionGroups = [] }: Activity, { risks, description }: Wording): string {
  const groups = cautionGroups.find((one) => one.risk === risk)?.groups ?? [];
  const isTaught = steps.some((step) => step.kind !== "options" && step.cautions.includes(risk));
  const shown = steps.flatMap(({ options = [] }) => options.filter(({ cautions }) => cautions.includes(risk)));
  const ids = [...new Set(shown.flatMap(({ versions }) => versions))];
  if (isTaught || ids.length === 0) return risks.of(risk, groups);
  const isNumber = (id: string) => /^\d+$/.test(id);
  return risks.of(
    risk,
    groups,
    description.versions(
      ids.filter(isNumber),
      ids.filter((id) => !isNumber(id)),
    ),
  );
}

function detailsOf(
  activity: Activity,
  used: readonly LoadPart[],
  chunks: Chunks,
  plan: ClassPlan,
  wording: Wording,
): PlanDetails {
  const { plan: said, planSide } = wording;
  const { kind, steps, title = "", chunk = "" } = activity;
  // Of what frames the dancing, the warm-up and the cool-down alone say more than their names.
  const instruction = kind === "warm-up" || kind === "cool-down" ? said.frame[kind](used).instruction : "";
  if (isFrame(kind)) return { steps: instruction, hard: [], options: () => [], load: "" };
  const danced = (step: ActivityStep): Danced => dancedOf(step, title, chunks, plan, wording);
  const { calls = [], improvised = false } = kind === "teach" ? (chunks.get(chunk) ?? {}) : {};
  const of = (wanted: ActivityStep["kind"]) => steps.filter((step) => step.kind === wanted);
  return {
    steps: stepsSaid(steps, danced, chunks, plan, wording),
    hard: of("detail").map((step) => planSide.details.hardOf(danced(step))),
    options: (whole) => of("options").map((step) => planSide.details.optionsOf(danced(step), whole)),
    ...(calls.length > 0 && !improvised && { call: planSide.details.callOf(calls) }),
    load: said.contacts(activity.load, activity.groups),
  };
}

/** The steps one after the other, each with what is said of its runs, and then what holds for several of them. */
function stepsSaid(
  steps: readonly ActivityStep[],
  danced: (step: ActivityStep) => Danced,
  chunks: Chunks,
  plan: ClassPlan,
  wording: Wording,
): string {
  const { planSide, print } = wording;
  const sentences: string[] = [];
  const after: string[] = [];
  let row: string[] = [];
  const close = () => {
    if (row.length > 0) sentences.push(planSide.details.sentence(row));
    row = [];
  };
  steps.forEach((step, index) => {
    const { kind } = step;
    if (kind === "explain") {
      close();
      sentences.push(wording.plan.steps.explain(danced(step)).instruction);
    } else if (kind !== "options" && kind !== "detail") row.push(planSide.details.steps[kind](danced(step)));
    const { without, isTold, runs, turns } = asidesOf(step, steps.slice(0, index), chunks, plan, wording);
    if (runs.length > 0) close();
    sentences.push(...runs);
    after.push(...(isTold ? [] : without), ...turns);
  });
  close();
  return [...sentences, ...after].map(print.opening).join(" ");
}
