import type { FrameKind } from "./kinds.js";
import type { ClassSettings } from "./settings.js";
import type { Step } from "./steps.js";

/** The slot and what of it is no dancing, in whole seconds. */
export interface Slot {
  readonly seconds: number;
  readonly warmUp: number;
  readonly coolDown: number;
  readonly breaks: number;
  /** What is left for teaching. */
  readonly teaching: number;
  /** Warm-up, breaks and cool-down as asked for, whether or not the slot holds them. */
  readonly frame: number;
}

/** A slot; where it is shorter than what frames the teaching, the breaks give way first, then the cool-down. */
export function slotOf(workshop: {
  readonly minutes: number;
  readonly warmUp: number;
  readonly coolDown: number;
  readonly breaks: number;
}): Slot {
  const seconds = Math.round(workshop.minutes * 60);
  const wanted = [workshop.warmUp, workshop.coolDown, workshop.breaks].map((minutes) => Math.round(minutes * 60));
  let teaching = seconds;
  const [warmUp = 0, coolDown = 0, breaks = 0] = wanted.map((length) => {
    const taken = Math.min(length, teaching);
    teaching -= taken;
    return taken;
  });
  return { seconds, warmUp, coolDown, breaks, teaching, frame: wanted.reduce((sum, length) => sum + length, 0) };
}

/** A place in the running order: a step, or what stands between and around the steps. */
export type TimedEntry = {
  readonly start: number;
  readonly seconds: number;
} & ({ readonly step: number } | { readonly frame: FrameKind });

/** The running order of a slot: no gap, no overlap, and what nothing was found for is free practice. */
export function timetable(
  slot: Slot,
  steps: readonly Step[],
  lengths: readonly number[],
  settings: ClassSettings,
): readonly TimedEntry[] {
  const places: TimedEntry[] = [];
  let start = 0;
  const put = (seconds: number, what: { readonly step: number } | { readonly frame: FrameKind }) => {
    if (seconds > 0) places.push({ start, seconds, ...what });
    start += seconds;
  };
  const danced = steps.flatMap((_, index) => ((lengths[index] ?? 0) > 0 ? [index] : []));
  const water = waterBefore(slot, steps, danced, lengths, settings);

  put(slot.warmUp, { frame: "warm-up" });
  for (const index of danced) {
    put(water.get(index) ?? 0, { frame: "water" });
    put(lengths[index] ?? 0, { step: index });
  }
  put(water.get(-1) ?? 0, { frame: "water" });
  put(slot.seconds - slot.coolDown - start, { frame: "free-practice" });
  put(slot.coolDown, { frame: "cool-down" });
  return places;
}

/**
 * Seconds of water before a step, by the step's index (-1: after all). The breaks are shared out evenly, a minute or more
 * each, as near as may be to equal stretches of dancing: rather between two routines or before the song than in a section.
 */
function waterBefore(
  slot: Slot,
  steps: readonly Step[],
  danced: readonly number[],
  lengths: readonly number[],
  settings: ClassSettings,
): ReadonlyMap<number, number> {
  const gaps = gapsBetween(steps, danced, lengths);
  const total = danced.reduce((sum, index) => sum + (lengths[index] ?? 0), 0);
  const stretches = Math.ceil(slot.teaching / (settings.waterEvery * 60));
  const number = Math.max(1, Math.min(stretches - 1, Math.floor(slot.breaks / 60)));
  const water = new Map<number, number>();
  let given = 0;
  for (let each = 1; each <= number; each++) {
    const off = ({ at, unwelcome }: Gap) => Math.abs(at - (total * each) / (number + 1)) + unwelcome * total;
    const gap = gaps.reduce((best, other) => (off(other) < off(best) ? other : best), {
      index: -1,
      at: total,
      unwelcome: 1,
    });
    const seconds = Math.round((slot.breaks * each) / number) - given;
    given += seconds;
    water.set(gap.index, (water.get(gap.index) ?? 0) + seconds);
  }
  return water;
}

/** A place for water. */
interface Gap {
  /** Of the step that follows. */
  readonly index: number;
  /** Seconds danced before it. */
  readonly at: number;
  /** How far from its time it may lie for being a better place than another, as a share of the dancing. */
  readonly unwelcome: number;
}

function gapsBetween(steps: readonly Step[], danced: readonly number[], lengths: readonly number[]): readonly Gap[] {
  let at = 0;
  return danced.flatMap((index, order): Gap[] => {
    const [before, step] = [steps[danced[order - 1] ?? -1], steps[index]];
    at += lengths[danced[order - 1] ?? -1] ?? 0;
    if (!before || !step || before.block === step.block) return [];
    const unwelcome =
      before.routine !== step.routine ? 0 : step.kind === "run-through" ? 0.05 : before.part !== step.part ? 0.1 : 0.15;
    return [{ index, at, unwelcome }];
  });
}
