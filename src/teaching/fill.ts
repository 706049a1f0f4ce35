import { type Block, isFloorWork, lengthOf } from "./blocks.js";
import { type ClassLoad, mostIn, withRuns } from "./class-load.js";
import { type Load, lightest, loadParts, plus } from "./load.js";
import type { Material } from "./material.js";
import type { ClassSettings } from "./settings.js";
import { inUnits, type Step, secondsOf } from "./steps.js";

/** A class that is to be filled. */
export interface Unfilled {
  readonly steps: readonly Step[];
  readonly material: Material;
  /** Of teaching and talk. */
  readonly seconds: number;
  /** Seconds of talk that some activities ask for. */
  readonly talk: (blocks: readonly Pick<Block, "seconds" | "floor">[]) => number;
}

/**
 * Runs for every step: the least, then further runs where they help most, as far as the seconds reach. Which run comes next
 * does not depend on the time that is left, so that a longer class does all that a shorter one does.
 */
export function fill({ steps, material, seconds, talk }: Unfilled, settings: ClassSettings): readonly number[] {
  const runs = steps.map(({ least }) => least);
  const lengths = lengthsOf(steps, runs);
  const blocks = lengths.map((exact) => ({ seconds: inUnits(exact, settings), floor: false }));
  const isFloor = steps.map((step) => isFloorWork(step, material));
  const dance = (step: Step, index: number) => {
    const block = blocks[step.block];
    if (block && isFloor[index]) block.floor = true;
  };
  steps.forEach((step, index) => {
    if (step.least > 0) dance(step, index);
  });
  let taken = lengthOf(blocks);
  for (const index of furtherRuns(steps, material, settings)) {
    const [step, now] = [steps[index], runs[index]];
    const block = blocks[step?.block ?? -1];
    if (!step || !block || now === undefined) break;
    const { seconds: before, floor } = block;
    const exact = (lengths[step.block] ?? 0) + secondsOf(step, now + 1) - secondsOf(step, now);
    block.seconds = inUnits(exact, settings);
    dance(step, index);
    const cost = block.seconds - before;
    if (cost > 0 && taken + cost + talk(blocks) > seconds) {
      Object.assign(block, { seconds: before, floor });
      break;
    }
    runs[index] = now + 1;
    lengths[step.block] = exact;
    taken += cost;
  }
  return runs;
}

/** Exact seconds of every block. */
function lengthsOf(steps: readonly Step[], runs: readonly number[]): number[] {
  const lengths: number[] = [];
  steps.forEach((step, index) => {
    lengths[step.block] = (lengths[step.block] ?? 0) + secondsOf(step, runs[index] ?? 0);
  });
  return lengths;
}

/** How many times `most.drill` a chunk is drilled in one go, all speeds together (our own choice). */
const drillsInOneGo = 2;

/** Indexes of steps, one for each further run that is worth having and within the limits: what helps most first. */
function* furtherRuns(steps: readonly Step[], material: Material, settings: ClassSettings): Generator<number> {
  const passes = material.chunks.map(() => 0);
  const further = steps.map(() => 0);
  const isFloor = steps.map((step) => isFloorWork(step, material));
  const lengths = lengthsOf(
    steps,
    steps.map(({ least }) => least),
  );
  let load: ClassLoad = new Map();
  const dance = (step: Step, runs: number, before: number) => {
    if (step.kind !== "show" && step.kind !== "options")
      for (const chunk of step.chunks) passes[chunk] = (passes[chunk] ?? 0) + runs;
    load = withRuns(load, step.routine, lightestRuns(step, runs, before));
  };
  for (const step of steps) dance(step, step.least, 0);
  // A chunk that is drilled over and over in one go tires more than it teaches: what is left is for other runs, and for practice.
  const drills = new Map<number, number>();
  const drill = ({ kind, block }: Step, runs: number) => {
    if (kind === "drill") drills.set(block, (drills.get(block) ?? 0) + runs);
  };
  for (const step of steps) drill(step, step.least);
  const stacked = ({ kind, block }: Step) =>
    kind === "drill" && (drills.get(block) ?? 0) >= drillsInOneGo * settings.most.drill;
  const helpOf = (step: Step, index: number) =>
    stacked(step) ? 0 : help(step, further[index] ?? 0, passes, material, settings);
  const longer = (step: Step, runs: number) =>
    (lengths[step.block] ?? 0) + secondsOf(step, runs + 1) - secondsOf(step, runs);
  // Floor work without a rest in it does not grow beyond the time that there may be between two rests.
  const breathless = (step: Step, runs: number, index: number) =>
    isFloor[index] === true && inUnits(longer(step, runs), settings) > settings.breatheEvery * 60;

  // A run only ever lessens the help of the others, so that a figure from before is never too low.
  const helps = steps.map(helpOf);
  for (;;) {
    const index = highest(helps);
    const step = steps[index];
    const more = further[index];
    if (!step || more === undefined || !(helps[index] ?? 0)) return;
    const runs = step.least + more;
    const now = breathless(step, runs, index) || breaksLimit(step, runs, load, settings) ? 0 : helpOf(step, index);
    if (now < (helps[index] ?? 0)) {
      helps[index] = now;
      continue;
    }
    yield index;
    dance(step, 1, runs);
    drill(step, 1);
    lengths[step.block] = longer(step, runs);
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
  const lightest = lightestRuns(step, 1, before);
  if (!lightest.some((run) => loadParts.some((part) => run[part]))) return false;
  const now = mostIn(load, step.routine);
  return lightest.some((run, group) =>
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
