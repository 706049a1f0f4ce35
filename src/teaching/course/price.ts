import { type Block, leastBlocks, lengthOf } from "../blocks.js";
import { chunkSteps } from "../chunk-steps.js";
import { freshIn } from "../divide.js";
import type { Material, RoutinePart } from "../material.js";
import { finishSteps, onceMoreStep, wholeShowStep } from "../routine-steps.js";
import type { ClassSettings } from "../settings.js";
import { inUnits, type PlaceInClass, runSeconds, type Step } from "../steps.js";
import { talkSeconds } from "../talk.js";
import type { Price } from "./share.js";
import type { SectionUnit } from "./units.js";

/** Some minutes of a lesson. */
type Minutes = Pick<Block, "seconds" | "floor">;

/**
 * What a lesson takes at the least: what the class planner would plan for it, taken apart by unit, with the time for questions.
 *
 * @param material everything that the course has, what was known before it as recalled
 * @param slot seconds of the whole lesson
 */
export function lessonPrice(
  units: readonly SectionUnit[],
  material: Material,
  slot: number,
  settings: ClassSettings,
): Price {
  const costs = units.map((unit, index) => {
    const isFirst = units.findIndex(({ routine }) => routine === unit.routine) === index;
    return costOf(unit, isFirst, material, settings);
  });
  const remembered = new Map<number, number>();
  const price: Price = ({ from, to, recalled }) => {
    const taught = costs.slice(from, to);
    const minutes = [
      ...recapMinutes(recalled, units, costs, settings),
      ...taught.flatMap(({ teach }) => teach),
      ...endMinutes(units, costs, from, to),
    ];
    const fresh = taught.reduce((sum, one) => sum + one.fresh, 0);
    return lengthOf(minutes) + talkSeconds(fresh, slot, minutes, settings);
  };
  return (aim) => {
    if (aim.recalled.length > 0) return price(aim);
    const key = aim.from * (units.length + 1) + aim.to;
    const known = remembered.get(key) ?? price(aim);
    remembered.set(key, known);
    return known;
  };
}

/** A unit's minutes: to teach it, to run its routine as far as its end, and to run that once more; and the exact seconds of recalling it. */
interface UnitCost {
  readonly teach: readonly Minutes[];
  readonly recall: number;
  readonly floor: boolean;
  /** Where it is new, from the top as well. */
  readonly finish: readonly Minutes[];
  readonly run: readonly Minutes[];
  readonly again: readonly Minutes[];
  /** Moves that nobody has met before. */
  readonly fresh: number;
}

/** @param isFirst it is what begins its routine, so that all of that is shown before it */
function costOf(unit: SectionUnit, isFirst: boolean, material: Material, settings: ClassSettings): UnitCost {
  let block = 0;
  const next = (): PlaceInClass => ({ part: 0, routine: unit.routine, block: block++ });
  const minutes = (steps: readonly Step[]) => leastBlocks(steps, material, settings);
  const own = material.parts.filter((part) => part.routine.slug === unit.routine);
  const parts = own.filter(({ chunks }) => chunks.some((chunk) => unit.chunks.includes(chunk)));
  const before = new Map(parts.map(({ chunks, after }) => [chunks[0], after]));
  const [opening] = own;
  const show = isFirst && opening && !opening.known ? [wholeShowStep(opening, next(), settings)] : [];
  const teach = unit.chunks.flatMap((chunk) =>
    chunkSteps(material, chunk, before.has(chunk) ? before.get(chunk) : chunk - 1, next(), settings),
  );
  // Of a routine that was known before the course nothing is taught: what it has is run as it is.
  const end: RoutinePart | undefined = parts.at(-1) ?? opening;
  return {
    teach: minutes([...show, ...teach]),
    recall: recallSeconds(unit, material, settings),
    floor: unit.chunks.some((chunk) => material.chunks[chunk]?.floor),
    finish: end ? minutes(finishSteps(end, next, settings)) : [],
    run: end ? minutes(finishSteps({ ...end, chunks: [] }, next, settings)) : [],
    again: end ? minutes([onceMoreStep(end, next(), settings, 1)]) : [],
    fresh: unit.chunks.reduce((sum, chunk) => sum + freshIn(material, chunk), 0),
  };
}

/** Slowly and at full tempo, as the class planner has it of a recap; each chunk with a count-in of its own, which is no less than it takes. */
function recallSeconds(unit: SectionUnit, { chunks }: Material, settings: ClassSettings): number {
  const own = unit.chunks.flatMap((index) => chunks[index] ?? []);
  const runs = settings.least.recap;
  return own.reduce(
    (sum, chunk) => sum + runs * (runSeconds(chunk, settings.linkSpeed, settings) + runSeconds(chunk, 100, settings)),
    0,
  );
}

/** One recap a routine. */
function recapMinutes(
  recalled: readonly number[],
  units: readonly SectionUnit[],
  costs: readonly UnitCost[],
  settings: ClassSettings,
): readonly Minutes[] {
  const routines = [...new Set(recalled.map((unit) => units[unit]?.routine))];
  return routines.map((routine) => {
    const own = recalled.filter((unit) => units[unit]?.routine === routine).flatMap((unit) => costs[unit] ?? []);
    const exact = own.reduce((sum, { recall }) => sum + recall, settings.overhead.recap);
    return { seconds: inUnits(exact, settings), floor: own.some(({ floor }) => floor) };
  });
}

/** The end of a lesson, each routine as far as it is known then: what is new from the top and with the song, and once more where others came after it; the rest is run. */
function endMinutes(
  units: readonly SectionUnit[],
  costs: readonly UnitCost[],
  from: number,
  to: number,
): readonly Minutes[] {
  const ends = new Map(units.slice(0, to).map(({ routine }, unit) => [routine, unit]));
  const lastNew = to - 1;
  return [...ends.values()].flatMap((unit) => {
    const cost = costs[unit];
    if (!cost) return [];
    if (unit < from) return cost.run;
    return unit === lastNew ? cost.finish : [...cost.finish, ...cost.again];
  });
}
