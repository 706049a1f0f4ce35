import type { Move } from "../routine/routine.js";
import { sectionName } from "../routine/sheet.js";
import type { DancedKind } from "../routine/vocabulary.js";
import { cautionsOf, heaviestAndGroups, type Level } from "./cautions.js";
import type {
  Activity,
  ActivityStep,
  CountedCue,
  HardMove,
  OptionCues,
  SectionEnd,
  UnslowedCue,
} from "./class-plan.js";
import type { RatedMove } from "./difficulty.js";
import { dancingAlone } from "./hard-moves.js";
import type { ActivityKind } from "./kinds.js";
import { type GroupLoads, type Load, offeredOf, plus, plusAll } from "./load.js";
import { type Chunk, isUncounted, type Material, type RoutinePart, sectionsIn } from "./material.js";
import { asMarked } from "./never-slowed.js";
import { isShownWhole, type ShownOption } from "./options.js";
import type { ClassSettings } from "./settings.js";
import type { Step } from "./steps.js";
import type { TimedEntry } from "./timetable.js";

/** A step with its runs, how many of them are danced in the easiest option, and how many without what is never slowed. */
export interface PlannedStep {
  readonly step: Step;
  readonly runs: number;
  readonly easier: number;
  readonly spared: number;
  /** Runs in which those who take the highest level that is offered dance as the class does, for a limit's sake. */
  readonly asTaught: number;
}

/** Of all runs of a step, group by group: as planned, of a dancer who stays at the easiest level, and of one who takes the highest. */
export function loadsAsPlanned({ step, runs, easier, spared, asTaught }: PlannedStep): GroupLoads {
  return step.loads.map((own, group) => {
    const { taught, easiest } = own;
    const without = step.spared[group];
    const eased = (load: Load, less: Load, times: number) =>
      plus(plus(plus({}, load, times - easier - spared), easiest, easier), less, spared);
    return {
      taught: eased(taught, without?.taught ?? {}, runs),
      easiest: plus(plus({}, easiest, runs - spared), without?.easiest ?? {}, spared),
      ...(own.offered && {
        offered: plus(eased(own.offered, without ? offeredOf(without) : {}, runs - asTaught), taught, asTaught),
      }),
    };
  });
}

export interface PlanContext {
  readonly material: Material;
  /** Of the material's chunks. */
  readonly ids: readonly string[];
  readonly settings: ClassSettings;
}

export function activityOf(place: TimedEntry, planned: readonly PlannedStep[], context: PlanContext): Activity {
  const { start, seconds } = place;
  if ("frame" in place) {
    const none = { sections: [], chunks: [], load: {}, easiest: {}, cautions: [], steps: [] };
    return { kind: place.frame, start, seconds, ...none };
  }
  const steps = place.block.steps.flatMap((index) => planned[index] ?? []);
  const part = partOf(steps[0], context);
  const kind = kindOf(steps.map(({ step }) => step.kind));
  const chunks = [...new Set(steps.flatMap(({ step }) => step.chunks))].sort((a, b) => a - b);
  const taught = kind === "teach" ? context.ids[steps[0]?.step.chunks[0] ?? -1] : undefined;
  const here = chunksAt(kind === "show" ? [] : chunks, context);
  const dancing = steps.flatMap((one) => danced(one, context));
  return {
    kind,
    routine: part.routine.slug,
    title: part.routine.title,
    ...(taught !== undefined && { chunk: taught }),
    sections: [...new Set(here.flatMap(sectionsIn))],
    chunks: chunks.flatMap((index) => context.ids[index] ?? []),
    ...{ start, seconds },
    ...heaviestAndGroups(part.routine, summed(steps)),
    ...cautionsOf(dancing, ["taught"]),
    steps: steps.map((one) => activityStep(one, context)),
  };
}

/** Of all steps, group by group. */
function summed([first, ...others]: readonly PlannedStep[]): GroupLoads {
  if (!first) return [];
  return others.reduce((sum, one) => plusAll(sum, loadsAsPlanned(one)), loadsAsPlanned(first));
}

function kindOf(kinds: readonly DancedKind[]): ActivityKind {
  if (kinds.includes("show-all")) return "show";
  if (kinds.includes("recap")) return "recap";
  const dances: readonly DancedKind[] = ["run-through", "away-from-mirror", "mirrored", "groups"];
  if (kinds.some((kind) => dances.includes(kind))) return "dance";
  return kinds.includes("from-the-top") ? "from-the-top" : "teach";
}

function partOf(planned: PlannedStep | undefined, { material }: PlanContext): RoutinePart {
  const part = material.parts[planned?.step.part ?? -1];
  if (!part) throw new RangeError("No part of the class");
  return part;
}

function chunksAt(indexes: readonly number[], { material }: PlanContext): readonly Chunk[] {
  return indexes.flatMap((index) => material.chunks[index] ?? []);
}

function activityStep(planned: PlannedStep, context: PlanContext): ActivityStep {
  const { step, runs, easier, spared, asTaught } = planned;
  const part = partOf(planned, context);
  const chunks = chunksAt(step.chunks, context);
  const tempo = oneTempo(chunks, step.speed);
  const version = part.versions.easiest.id;
  const offered = part.versions.offered?.id;
  return {
    kind: step.kind,
    sections: [...new Set(chunks.flatMap(sectionsIn))],
    chunks: step.chunks.flatMap((index) => context.ids[index] ?? []),
    ...(isDancedWhole(step.kind) && !part.last && { until: endOf(part) }),
    ...(step.pieces > 1 && { pieces: step.pieces }),
    ...(part.routine.times > 1 && step.times.length > 0 && { times: step.times }),
    ...(step.cues.length > 0 && { cues: step.cues }),
    ...(step.entries?.length && { entries: step.entries }),
    ...(step.form && { form: step.form }),
    ...(step.moves.length > 0 && { moves: step.moves.map(hardMove) }),
    ...(step.options.length > 0 && { options: step.options.map(optionCues) }),
    ...withoutIn(step, chunks),
    speed: step.speed,
    ...(tempo !== undefined && { countsPerMinute: tempo }),
    ...(tempo !== undefined && chunks.some(({ section }) => section.tempoIsEstimate) && { tempoIsEstimate: true }),
    runs,
    ...(easier > 0 && { easier: { version, runs: easier } }),
    ...(spared > 0 && { spared }),
    ...(asTaught > 0 && offered !== undefined && { asTaught: { version: offered, runs: asTaught } }),
    ...heaviestAndGroups(part.routine, loadsAsPlanned(planned)),
    ...cautionsOf(danced(planned, context), ["taught"]),
  };
}

/** What each group dances of a chunk in a step. */
function dancersIn({ moves, speed, options }: Step, chunk: Chunk): Chunk["dancers"] {
  const shown = options.flatMap((option) => option.moves);
  if (options.length > 0) return chunk.dancers.map((group) => ({ ...group, taught: shown, easiest: [] }));
  const dancers = moves.length === 0 ? chunk.dancers : dancingAlone(chunk, moves);
  return speed < 100 ? asMarked(dancers) : dancers;
}

/** What some run of a step dances, as if all of it were the taught level. */
function danced(planned: PlannedStep, context: PlanContext): readonly Pick<Chunk, "routine" | "dancers">[] {
  // The class watches a show.
  if (planned.step.kind === "show") return [];
  const levels = levelsDanced(planned);
  return chunksAt(planned.step.chunks, context).map((chunk) => ({
    routine: chunk.routine,
    dancers: dancersIn(planned.step, chunk).map((group) => ({
      ...group,
      taught: levels.flatMap((level) => group[level]),
    })),
  }));
}

/** The levels at which some run is danced; of a step without runs the taught one. */
function levelsDanced({ runs, easier }: PlannedStep): readonly Level[] {
  if (easier === 0) return ["taught"];
  return easier < runs ? ["taught", "easiest"] : ["easiest"];
}

/** What a step leaves out since it is slower than the dance. */
/** What is never slowed in some chunks that are danced below full tempo, and what stands in for it. */
export function withoutIn(
  { speed, moves }: Pick<Step, "speed" | "moves">,
  chunks: readonly Chunk[],
): Pick<ActivityStep, "without"> {
  if (speed >= 100 || moves.length > 0) return {};
  const without = new Map<string, UnslowedCue>();
  for (const { move, groups, version, instead } of chunks.flatMap(({ unslowed }) => unslowed)) {
    const { text: cue } = move.cue;
    const way = { ...counted(move), instead: instead.map((one) => one.cue.text) };
    const whose = { ...(groups.length > 0 && { groups }), ...(version !== undefined && { version }) };
    if (!without.has(cue)) without.set(cue, { ...way, ...whose });
  }
  return without.size === 0 ? {} : { without: [...without.values()] };
}

function counted({ cue, phrase, on }: Move): CountedCue {
  return { cue: cue.text, phrase, on };
}

function hardMove({ move, groups }: RatedMove): HardMove {
  return {
    ...counted(move),
    ...(groups.length > 0 && { groups }),
    ...(move.option !== undefined && { version: move.option }),
  };
}

function optionCues(option: ShownOption): OptionCues {
  const { versions, groups, moves, risks } = option;
  return {
    versions,
    ...(groups.length > 0 && { groups }),
    ...(!isShownWhole(option) && { moves: moves.map(counted) }),
    cautions: risks,
  };
}

function oneTempo(chunks: readonly Chunk[], speed: number): number | undefined {
  const [tempo, ...others] = chunks.flatMap((chunk) => (isUncounted(chunk) ? [] : [chunk.section.countsPerMinute]));
  if (!tempo || others.some((other) => !other.equals(tempo))) return undefined;
  return tempo.mul(speed).div(100).round(1).valueOf();
}

/** Where the class is in a routine: the end of the part that it has reached. */
export function endOf({ routine, section }: RoutinePart): SectionEnd {
  return { routine: routine.slug, title: routine.title, ...sectionName(routine, section) };
}

function isDancedWhole(kind: DancedKind): boolean {
  return kind === "from-the-top" || kindOf([kind]) === "dance";
}
