import type { Block } from "./blocks.js";
import type { FrameKind } from "./kinds.js";
import type { ClassSettings } from "./settings.js";
import type { Step } from "./steps.js";
import { breathsIn } from "./talk.js";

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

/** A place in the running order: a block, or what stands between and around the blocks. */
export type TimedEntry = {
  readonly start: number;
  readonly seconds: number;
} & ({ readonly block: Block } | { readonly frame: FrameKind });

/**
 * The running order of a slot: no gap, no overlap. Questions stand where bodies have to breathe, and else at the end of each
 * routine; what nothing was found for is free practice.
 */
export function timetable(
  slot: Slot,
  steps: readonly Step[],
  blocks: readonly Block[],
  talk: number,
  settings: ClassSettings,
): readonly TimedEntry[] {
  const places: TimedEntry[] = [];
  let start = 0;
  const put = (seconds: number, what: { readonly block: Block } | { readonly frame: FrameKind }) => {
    if (seconds > 0) places.push({ start, seconds, ...what });
    start += seconds;
  };
  const water = waterBefore(slot, steps, blocks, settings);
  const questions = questionsBefore(steps, blocks, talk, (index) => water.has(index), settings);

  put(slot.warmUp, { frame: "warm-up" });
  blocks.forEach((block, index) => {
    put(questions.get(index) ?? 0, { frame: "questions" });
    put(water.get(index) ?? 0, { frame: "water" });
    put(block.seconds, { block });
  });
  put(water.get(-1) ?? 0, { frame: "water" });
  put(questions.get(-1) ?? 0, { frame: "questions" });
  put(slot.seconds - slot.coolDown - start, { frame: "free-practice" });
  put(slot.coolDown, { frame: "cool-down" });
  return places;
}

/** Seconds of questions before a block, by its place (-1: after all): a minute where floor work asks for it, the rest as each routine ends. */
function questionsBefore(
  steps: readonly Step[],
  blocks: readonly Block[],
  talk: number,
  rested: (index: number) => boolean,
  settings: ClassSettings,
): ReadonlyMap<number, number> {
  const questions = new Map<number, number>();
  let left = talk;
  const give = (index: number, seconds: number) => {
    questions.set(index, (questions.get(index) ?? 0) + seconds);
    left -= seconds;
  };
  for (const index of breathsIn(blocks, settings, rested)) give(index, Math.min(60, left));
  const ends = blocks.flatMap((block, index) =>
    index > 0 && !isOnceMore(steps, block) && routineOf(steps, block) !== routineOf(steps, blocks[index - 1])
      ? [index]
      : [],
  );
  const share = Math.floor(left / 60 / (ends.length + 1)) * 60;
  for (const index of ends) if (share > 0) give(index, share);
  if (left > 0) give(-1, left);
  return questions;
}

/** A routine that is danced after another has been taught since. */
function isOnceMore(steps: readonly Step[], { steps: here }: Block): boolean {
  return steps[here[0] ?? -1]?.kind === "run-through";
}

function routineOf(steps: readonly Step[], block: Block | undefined): string | undefined {
  return steps[block?.steps[0] ?? -1]?.routine;
}

/**
 * Seconds of water before a block, by its place (-1: after all). The breaks are shared out evenly, in whole minutes, as near as
 * may be to equal stretches of dancing: rather between two routines or before the song than in a section.
 */
function waterBefore(
  slot: Slot,
  steps: readonly Step[],
  blocks: readonly Block[],
  settings: ClassSettings,
): ReadonlyMap<number, number> {
  const gaps = gapsBetween(steps, blocks);
  const total = blocks.reduce((sum, { seconds }) => sum + seconds, 0);
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
    const seconds = each === number ? slot.breaks - given : Math.round((slot.breaks * each) / number / 60) * 60 - given;
    given += seconds;
    if (seconds > 0) water.set(gap.index, (water.get(gap.index) ?? 0) + seconds);
  }
  return water;
}

/** A place for water. */
interface Gap {
  /** Of the block that follows. */
  readonly index: number;
  /** Seconds danced before it. */
  readonly at: number;
  /** How far from its time it may lie for being a better place than another, as a share of the dancing. */
  readonly unwelcome: number;
}

function gapsBetween(steps: readonly Step[], blocks: readonly Block[]): readonly Gap[] {
  let at = 0;
  return blocks.flatMap((block, index): Gap[] => {
    at += blocks[index - 1]?.seconds ?? 0;
    const before = steps[blocks[index - 1]?.steps[0] ?? -1];
    const here = block.steps.flatMap((step) => steps[step] ?? []);
    const [step] = here;
    if (!before || !step) return [];
    const song = here.some(({ kind }) => kind === "run-through");
    return [
      {
        index,
        at,
        unwelcome: before.routine !== step.routine ? 0 : song ? 0.05 : before.part !== step.part ? 0.1 : 0.15,
      },
    ];
  });
}
