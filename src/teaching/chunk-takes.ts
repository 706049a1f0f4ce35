import { risks } from "../routine/vocabulary.js";
import { called, callsIn, optionsIn } from "./call-lines.js";
import { chunkSteps } from "./chunk-steps.js";
import { heaviest, type Load, plus, plusAll } from "./load.js";
import type { Chunk, Material, RoutinePart } from "./material.js";
import { withoutIn } from "./running-order.js";
import type { ClassSettings } from "./settings.js";
import type { Step } from "./steps.js";
import { type Draft, plainTake, type TakeKind } from "./take.js";

/** Teaches a section chunk by chunk as a class does. */
export function partTakes(part: RoutinePart, material: Material, settings: ClassSettings): readonly Draft[] {
  return part.chunks.flatMap((_, order) => chunkTakes(part, order, material, settings));
}

function chunkTakes(part: RoutinePart, order: number, material: Material, settings: ClassSettings): readonly Draft[] {
  const index = part.chunks[order] ?? -1;
  const chunk = material.chunks[index];
  if (!chunk) return [];
  const link = order === 0 ? part.after : index - 1;
  const steps = chunkSteps(material, index, link, noPlace, settings).filter(({ least }) => least > 0);
  const opens = order === 0 ? { opens: chunk.sectionIndex, ...(chunk.pickUp && { pickUp: chunk.pickUp.name }) } : {};
  const shown = steps.filter(({ kind }) => kind === "show" || kind === "mark");
  const others = steps.filter((step) => !shown.includes(step));
  const explained = { ...opens, speed: settings.markSpeed, calls: callsIn(chunk) };
  return [
    ...(shown.length > 0
      ? [
          {
            ...taught("explain", shown, material, settings),
            ...explained,
            ...withoutIn({ speed: settings.markSpeed, moves: [] }, [chunk]),
          },
        ]
      : []),
    ...others.map((step): Draft => {
      const take = taught(kindOf(step.kind, chunk), [step], material, settings);
      if (step.kind === "options") return optionsTake(take, chunk);
      const { before } = chunk;
      if (take.kind === "uncounted") return { ...withoutSpeed(take), ...opens };
      return step.kind === "again" || step.kind === "explain" ? { ...take, ...opens, ...(before && { before }) } : take;
    }),
  ];
}

/** Time without counts has no tempo. */
function withoutSpeed({ speed: _, ...take }: Draft): Draft {
  return take;
}

function kindOf(kind: Step["kind"], chunk: Chunk): TakeKind {
  if (kind === "explain") return chunk.improvised ? "own" : "uncounted";
  if (kind === "again") return "known";
  if (kind === "options" || kind === "link") return kind;
  return kind === "detail" ? "hard" : "follow";
}

/* A recording has no parts and blocks of a class. */
const noPlace = { part: 0, block: 0, routine: "" };

/** Steps of a class as one take. */
function taught(kind: TakeKind, steps: readonly Step[], material: Material, settings: ClassSettings): Draft {
  const last = steps.at(-1);
  const alone = last?.moves ?? [];
  const chunks = (last?.chunks ?? []).flatMap((index) => material.chunks[index] ?? []);
  const dances = steps.map((step) => (step.kind === "show" ? plusAllOf(chunks) : step.loads));
  return {
    ...plainTake(kind, chunks),
    ...(last && { speed: last.speed, ...withoutIn(last, chunks) }),
    runs: last?.least ?? 0,
    calls: alone.length > 0 ? [{ moves: alone.map(({ move }) => called(move)) }] : [],
    exact: sum(steps.map((step) => step.once.valueOf() + step.each.valueOf() * step.least)),
    around: sum(
      steps.map((step) => settings.overhead[step.kind] + (step.kind === "options" ? 0 : settings.again * step.least)),
    ),
    load: steps.reduce<Load>(
      (load, { least }, index) => plus(load, heaviest((dances[index] ?? []).map((one) => one.taught)), least),
      {},
    ),
  };
}

const plusAllOf = (chunks: readonly Chunk[]) =>
  chunks.slice(1).reduce((loads, one) => plusAll(loads, one.loads), chunks[0]?.loads ?? []);

/** With what the other versions dance in the chunk; the teacher dances it, whoever's it is. */
function optionsTake(take: Draft, chunk: Chunk): Draft {
  const options = optionsIn(chunk);
  return {
    ...withoutSpeed(take),
    options,
    load: options.reduce<Load>((load, one) => plus(load, one.load), {}),
    cautions: risks.filter((risk) => options.some((one) => one.cautions.includes(risk))),
  };
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
