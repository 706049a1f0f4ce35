import { leastSeconds } from "./class-steps.js";
import type { Material } from "./material.js";
import type { ClassSettings } from "./settings.js";
import { chunkSteps, finishSteps, inUnits, onceMoreStep, recapSteps, runSeconds, topSteps } from "./steps.js";

/** Parts from `from` up to, not including, `to`, taught in one class. */
export interface ClassShare {
  readonly from: number;
  readonly to: number;
  /** The least that it takes, without warm-up, breaks and cool-down. */
  readonly seconds: number;
}

/** What the least of a class takes, for every choice of its first and last part. */
export type Pricing = (from: number, to: number) => number;

export function pricing(material: Material, settings: ClassSettings): Pricing {
  const place = { part: 0, block: 0, routine: "" };
  const taught = [0];
  const ended = [0];
  const lastTaught = material.parts.findLast(({ chunks }) => chunks.length > 0);
  const endings = material.parts.map((part, index) => {
    const chunks = part.chunks.flatMap((chunk, order) =>
      chunkSteps(material, chunk, order === 0 ? part.after : chunk - 1, place, settings),
    );
    const steps = part.chunks.length === 0 ? [] : topSteps(part, true, place, settings);
    const ending = leastSeconds([...steps, ...finishSteps(part, place, settings)], settings);
    const known = part.first ? material.recaps.filter(({ routine }) => routine === part.routine) : [];
    const recaps = known.flatMap((recap) => recapSteps(recap, place, settings));
    taught.push((taught[index] ?? 0) + leastSeconds([...recaps, ...chunks], settings));
    const again = material.endsInRun && part !== lastTaught && part.chunks.length > 0;
    const once = again ? leastSeconds([onceMoreStep(part, place, settings, 1)], settings) : 0;
    ended.push((ended[index] ?? 0) + (part.last ? ending + once : 0));
    return ending;
  });
  const difference = (sums: readonly number[], from: number, to: number) => (sums[to] ?? 0) - (sums[from] ?? 0);
  return (from, to) => {
    if (to <= from) return 0;
    const breakingOff = material.parts[to - 1]?.last ? 0 : (endings[to - 1] ?? 0);
    return recap(material, from, settings) + difference(taught, from, to) + difference(ended, from, to) + breakingOff;
  };
}

/** A later class begins with what it has of the routine, from the top, slowly and at full tempo. */
function recap(material: Material, from: number, settings: ClassSettings): number {
  const last = material.parts[from - 1];
  if (!last || last.last) return 0;
  const twice = runSeconds(last.fromTheTop, settings.linkSpeed, settings).add(
    runSeconds(last.fromTheTop, 100, settings),
  );
  return inUnits(twice.add(settings.overhead["from-the-top"]), settings);
}

/** How many parts a class of so many seconds can teach, from `from` on. */
export function reachable(price: Pricing, parts: number, from: number, seconds: number): number {
  let to = from;
  while (to < parts && price(from, to + 1) <= seconds) to++;
  return to;
}

/** As few classes as possible, each as full as it gets; nothing where a part is too long for any. */
function fullest(price: Pricing, parts: number, seconds: number): readonly ClassShare[] | undefined {
  const shares: ClassShare[] = [];
  for (let from = 0; from < parts; ) {
    const to = reachable(price, parts, from, seconds);
    if (to === from) return undefined;
    shares.push({ from, to, seconds: price(from, to) });
    from = to;
  }
  return shares;
}

/**
 * The ways to divide what does not fit into one class: over two and over three where that works, else over as few as
 * it takes. Within each, the longest class is as short as can be.
 */
export function divisions(price: Pricing, parts: number, seconds: number): readonly (readonly ClassShare[])[] {
  const fewest = fullest(price, parts, seconds)?.length;
  if (fewest === undefined) return [];
  const numbers = fewest > 3 ? [fewest] : [2, 3].filter((number) => number >= fewest);
  return numbers
    .map((number) => evenest(price, parts, seconds, number))
    .filter((shares, i) => shares.length === numbers[i]);
}

function evenest(price: Pricing, parts: number, seconds: number, classes: number): readonly ClassShare[] {
  let [short, long] = [0, seconds];
  while (short < long) {
    const middle = Math.floor((short + long) / 2);
    const shares = fullest(price, parts, middle);
    if (shares && shares.length <= classes) long = middle;
    else short = middle + 1;
  }
  return fullest(price, parts, long) ?? [];
}
