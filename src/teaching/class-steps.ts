import { chunkSteps } from "./chunk-steps.js";
import type { RatedMove } from "./difficulty.js";
import type { Material, RoutinePart } from "./material.js";
import { finishSteps, onceMoreStep, recapSteps, topSteps, wholeShowStep } from "./routine-steps.js";
import type { ClassSettings } from "./settings.js";
import type { PlaceInClass, Step } from "./steps.js";

/** What a class teaches: the parts before `parts`, or, where not even the first fits, that many of its chunks. */
export interface Reach {
  readonly parts: number;
  readonly chunks: number;
}

/** The chunks that a class teaches, by their places in the material. */
export function taughtChunks({ parts }: Material, reach: Reach): readonly number[] {
  return [
    ...parts.slice(0, reach.parts).flatMap(({ chunks }) => chunks),
    ...(parts[0]?.chunks.slice(0, reach.chunks) ?? []),
  ];
}

/**
 * Everything that a class with this reach may do, in the order of the class.
 *
 * @param replaced hard moves that are not taken on their own
 */
export function classSteps(
  material: Material,
  reach: Reach,
  settings: ClassSettings,
  replaced: ReadonlySet<RatedMove> = new Set(),
): readonly Step[] {
  if (reach.parts === 0 && reach.chunks === 0) return [];
  const steps: Step[] = [];
  let block = 0;
  const places = (part: number, routine: string) => () => ({ part, routine, block: block++ });
  const finished: number[] = [];
  material.parts.slice(0, Math.max(reach.parts, 1)).forEach((part, index) => {
    const next = places(index, part.routine.slug);
    const within = reach.parts > 0 ? part.chunks : part.chunks.slice(0, reach.chunks);
    steps.push(...partSteps(material, part, within, next, settings, replaced));
    if (reach.parts === 0) return;
    if (part.last || index === reach.parts - 1) {
      steps.push(...finishSteps(part, next, settings));
      finished.push(index);
    } else steps.push(...topSteps(part, false, next(), settings));
  });
  if (finished.length > 1)
    for (const index of finished) {
      const part = material.parts[index];
      if (part) steps.push(onceMoreStep(part, places(index, part.routine.slug)(), settings));
    }
  return steps;
}

/** A part as far as its last chunk: at the beginning of a routine what is known of it, or else all of it shown. */
export function partSteps(
  material: Material,
  part: RoutinePart,
  within: readonly number[],
  next: () => PlaceInClass,
  settings: ClassSettings,
  replaced: ReadonlySet<RatedMove> = new Set(),
): readonly Step[] {
  const recap = part.first ? material.recaps.find(({ routine }) => routine === part.routine) : undefined;
  return [
    ...(part.first && !part.known ? [wholeShowStep(part, next(), settings)] : []),
    ...(recap ? recapSteps(recap, next(), settings) : []),
    ...within.flatMap((chunk, order) => {
      const link = order === 0 ? part.after : chunk - 1;
      return chunkSteps(material, chunk, link, next(), settings, replaced);
    }),
  ];
}
