import { type DancedKind, type LoadPart, loadParts } from "../routine/vocabulary.js";
import { type Load, plus } from "./load.js";
import type { ClassSettings } from "./settings.js";
import type { Step } from "./steps.js";

/** How a limit of the library came out. */
export interface LimitOutcome {
  readonly part: LoadPart;
  readonly limit: number;
  /** With every run at the taught level. */
  readonly before: number;
  /** As planned. */
  readonly after: number;
  readonly kept: boolean;
}

/* The repeats that miss the least when they are danced in the easier option: marked ones first, the song last. */
const giveUp: readonly DancedKind[] = [
  "mark",
  "detail",
  "mirrored",
  "link",
  "drill",
  "away-from-mirror",
  "from-the-top",
  "groups",
  "run-through",
];

/** How many runs of each step are danced in the easiest option, so that the library's limits are kept where they can be. */
export function ease(
  steps: readonly Step[],
  runs: readonly number[],
  settings: ClassSettings,
): { readonly easier: readonly number[]; readonly outcomes: readonly LimitOutcome[] } {
  const before = steps.reduce((sum, step, index) => plus(sum, step.loads.taught, runs[index] ?? 0), {} as Load);
  const easier = steps.map(() => 0);
  let load = before;
  const limit = (part: LoadPart) => settings.limits[part] ?? Number.POSITIVE_INFINITY;
  const over = () => loadParts.filter((part) => (load[part] ?? 0) > limit(part));
  for (const index of inOrder(steps)) {
    const step = steps[index];
    if (!step) continue;
    const change = plus(step.loads.easiest, step.loads.taught, -1);
    const swappable = Math.max(0, (runs[index] ?? 0) - step.kept);
    for (let run = 0; run < swappable; run++) {
      const swapped = plus(load, change);
      const helps = over().some((part) => (change[part] ?? 0) < 0);
      const harms = loadParts.some((part) => (change[part] ?? 0) > 0 && (swapped[part] ?? 0) > limit(part));
      if (!helps || harms) break;
      load = swapped;
      easier[index] = run + 1;
    }
  }
  const outcomes = loadParts.flatMap((part): LimitOutcome[] => {
    const set = settings.limits[part];
    if (set === undefined) return [];
    const after = load[part] ?? 0;
    return [{ part, limit: set, before: before[part] ?? 0, after, kept: after <= set }];
  });
  return { easier, outcomes };
}

/** Slow runs before fast ones. */
function inOrder(steps: readonly Step[]): readonly number[] {
  const rank = (index: number) => giveUp.indexOf(steps[index]?.kind ?? "run-through");
  const speed = (index: number) => steps[index]?.speed ?? 100;
  return steps.map((_, index) => index).sort((a, b) => rank(a) - rank(b) || speed(a) - speed(b) || a - b);
}
