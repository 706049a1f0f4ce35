import type { Routine } from "../routine/routine.js";
import { sectionName } from "../routine/sheet.js";
import { type Risk, risks } from "../routine/vocabulary.js";
import { differ } from "./class-load.js";
import type {
  Activity,
  Block,
  BlockTopic,
  GroupCaution,
  GroupLoad,
  PlannedChunk,
  SectionEnd,
  UnslowedCue,
} from "./class-plan.js";
import type { Reach } from "./class-steps.js";
import type { RatedMove } from "./difficulty.js";
import { type ActivityKind, isFrame } from "./kinds.js";
import { type GroupLoads, heaviest, heaviestOf, type Load, plus } from "./load.js";
import { type Chunk, type Material, nameOf, type RoutinePart } from "./material.js";
import { asMarked } from "./never-slowed.js";
import type { ClassSettings } from "./settings.js";
import { dancingAlone, type Step } from "./steps.js";
import type { TimedEntry } from "./timetable.js";

/** A step with its runs, how many of them are danced in the easiest option, and how many without what is never slowed. */
export interface PlannedStep {
  readonly step: Step;
  readonly runs: number;
  readonly easier: number;
  readonly spared: number;
}

/** Of all runs of a step, group by group: as planned, and of a dancer who stays at the easiest level. */
export function loadsAsPlanned({ step, runs, easier, spared }: PlannedStep): GroupLoads {
  return step.loads.map(({ taught, easiest }, group) => ({
    taught: plus(
      plus(plus({}, taught, runs - easier - spared), easiest, easier),
      step.spared[group]?.taught ?? {},
      spared,
    ),
    easiest: plus(plus({}, easiest, runs - spared), step.spared[group]?.easiest ?? {}, spared),
  }));
}

/** Those of some loads that tell the groups apart, by their names; nothing where all are the same. */
export function byGroup(names: readonly string[], loads: readonly Load[]): readonly GroupLoad[] | undefined {
  if (!differ(loads)) return undefined;
  return names.map((group, index) => ({ group, load: loads[index] ?? {} }));
}

export interface PlanContext {
  readonly material: Material;
  /** Of the material's chunks. */
  readonly ids: readonly string[];
  readonly settings: ClassSettings;
  /** Of the whole class. */
  readonly load: Load;
}

export function activityOf(place: TimedEntry, planned: readonly PlannedStep[], context: PlanContext): Activity {
  const { start, seconds } = place;
  if ("frame" in place) {
    const none = { sections: [], chunks: [], load: {}, easiest: {}, cautions: [] };
    return { kind: place.frame, start, seconds, ...none };
  }
  const plannedStep = planned[place.step];
  const part = context.material.parts[plannedStep?.step.part ?? -1];
  if (!plannedStep || !part) throw new RangeError(`No step ${place.step}`);
  const { step, runs, easier, spared } = plannedStep;
  const chunks = step.chunks.flatMap((index) => context.material.chunks[index] ?? []);
  const tempo = oneTempo(chunks, step.speed);
  const version = part.versions.easiest.id;
  return {
    kind: step.kind,
    routine: part.routine.slug,
    title: part.routine.title,
    sections: [...new Set(chunks.map(({ section }) => section.name))],
    chunks: step.chunks.flatMap((index) => context.ids[index] ?? []),
    ...(isDancedWhole(step.kind) && !part.last && { until: endOf(part) }),
    ...(step.pieces > 1 && { pieces: step.pieces }),
    ...(step.moves.length > 0 && { moves: step.moves.map(hardMove) }),
    speed: step.speed,
    ...(tempo !== undefined && { countsPerMinute: tempo }),
    ...(tempo !== undefined && chunks.some(({ section }) => section.tempoIsEstimate) && { tempoIsEstimate: true }),
    runs,
    ...(easier > 0 && { easier: { version, runs: easier } }),
    ...(spared > 0 && { spared }),
    ...withoutIn(step, chunks),
    start,
    seconds,
    ...heaviestAndGroups(part.routine, loadsAsPlanned(plannedStep)),
    ...cautionsOf(
      chunks.map((chunk) => ({ ...chunk, dancers: dancersIn(step, chunk) })),
      levelsDanced(plannedStep),
    ),
  };
}

/** What each group dances of a chunk in a step. */
function dancersIn({ moves, speed }: Step, chunk: Chunk): Chunk["dancers"] {
  const dancers = moves.length === 0 ? chunk.dancers : dancingAlone(chunk, moves);
  return speed < 100 ? asMarked(dancers) : dancers;
}

/** The levels at which some run is danced; of a step without runs the taught one. */
function levelsDanced({ runs, easier }: PlannedStep): readonly Level[] {
  if (easier === 0) return ["taught"];
  return easier < runs ? ["taught", "easiest"] : ["easiest"];
}

/** What a step leaves out since it is slower than the dance. */
function withoutIn({ speed, moves }: Step, chunks: readonly Chunk[]): Pick<Activity, "without"> {
  if (speed >= 100 || moves.length > 0) return {};
  const without = new Map<string, UnslowedCue>();
  for (const { move, groups, instead } of chunks.flatMap(({ unslowed }) => unslowed)) {
    const { text: cue } = move.cue;
    const way = { cue, on: move.on, instead: instead.map((one) => one.cue.text) };
    if (!without.has(cue)) without.set(cue, { ...way, ...(groups.length > 0 && { groups }) });
  }
  return without.size === 0 ? {} : { without: [...without.values()] };
}

function hardMove({ move, groups }: RatedMove): {
  readonly cue: string;
  readonly on: string;
  groups?: readonly string[];
} {
  return { cue: move.cue.text, on: move.on, ...(groups.length > 0 && { groups }) };
}

function heaviestAndGroups(
  { groups: names }: Routine,
  loads: GroupLoads,
): Pick<Activity, "load" | "easiest" | "groups"> {
  const taught = loads.map((one) => one.taught);
  const groups = byGroup(names, taught);
  return {
    load: heaviest(taught),
    easiest: heaviest(loads.map(({ easiest }) => easiest)),
    ...(groups && { groups }),
  };
}

function oneTempo(chunks: readonly Chunk[], speed: number): number | undefined {
  const [tempo, ...others] = chunks.map(({ section }) => section.countsPerMinute);
  if (!tempo || others.some((other) => !other.equals(tempo))) return undefined;
  return tempo.mul(speed).div(100).round(1).valueOf();
}

/** Where the class is in a routine: the end of the part that it has reached. */
export function endOf({ routine, section }: RoutinePart): SectionEnd {
  return { routine: routine.slug, title: routine.title, ...sectionName(routine, section) };
}

function isDancedWhole(kind: ActivityKind): boolean {
  return kind === "from-the-top" || isDance(kind);
}

function isDance(kind: ActivityKind): boolean {
  return kind === "run-through" || kind === "away-from-mirror" || kind === "mirrored" || kind === "groups";
}

/** The running order in fewer lines: activities that follow each other on one topic are one line. */
export function blocksOf(activities: readonly Activity[]): readonly Block[] {
  const blocks: Block[] = [];
  activities.forEach((activity, index) => {
    const { start, seconds } = activity;
    const topic = topicOf(activity);
    const last = blocks.at(-1);
    if (last && isSame(last.topic, topic))
      blocks[blocks.length - 1] = { ...last, seconds: last.seconds + seconds, to: index + 1 };
    else blocks.push({ topic, start, seconds, from: index, to: index + 1 });
  });
  return blocks;
}

function topicOf({ kind, title = "", chunks }: Activity): BlockTopic {
  if (isFrame(kind)) return { is: kind };
  if (kind === "from-the-top") return { is: "top", title };
  return isDance(kind) ? { is: "dance", title } : { is: "chunk", title, chunk: chunks.at(-1) ?? "" };
}

function isSame(one: BlockTopic, other: BlockTopic): boolean {
  return Object.entries(one).every(([key, value]) => Object.entries(other).some(([k, v]) => k === key && v === value));
}

/* Chunks */

/** "low-tide/1": a routine's slug and the number of the chunk in it. */
export function chunkIds(material: Material): readonly string[] {
  const numbers = new Map<Routine, number>();
  return material.chunks.map(({ routine }) => {
    const number = (numbers.get(routine) ?? 0) + 1;
    numbers.set(routine, number);
    return `${routine.slug}/${number}`;
  });
}

export function plannedChunks(
  context: PlanContext,
  reach: Reach,
  planned: readonly PlannedStep[],
): readonly PlannedChunk[] {
  const taught = new Set(context.material.parts.slice(0, reach.parts).flatMap((part) => part.chunks));
  for (const index of context.material.parts[0]?.chunks.slice(0, reach.chunks) ?? []) taught.add(index);
  const recalled = new Set(context.material.recaps.flatMap((recap) => recap.chunks));
  const runs = context.material.chunks.map(() => ({ all: 0, full: 0 }));
  for (const { step, runs: times } of planned)
    for (const index of step.kind === "show" ? [] : step.chunks) {
      const sum = runs[index];
      if (!sum) continue;
      sum.all += times;
      if (step.speed === 100) sum.full += times;
    }
  return context.material.chunks.map((chunk, index) => ({
    id: context.ids[index] ?? "",
    routine: chunk.routine.slug,
    section: chunk.section.name,
    name: nameOf(chunk),
    sectionIndex: chunk.sectionIndex,
    phrases: chunk.phrases,
    counts: chunk.counts,
    ...(chunk.improvised && { improvised: true as const }),
    seconds: rounded(chunk.seconds.valueOf(), 1000),
    newMoves: chunk.moves.filter(({ known }) => known === "no").length,
    points: rounded(chunk.points, 100),
    density: rounded((chunk.points * 8) / chunk.counts, 100),
    ...cautionsOf([chunk], ["taught"]),
    load: heaviestOf(chunk.loads),
    taught: taught.has(index),
    ...(recalled.has(index) && { recalled: true as const }),
    runs: runs[index]?.all ?? 0,
    fullTempoRuns: runs[index]?.full ?? 0,
  }));
}

type Level = "taught" | "easiest";

/** The risks that some chunks of a routine meet at these levels, and whose they are where not all of its groups meet them. */
function cautionsOf(chunks: readonly Chunk[], levels: readonly Level[]): Pick<Activity, "cautions" | "cautionGroups"> {
  const names = chunks[0]?.routine.groups ?? [];
  const meets = (risk: Risk, group: number) =>
    chunks.some(({ dancers }) =>
      levels.some((level) => dancers[group]?.[level].some((move) => move.risks.includes(risk))),
    );
  const met = risks.flatMap((risk): readonly GroupCaution[] => {
    const numbers = (chunks[0]?.dancers ?? []).flatMap((_, group) => (meets(risk, group) ? [group] : []));
    if (numbers.length === 0) return [];
    return [{ risk, groups: numbers.length < names.length ? numbers.flatMap((group) => names[group] ?? []) : [] }];
  });
  const apart = met.filter(({ groups }) => groups.length > 0);
  return { cautions: met.map(({ risk }) => risk), ...(apart.length > 0 && { cautionGroups: apart }) };
}

function rounded(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
