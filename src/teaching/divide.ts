import { type Block, leastBlocks, lengthOf } from "./blocks.js";
import { partSteps } from "./class-steps.js";
import type { Material } from "./material.js";
import { finishSteps } from "./routine-steps.js";
import type { ClassSettings } from "./settings.js";
import { inUnits, type PlaceInClass, runSeconds } from "./steps.js";
import { talkSeconds } from "./talk.js";

/** Parts from `from` up to, not including, `to`, taught in one class. */
export interface ClassShare {
  readonly from: number;
  readonly to: number;
  /** The least that it takes, without warm-up, breaks and cool-down. */
  readonly seconds: number;
}

/** What the least of a class takes, for every choice of its first and last part, with the time for questions in a slot of so many seconds. */
export type Pricing = (from: number, to: number, slot: number) => number;

export function pricing(material: Material, settings: ClassSettings): Pricing {
  const parts = material.parts.map((part) => {
    let block = 0;
    const next = (): PlaceInClass => ({ part: 0, routine: "", block: block++ });
    const blocks = (steps: Parameters<typeof leastBlocks>[0]) => leastBlocks(steps, material, settings);
    return {
      taught: blocks(partSteps(material, part, part.chunks, next, settings)),
      ending: blocks(finishSteps(part, next, settings)),
      last: part.last,
      fresh: part.chunks.reduce((sum, chunk) => sum + freshIn(material, chunk), 0),
    };
  });
  return (from, to, slot) => {
    if (to <= from) return 0;
    const here = parts.slice(from, to);
    const blocks = here.flatMap(({ taught, ending, last }, index) =>
      last || index === here.length - 1 ? [...taught, ...ending] : taught,
    );
    const all = [...recap(material, from, settings), ...blocks];
    const fresh = here.reduce((sum, part) => sum + part.fresh, 0);
    return lengthOf(all) + talkSeconds(fresh, slot, all, settings);
  };
}

/** Moves of a chunk that the class has not met before. */
export function freshIn({ chunks }: Material, chunk: number): number {
  return chunks[chunk]?.moves.filter(({ known }) => known === "no").length ?? 0;
}

/** A later class begins with what it has of the routine, from the top, slowly and at full tempo. */
function recap(material: Material, from: number, settings: ClassSettings): readonly Pick<Block, "seconds" | "floor">[] {
  const last = material.parts[from - 1];
  if (!last || last.last) return [];
  const { fromTheTop } = last;
  const twice = runSeconds(fromTheTop, settings.linkSpeed, settings) + runSeconds(fromTheTop, 100, settings);
  const floor = fromTheTop.chunks.some((chunk) => material.chunks[chunk]?.floor);
  return [{ seconds: inUnits(twice + settings.overhead["from-the-top"], settings), floor }];
}

/** How what a class takes is priced where its slot is known. */
type Price = (from: number, to: number) => number;

/** How many parts a class of so many seconds can teach, from `from` on. */
export function reachable(price: Price, parts: number, from: number, seconds: number): number {
  let to = from;
  while (to < parts && price(from, to + 1) <= seconds) to++;
  return to;
}

/** As few classes as possible, each as full as it gets; nothing where a part is too long for any. */
function fullest(price: Price, parts: number, seconds: number): readonly ClassShare[] | undefined {
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
export function divisions(price: Price, parts: number, seconds: number): readonly (readonly ClassShare[])[] {
  const fewest = fullest(price, parts, seconds)?.length;
  if (fewest === undefined) return [];
  const numbers = fewest > 3 ? [fewest] : [2, 3].filter((number) => number >= fewest);
  return numbers
    .map((number) => evenest(price, parts, seconds, number))
    .filter((shares, i) => shares.length === numbers[i]);
}

function evenest(price: Price, parts: number, seconds: number, classes: number): readonly ClassShare[] {
  let [short, long] = [0, seconds];
  while (short < long) {
    const middle = Math.floor((short + long) / 2);
    const shares = fullest(price, parts, middle);
    if (shares && shares.length <= classes) long = middle;
    else short = middle + 1;
  }
  return fullest(price, parts, long) ?? [];
}
