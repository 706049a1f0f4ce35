import type { Routine } from "../routine/routine.js";
import { type DancedKind, type LoadPart, loadParts } from "../routine/vocabulary.js";
import { type ClassLoad, heaviestGroups, mostIn, mostOf, withRuns } from "./class-load.js";
import { type GroupLoads, type LevelLoads, type Load, offeredOf, plus } from "./load.js";
import type { ClassSettings } from "./settings.js";
import type { Step } from "./steps.js";

/** How a limit of the library came out. */
export interface LimitOutcome {
  readonly part: LoadPart;
  readonly limit: number;
  /** True of a limit that the library has not set. */
  readonly preset?: true;
  /** With every run at the taught level. */
  readonly before: number;
  /** As planned. */
  readonly after: number;
  readonly kept: boolean;
  /** Of a dancer who stays at the easiest level. */
  readonly easiest: number;
  /** Of those who take the highest level that is offered, where that comes to more. */
  readonly offered?: { readonly before: number; readonly after: number; readonly kept: boolean };
  /** Groups that come to it, where others come to less. */
  readonly groups?: readonly RoutineGroup[];
}

/** A group of a routine's dancers. */
export interface RoutineGroup {
  /** The routine's slug, and its title. */
  readonly routine: string;
  readonly title: string;
  readonly group: string;
}

/* The repeats that miss the least when they are danced in the easier option: marked ones first, the song last. */
const giveUp: readonly DancedKind[] = [
  "mark",
  "recap",
  "detail",
  "again",
  "explain",
  "mirrored",
  "link",
  "drill",
  "away-from-mirror",
  "from-the-top",
  "groups",
  "run-through",
];

/** How the runs of some steps are danced so that the limits are kept. */
interface Eased {
  /** Runs in the easiest option, step by step. */
  readonly easier: readonly number[];
  /** Runs without what is never slowed, step by step. */
  readonly spared: readonly number[];
  /** Runs, step by step, in which those who take the highest level that is offered dance as the class does. */
  readonly asTaught: readonly number[];
  readonly before: ClassLoad;
  readonly after: ClassLoad;
  /** Of those who take the highest level that is offered. */
  readonly offered: { readonly before: ClassLoad; readonly after: ClassLoad };
}

/**
 * How many runs of each step are danced in the easiest option, or else without what is never slowed, so that the limits are
 * kept where they can be: for everybody, so for the group that meets most.
 */
export function ease(steps: readonly Step[], runs: readonly number[], settings: ClassSettings): Eased {
  const before = steps.reduce<ClassLoad>(
    (sum, step, index) => withRuns(sum, step.routine, taughtOf(step.loads), runs[index] ?? 0),
    new Map(),
  );
  const [easier, spared] = [steps.map(() => 0), steps.map(() => 0)];
  let load = before;
  for (const index of inOrder(steps)) {
    const step = steps[index];
    if (!step) continue;
    const swappable = Math.max(0, (runs[index] ?? 0) - step.kept);
    for (let run = 0; run < swappable; run++) {
      const swapped = swap(load, step, easiestOf(step), settings);
      const without = swapped ? undefined : swap(load, step, taughtOf(step.spared), settings);
      if (swapped) easier[index] = (easier[index] ?? 0) + 1;
      else if (without) spared[index] = (spared[index] ?? 0) + 1;
      else break;
      load = swapped ?? without ?? load;
    }
  }
  return { easier, spared, before, after: load, ...easeOffered(steps, runs, easier, spared, settings) };
}

/** For those who take a level above the class's it is easier to dance as the class does. */
function easeOffered(
  steps: readonly Step[],
  runs: readonly number[],
  easier: readonly number[],
  spared: readonly number[],
  settings: ClassSettings,
): Pick<Eased, "asTaught" | "offered"> {
  const asTaught = steps.map(() => 0);
  const before = steps.reduce<ClassLoad>(
    (sum, step, index) => withRuns(sum, step.routine, step.loads.map(offeredOf), runs[index] ?? 0),
    new Map(),
  );
  const eased = (sum: ClassLoad, step: Step, otherwise: readonly Load[], times = 0) =>
    withRuns(
      sum,
      step.routine,
      step.loads.map((own, group) => plus(otherwise[group] ?? {}, offeredOf(own), -1)),
      times,
    );
  let load = steps.reduce<ClassLoad>(
    (sum, step, index) =>
      eased(eased(sum, step, easiestOf(step), easier[index]), step, step.spared.map(offeredOf), spared[index]),
    before,
  );
  for (const index of inOrder(steps)) {
    const step = steps[index];
    if (!step?.loads.some(({ offered }) => offered)) continue;
    const open = (runs[index] ?? 0) - Math.max(step.kept, (easier[index] ?? 0) + (spared[index] ?? 0));
    for (let run = 0; run < open; run++) {
      const swapped = swap(load, step, taughtOf(step.loads), settings, offeredOf);
      if (!swapped) break;
      asTaught[index] = (asTaught[index] ?? 0) + 1;
      load = swapped;
    }
  }
  return { asTaught, offered: { before, after: load } };
}

const taughtOf = (loads: GroupLoads) => loads.map(({ taught }) => taught);
const easiestOf = ({ loads }: Step) => loads.map(({ easiest }) => easiest);

/** The load with one run of a step danced otherwise, where that helps somebody over a limit and puts nobody over one. */
function swap(
  load: ClassLoad,
  step: Step,
  otherwise: readonly Load[],
  settings: ClassSettings,
  own: (loads: LevelLoads) => Load = ({ taught }) => taught,
): ClassLoad | undefined {
  const changes = step.loads.map((loads, group) => plus(otherwise[group] ?? {}, own(loads), -1));
  const now = mostIn(load, step.routine);
  const limit = (part: LoadPart) => settings.limits[part] ?? Number.POSITIVE_INFINITY;
  const some = (of: (part: LoadPart, change: number, now: number) => boolean) =>
    changes.some((change, group) => loadParts.some((part) => of(part, change[part] ?? 0, now[group]?.[part] ?? 0)));
  const helps = some((part, change, amount) => change < 0 && amount > limit(part));
  const harms = some((part, change, amount) => change > 0 && amount + change > limit(part));
  return helps && !harms ? withRuns(load, step.routine, changes) : undefined;
}

/** How the limits came out, of all that the class meets. */
export function limitOutcomes(
  { before, after, offered }: Pick<Eased, "before" | "after" | "offered">,
  easiest: Load,
  routines: readonly Pick<Routine, "slug" | "title" | "groups">[],
  settings: ClassSettings,
): readonly LimitOutcome[] {
  const [most, left] = [mostOf(before), mostOf(after)];
  const [higher, highest] = [mostOf(offered.before), mostOf(offered.after)];
  return loadParts.flatMap((part): LimitOutcome[] => {
    const limit = settings.limits[part];
    if (limit === undefined || !(most[part] || higher[part])) return [];
    const amount = left[part] ?? 0;
    const above = { before: higher[part] ?? 0, after: highest[part] ?? 0 };
    const heaviest = routines.flatMap(({ slug, title, groups }) =>
      heaviestGroups(after.get(slug) ?? [], part).flatMap((group): RoutineGroup[] => {
        const name = groups[group];
        return name === undefined ? [] : [{ routine: slug, title, group: name }];
      }),
    );
    return [
      {
        ...{ part, limit, before: most[part] ?? 0, after: amount, kept: amount <= limit, easiest: easiest[part] ?? 0 },
        ...((above.before > (most[part] ?? 0) || above.after > amount) && {
          offered: { ...above, kept: above.after <= limit },
        }),
        ...(settings.ownLimits[part] === undefined && { preset: true as const }),
        ...(heaviest.length > 0 && { groups: heaviest }),
      },
    ];
  });
}

/** Slow runs before fast ones. */
function inOrder(steps: readonly Step[]): readonly number[] {
  const rank = (index: number) => giveUp.indexOf(steps[index]?.kind ?? "run-through");
  const speed = (index: number) => steps[index]?.speed ?? 100;
  return steps.map((_, index) => index).sort((a, b) => rank(a) - rank(b) || speed(a) - speed(b) || a - b);
}
