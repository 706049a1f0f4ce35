import Fraction from "fraction.js";
import { leastSeconds } from "../class-steps.js";
import type { Material, RoutinePart } from "../material.js";
import type { ClassSettings } from "../settings.js";
import { chunkSteps, finishSteps, inUnits, onceMoreStep, runSeconds, type Step, topSteps } from "../steps.js";
import type { Price } from "./share.js";
import type { SectionUnit } from "./units.js";

const place = { part: 0, block: 0, routine: "" };

/**
 * What a lesson takes at the least: the steps that the class planner would plan for it, taken apart by unit. It may plan a little
 * less, since sections that are recalled in one go share a count-in.
 *
 * @param material everything that the course has, what was known before it as recalled
 */
export function lessonPrice(units: readonly SectionUnit[], material: Material, settings: ClassSettings): Price {
  const costs = units.map((unit) => costOf(unit, material, settings));
  const taught = running(costs.map(({ teach }) => teach));
  const known = new Map<number, number>();
  const withoutRecall = (from: number, to: number): number => {
    const key = from * (units.length + 1) + to;
    const found = known.get(key);
    if (found !== undefined) return found;
    const price = (taught[to] ?? 0) - (taught[from] ?? 0) + endSeconds(units, costs, from, to);
    known.set(key, price);
    return price;
  };
  return ({ from, to, recalled }) => {
    const routines = new Set(recalled.map((unit) => units[unit]?.routine));
    const own = recalled.reduce((sum, unit) => sum + (costs[unit]?.recall ?? 0), 0);
    return withoutRecall(from, to) + own + routines.size * inUnits(new Fraction(settings.overhead.recap), settings);
  };
}

/** Seconds of a unit: to teach it, to recall it, and of its routine as far as its end from the top, to run it, and once more. */
interface UnitCost {
  readonly teach: number;
  readonly recall: number;
  readonly top: number;
  readonly run: number;
  readonly again: number;
}

function costOf(unit: SectionUnit, material: Material, settings: ClassSettings): UnitCost {
  const least = (steps: readonly Step[]) => leastSeconds(steps, settings);
  const own = material.parts.filter((part) => part.routine.slug === unit.routine);
  const parts = own.filter(({ section, chunks }) => section.name === unit.section && chunks.length > 0);
  const before = new Map(parts.map(({ chunks, after }) => [chunks[0], after]));
  const teach = unit.chunks.flatMap((chunk) =>
    chunkSteps(material, chunk, before.has(chunk) ? before.get(chunk) : chunk - 1, place, settings),
  );
  // Of a routine that was known before the course nothing is taught: what it has is run as it is.
  const end: RoutinePart | undefined = parts.at(-1) ?? own[0];
  return {
    teach: least(teach),
    recall: recallSeconds(unit, material, settings),
    top: end ? least(topSteps(end, true, place, settings)) : 0,
    run: end ? least(finishSteps(end, place, settings)) : 0,
    again: end ? least([onceMoreStep(end, place, settings, 1)]) : 0,
  };
}

/** Slowly and at full tempo, as the class planner has it of a recap; each run rounded up on its own. */
function recallSeconds(unit: SectionUnit, { chunks }: Material, settings: ClassSettings): number {
  const own = unit.chunks.flatMap((index) => chunks[index] ?? []);
  const runs = settings.least.recap;
  const at = (speed: number) =>
    own.reduce((sum, chunk) => sum.add(runSeconds(chunk, speed, settings)), new Fraction(0)).mul(runs);
  return inUnits(at(settings.linkSpeed), settings) + inUnits(at(100), settings);
}

/** Of the end of a lesson, each routine as far as it is known then: from the top, where something of it is new; a run; and once more, where others came after it. */
function endSeconds(units: readonly SectionUnit[], costs: readonly UnitCost[], from: number, to: number): number {
  const ends = new Map(units.slice(0, to).map(({ routine }, unit) => [routine, unit]));
  const lastNew = to - 1;
  return [...ends.values()].reduce((sum, unit) => {
    const cost = costs[unit];
    if (!cost) return sum;
    const isNew = unit >= from;
    return sum + cost.run + (isNew ? cost.top : 0) + (isNew && unit !== lastNew ? cost.again : 0);
  }, 0);
}

/** Of the first n, for every n. */
function running(numbers: readonly number[]): readonly number[] {
  const sums = [0];
  for (const number of numbers) sums.push((sums.at(-1) ?? 0) + number);
  return sums;
}
