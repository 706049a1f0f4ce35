import type { RatedMove } from "./difficulty.js";
import type { Material, RoutinePart } from "./material.js";
import type { ClassSettings } from "./settings.js";
import { chunkSteps, finishSteps, onceMoreStep, recapSteps, type Step, secondsOf, topSteps } from "./steps.js";

/** What a class teaches: the parts before `parts`, or, where not even the first fits, that many of its chunks. */
export interface Reach {
  readonly parts: number;
  readonly chunks: number;
}

/**
 * Everything that a class with this reach may do, in the order of the class. What is only known is recalled where it stands, and run at the end.
 *
 * @param replaced hard moves that are not taken on their own
 */
export function classSteps(
  material: Material,
  reach: Reach,
  settings: ClassSettings,
  replaced: ReadonlySet<RatedMove> = new Set(),
): readonly Step[] {
  const steps: Step[] = [];
  let block = 0;
  const finished: number[] = [];
  const known: number[] = [];
  material.parts.slice(0, Math.max(reach.parts, 1)).forEach((part, index) => {
    const routine = part.routine.slug;
    const next = () => ({ part: index, routine, block: block++ });
    const recap = part.first && material.recaps.find(({ routine }) => routine === part.routine);
    if (recap) steps.push(...recapSteps(recap, next(), settings));
    const within = reach.parts > 0 ? part.chunks : part.chunks.slice(0, reach.chunks);
    within.forEach((chunk, order) => {
      const link = order === 0 ? part.after : chunk - 1;
      steps.push(...chunkSteps(material, chunk, link, next(), settings, replaced));
    });
    if (reach.parts === 0) return;
    if (part.chunks.length === 0) {
      known.push(index);
      return;
    }
    const ending = part.last || index === reach.parts - 1;
    steps.push(...topSteps(part, ending, next(), settings));
    if (!ending) return;
    steps.push(...finishSteps(part, next(), settings));
    finished.push(index);
  });
  const place = (index: number, part: RoutinePart) => ({ part: index, routine: part.routine.slug, block });
  for (const index of known) {
    const part = material.parts[index];
    if (part) steps.push(...finishSteps(part, place(index, part), settings));
  }
  if (finished.length > 1)
    for (const index of finished) {
      const part = material.parts[index];
      const least = material.endsInRun && index !== finished.at(-1) ? 1 : 0;
      if (part) steps.push(onceMoreStep(part, place(index, part), settings, least));
    }
  return steps;
}

/** Seconds of the least that these steps ask for. */
export function leastSeconds(steps: readonly Step[], settings: ClassSettings): number {
  return steps.reduce((sum, step) => sum + secondsOf(step, step.least, settings), 0);
}
