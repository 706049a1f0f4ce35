import { type ClassLoad, mostIn, withRuns } from "./class-load.js";
import { type Load, lightest, loadParts, plus } from "./load.js";
import type { Material } from "./material.js";
import type { ClassSettings } from "./settings.js";
import { type Step, secondsOf } from "./steps.js";

/**
 * Runs for every step: the least, then further runs where they help most, as far as the seconds reach.
 *
 * Which run comes next does not depend on the time that is left, so that a longer class does all that a shorter one does.
 * Where the next is too long for what is left, its chunks are drilled in its place, one run each, the hardest first; once
 * there is time for it, it dances all of them.
 */
export function fill(
  steps: readonly Step[],
  material: Material,
  seconds: number,
  settings: ClassSettings,
): readonly number[] {
  const runs = steps.map((step) => step.least);
  let left = seconds - steps.reduce((sum, step) => sum + secondsOf(step, step.least, settings), 0);
  const take = (index: number): boolean => {
    const [step, now] = [steps[index], runs[index]];
    if (!step || now === undefined) return false;
    const cost = secondsOf(step, now + 1, settings) - secondsOf(step, now, settings);
    if (cost > left) return false;
    left -= cost;
    runs[index] = now + 1;
    return true;
  };
  for (const index of furtherRuns(steps, material, settings))
    if (!take(index)) {
      drillsInPlaceOf(steps, material, index).every(take);
      break;
    }
  return runs;
}

/** Indexes of steps, one for each further run that is worth having and within the limits: what helps most first. */
function* furtherRuns(steps: readonly Step[], material: Material, settings: ClassSettings): Generator<number> {
  const passes = material.chunks.map(() => 0);
  const further = steps.map(() => 0);
  let load: ClassLoad = new Map();
  const dance = (step: Step, runs: number, before: number) => {
    if (step.kind !== "show") for (const chunk of step.chunks) passes[chunk] = (passes[chunk] ?? 0) + runs;
    load = withRuns(load, step.routine, lightestRuns(step, runs, before));
  };
  for (const step of steps) dance(step, step.least, 0);
  const helpOf = (step: Step, index: number) => help(step, further[index] ?? 0, passes, material, settings);

  // A run only ever lessens the help of the others, so that a figure from before is never too low.
  const helps = steps.map(helpOf);
  for (;;) {
    const index = highest(helps);
    const step = steps[index];
    const more = further[index];
    if (!step || more === undefined || !(helps[index] ?? 0)) return;
    const now = breaksLimit(step, step.least + more, load, settings) ? 0 : helpOf(step, index);
    if (now < (helps[index] ?? 0)) {
      helps[index] = now;
      continue;
    }
    yield index;
    dance(step, 1, step.least + more);
    further[index] = more + 1;
    helps[index] = helpOf(step, index);
  }
}

/**
 * What one more run helps: the points of its chunks for every count, each less the more often it has been danced, and less
 * again the more often in this very way. A rule of thumb of our own.
 */
function help(
  step: Step,
  further: number,
  passes: readonly number[],
  material: Material,
  settings: ClassSettings,
): number {
  if (step.least + further >= step.most) return 0;
  let [points, counts] = [0, 0];
  for (const index of step.chunks) {
    const chunk = material.chunks[index];
    if (!chunk) continue;
    points += chunk.points / (1 + (passes[index] ?? 0));
    counts += chunk.counts;
  }
  return counts === 0 ? 0 : (settings.worth[step.kind] * points) / counts / (1 + further);
}

function highest(numbers: readonly number[]): number {
  let best = 0;
  for (let index = 1; index < numbers.length; index++) if ((numbers[index] ?? 0) > (numbers[best] ?? 0)) best = index;
  return best;
}

/** Whether a further run after `before` others would break a limit even with all that may change danced the lightest way. */
function breaksLimit(step: Step, before: number, load: ClassLoad, settings: ClassSettings): boolean {
  const now = mostIn(load, step.routine);
  return lightestRuns(step, 1, before).some((run, group) =>
    loadParts.some(
      (part) =>
        run[part] && (now[group]?.[part] ?? 0) + run[part] > (settings.limits[part] ?? Number.POSITIVE_INFINITY),
    ),
  );
}

/** The load of runs that come after `before` others, those that may be in the easiest option or without what is never slowed, where that is lighter: group by group. */
function lightestRuns(step: Step, runs: number, before: number): readonly Load[] {
  const kept = Math.max(0, Math.min(step.kept - before, runs));
  return step.loads.map(({ taught, easiest }, group) =>
    plus(plus({}, taught, kept), lightest([taught, easiest, step.spared[group]?.taught ?? taught]), runs - kept),
  );
}

function drillsInPlaceOf(steps: readonly Step[], material: Material, index: number): readonly number[] {
  const chunks = steps[index]?.chunks ?? [];
  if (chunks.length < 2) return [];
  const density = (chunk: number) => (material.chunks[chunk]?.points ?? 0) / (material.chunks[chunk]?.counts ?? 1);
  return chunks
    .toSorted((a, b) => density(b) - density(a) || a - b)
    .map((chunk) => steps.findIndex((step) => step.kind === "drill" && step.speed === 100 && step.chunks[0] === chunk))
    .filter((step) => step >= 0);
}
