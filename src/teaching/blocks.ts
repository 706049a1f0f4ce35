import type { Material } from "./material.js";
import type { ClassSettings } from "./settings.js";
import { inUnits, type Step, secondsOf } from "./steps.js";

/** Steps that follow each other as one activity. */
export interface Block {
  /** Indexes of its steps that are danced. */
  readonly steps: readonly number[];
  /** In whole units. */
  readonly seconds: number;
  /** Some of it is floor work. */
  readonly floor: boolean;
}

/** The activities of a class, in order, with so many runs of each step; what has no run is no part of it. */
export function blocksOf(
  steps: readonly Step[],
  runs: readonly number[],
  material: Material,
  settings: ClassSettings,
): readonly Block[] {
  const blocks = new Map<number, { steps: number[]; exact: number; floor: boolean }>();
  steps.forEach((step, index) => {
    const times = runs[index] ?? 0;
    if (times === 0) return;
    const block = blocks.get(step.block) ?? { steps: [], exact: 0, floor: false };
    block.steps.push(index);
    block.exact += secondsOf(step, times);
    block.floor ||= isFloorWork(step, material);
    blocks.set(step.block, block);
  });
  return [...blocks].map(([, { exact, ...block }]) => ({ ...block, seconds: inUnits(exact, settings) }));
}

/** The class watches a show, and so rests. */
export function isFloorWork({ kind, chunks }: Step, material: Material): boolean {
  if (kind === "show" || kind === "show-all" || kind === "options") return false;
  return chunks.some((chunk) => material.chunks[chunk]?.floor);
}

/** Seconds of some activities, without what stands between them. */
export function lengthOf(blocks: readonly Pick<Block, "seconds">[]): number {
  return blocks.reduce((sum, { seconds }) => sum + seconds, 0);
}

/** The least that some steps ask for. */
export function leastBlocks(steps: readonly Step[], material: Material, settings: ClassSettings): readonly Block[] {
  return blocksOf(
    steps,
    steps.map(({ least }) => least),
    material,
    settings,
  );
}
