import { type Risk, risks, spotted as spottedRisks } from "../routine/vocabulary.js";
import type { Activity, ActivityStep, ClassPlan, PlannedChunk } from "../teaching/class-plan.js";
import { isFrame } from "../teaching/kinds.js";
import { type LoadPart, loadParts } from "../teaching/load.js";
import type { Wording } from "../wording/wording.js";

/** Something to do, in a few words and in a sentence or two. */
export interface SaidStep {
  /** Of no text where the activity is all there is to say. */
  readonly label: string;
  readonly instruction: string;
  /** What the body meets in it: contacts, "knees 3, hands 4". */
  readonly load: string;
  /** Cautions by their short names. */
  readonly cautions: readonly string[];
}

/** What a class plan says: values of the planner through the catalogue, the same on page and paper. */
export interface PlanText {
  /** In a few plain sentences: what fits, where the time goes, what the body meets. */
  readonly summary: readonly string[];
  /** When an activity begins, by the clock where the class says when it starts. */
  readonly clock: (activity: Activity) => string;
  readonly label: (activity: Activity) => string;
  /** What is done in an activity, one after the other, and what is called in it. */
  readonly steps: (activity: Activity) => readonly SaidStep[];
  readonly cautions: (activities: readonly Activity[]) => readonly string[];
  /** What of the body this class uses. */
  readonly used: readonly LoadPart[];
}

export function planText(plan: ClassPlan, wording: Wording): PlanText {
  const { plan: said } = wording;
  const chunks = new Map(plan.chunks.map((chunk) => [chunk.id, chunk]));
  const used = loadParts.filter((part) => plan.load.taught[part]);
  return {
    used,
    summary: summaryOf(plan, said),
    clock: ({ start }) => said.clock(start, plan.asked?.starts),
    label: ({ kind, title = "", chunk = "" }) => {
      if (isFrame(kind)) return said.frame[kind](used, 0).label;
      if (kind !== "teach") return said.topics[kind](title);
      const name = chunks.get(chunk)?.name;
      return name ? said.topics.teach(title, name) : title;
    },
    steps: ({ kind, seconds, title = "", chunk = "", steps }) => {
      if (isFrame(kind)) return [{ ...said.frame[kind](used, seconds), label: "", load: "", cautions: [] }];
      const { calls = [], improvised = false } = kind === "teach" ? (chunks.get(chunk) ?? {}) : {};
      return [
        ...steps.map((step, index) => saidStep(step, steps.slice(0, index), title, chunks, plan, wording)),
        ...(calls.length > 0 && !improvised ? [{ ...said.call(calls), load: "", cautions: [] }] : []),
      ];
    },
    cautions: (activities) => cautionsOf(activities, wording),
  };
}

function saidStep(
  step: ActivityStep,
  before: readonly ActivityStep[],
  title: string,
  chunks: ReadonlyMap<string, PlannedChunk>,
  plan: ClassPlan,
  wording: Wording,
): SaidStep {
  const { plan: said } = wording;
  const { label, instruction } = said.steps[step.kind](dancedOf(step, title, chunks, plan, wording));
  const { without, runs, turns } = asidesOf(step, before, chunks, plan, wording);
  return {
    label,
    instruction: [instruction, ...without, ...runs, ...turns].join(" "),
    load: said.contacts(step.load, step.groups),
    // Options say themselves whose a caution is.
    cautions: step.kind === "options" ? [] : cautionsOf([step], wording),
  };
}

/** A step's values as the catalogue takes them. */
export type Danced = Parameters<Wording["plan"]["steps"]["show"]>[0];

export function dancedOf(
  step: ActivityStep,
  title: string,
  chunks: ReadonlyMap<string, PlannedChunk>,
  plan: ClassPlan,
  { risks: cautions, run, stance, time }: Wording,
): Danced {
  const { runs, speed, until, countsPerMinute, tempoIsEstimate = false } = step;
  const danced = step.chunks.flatMap((id) => chunks.get(id) ?? []);
  return {
    ...{ names: danced.map(({ name }) => name), title, speed, runs },
    ...(until && { until }),
    ...(countsPerMinute !== undefined && { tempo: time.tempo({ countsPerMinute, tempoIsEstimate }) }),
    pieces: step.pieces ?? 1,
    entries: (step.entries ?? []).map((entry) => ({ ...entry, stance: stance.whole(entry.stance) })),
    cues: (step.cues ?? []).map(({ at: seconds, ...name }) => ({
      ...name,
      ...(seconds !== undefined && { at: time.clock(seconds) }),
    })),
    ...(step.times && { times: step.times }),
    ...(step.form && { form: { ...step.form, said: run.timesThrough(step.form) } }),
    improvised: danced.length > 0 && danced.every(({ improvised }) => improvised),
    before: danced.at(-1)?.before,
    moves: step.moves ?? [],
    options: step.options ?? [],
    asks: cautions.asks(step.cautions),
    risky: danced.some(({ cautions }) => cautions.length > 0) || plan.activities.some((one) => offersRisk(one, step)),
    groups: plan.settings.groups,
  };
}

/** What is said behind a step. */
interface StepAsides {
  /** What is not slowed, and whether the activity has said so before. */
  readonly without: readonly string[];
  readonly isTold: boolean;
  /** Whose runs are other ones, for a limit's sake. */
  readonly runs: readonly string[];
  /** Who waits for a spotter, once an activity. */
  readonly turns: readonly string[];
}

/** @param before the steps of its activity so far */
export function asidesOf(
  step: ActivityStep,
  before: readonly ActivityStep[],
  chunks: ReadonlyMap<string, PlannedChunk>,
  plan: ClassPlan,
  { plan: said }: Wording,
): StepAsides {
  const { runs, easier, spared, asTaught, without } = step;
  const names = step.chunks.flatMap((id) => chunks.get(id)?.name ?? []);
  // The first runs are the class's own: nobody meets a move for the first time when they are tired.
  const runsOf = (wanted: "asTaught" | "spared" | "easier") => {
    const later = { asTaught: (spared ?? 0) + (easier?.runs ?? 0), spared: easier?.runs ?? 0, easier: 0 }[wanted];
    const number = { asTaught: asTaught?.runs ?? 0, spared: spared ?? 0, easier: easier?.runs ?? 0 }[wanted];
    return { from: runs - later - number + 1, to: runs - later, of: runs };
  };
  const inTurns = (one: ActivityStep) => one.speed === 100 && one.kind !== "show" && spotted(one, plan);
  const told = before.some((one) => JSON.stringify(one.without) === JSON.stringify(without));
  return {
    without: without ? [told ? said.withoutAgain : said.without({ names }, without)] : [],
    runs: [
      ...(asTaught ? [said.asTaught(runsOf("asTaught"), asTaught.version)] : []),
      ...(spared ? [said.spared(runsOf("spared"))] : []),
      ...(easier ? [said.easier(runsOf("easier"), easier.version)] : []),
    ],
    turns: inTurns(step) && !before.some(inTurns) ? [said.turns] : [],
    isTold: told,
  };
}

/** Whether an activity shows an option with a caution for something that a step dances. */
function offersRisk(
  { steps }: Activity,
  { chunks }: ActivityStep,
  wanted: (risk: Risk) => boolean = () => true,
): boolean {
  const shown = steps.filter(({ options = [] }) => options.some(({ cautions }) => cautions.some(wanted)));
  return shown.some((one) => one.chunks.some((id) => chunks.includes(id)));
}

/** Whether something in a step asks for a spotter, at the class's level or in an option that is offered. */
function spotted(step: ActivityStep, { activities }: ClassPlan): boolean {
  const isSpotted = (risk: Risk) => spottedRisks.includes(risk);
  return step.cautions.some(isSpotted) || activities.some((one) => offersRisk(one, step, isSpotted));
}

/** The risks that some activities meet, with the groups where not all dancers of any of them do. */
function cautionsOf(
  activities: readonly Pick<Activity, "cautions" | "cautionGroups">[],
  { risks: said }: Wording,
): readonly string[] {
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
    ...plan.routines.flatMap(({ title, recalled = [], leftOut = [] }) => [
      ...(recalled.length > 0 ? [said.recalled(recalled, title)] : []),
      ...(leftOut.length > 0 ? [said.leftOut(leftOut, title)] : []),
    ]),
    ...(minutes > plan.settings.waterEvery && plan.activities.every(({ kind }) => kind !== "water")
      ? [said.noWater]
      : []),
    ...(fit.fits
      ? said.fits(fit.least, fit.available, plan.freePractice, plan.questions)
      : [
          said.tooLong(fit.least, fit.available, fit.short, fit.upTo),
          ...fit.divisions.map(({ classes }) => said.division(classes, minutes)),
          said.minutesNeeded(fit.minutesNeeded),
        ]),
    ...plan.routines.flatMap(({ title, version, adaptation }) => (adaptation ? [said.adaptation(title, version)] : [])),
    ...plan.routines
      .filter(({ version }) => version !== level)
      .map(({ title, version }) => said.otherLevel(title, level, version)),
    ...plan.routines.flatMap(({ title, pauses }) => (pauses === undefined ? [] : [said.pauses(title, pauses)])),
    ...said.loads(load.taught, load.easiest, planned),
    ...said.unslowed(load.taught, load.offered),
    ...said.groupLoads(groups, planned, several),
    ...plan.limits.map((outcome) => said.limit(outcome, planned, several)),
  ];
}
