import type { Routine } from "../routine/routine.js";
import { cautionsOf } from "./cautions.js";
import type { CalledMove, PlannedChunk } from "./class-plan.js";
import { type Reach, taughtChunks } from "./class-steps.js";
import { learnt } from "./dancers.js";
import { freshIn } from "./divide.js";
import { heaviestOf } from "./load.js";
import { type Chunk, type Material, nameOf } from "./material.js";
import type { PlanContext, PlannedStep } from "./running-order.js";

/** "low-tide/1": a routine's slug and the number of the chunk in it. */
export function chunkIds(material: Material): readonly string[] {
  const numbers = new Map<Routine, number>();
  return material.chunks.map(({ routine }) => {
    const number = (numbers.get(routine) ?? 0) + 1;
    numbers.set(routine, number);
    return `${routine.slug}/${number}`;
  });
}

export function plannedChunks(
  context: PlanContext,
  reach: Reach,
  planned: readonly PlannedStep[],
): readonly PlannedChunk[] {
  const taught = new Set(taughtChunks(context.material, reach));
  const recalled = new Set(context.material.recaps.flatMap((recap) => recap.chunks));
  const runs = context.material.chunks.map(() => ({ all: 0, full: 0 }));
  for (const { step, runs: times } of planned)
    for (const index of step.kind === "show" || step.kind === "options" ? [] : step.chunks) {
      const sum = runs[index];
      if (!sum) continue;
      sum.all += times;
      if (step.speed === 100) sum.full += times;
    }
  return context.material.chunks.map((chunk, index) => ({
    id: context.ids[index] ?? "",
    routine: chunk.routine.slug,
    section: chunk.section.name,
    name: nameOf(chunk),
    sectionIndex: chunk.sectionIndex,
    phrases: chunk.phrases,
    counts: chunk.counts,
    ...(chunk.improvised && { improvised: true as const }),
    seconds: rounded(chunk.seconds.valueOf(), 1000),
    calls: callsIn(chunk),
    newMoves: freshIn(context.material, index),
    points: rounded(chunk.points, 100),
    density: chunk.counts === 0 ? 0 : rounded((chunk.points * 8) / chunk.counts, 100),
    ...(chunk.before && { before: chunk.before }),
    ...cautionsOf([chunk], ["taught"]),
    load: heaviestOf(chunk.loads),
    taught: taught.has(index),
    ...(recalled.has(index) && { recalled: true as const }),
    runs: runs[index]?.all ?? 0,
    fullTempoRuns: runs[index]?.full ?? 0,
  }));
}

/** What is called in a chunk: everybody's moves in order, holds that nobody wrote left out. */
function callsIn({ dancers }: Chunk): readonly CalledMove[] {
  return learnt(dancers)
    .toSorted((a, b) => a.move.at.compare(b.move.at))
    .map(({ move, groups }) => ({
      phrase: move.phrase,
      on: move.on,
      cue: move.cue.text,
      length: rounded(move.length.valueOf(), 1000),
      ...(move.say && { say: move.say.flatMap(({ cue }) => (cue.text === "" ? [] : [cue.text])) }),
      ...(groups.length > 0 && { groups }),
    }));
}

function rounded(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
