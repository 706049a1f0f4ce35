import type { DancedSection, Routine } from "../routine/routine.js";
import { risks } from "../routine/vocabulary.js";
import { called, callsIn, optionsIn } from "./call-lines.js";
import { heaviest, type Load, plus, plusAll } from "./load.js";
import type { Chunk, Material, RoutinePart } from "./material.js";
import type { ClassSettings } from "./settings.js";
import { chunkSteps, type Step } from "./steps.js";
import { type Draft, plainTake, type TakeKind } from "./take.js";

/**
 * Teaches a section chunk by chunk as a class does, and shows the others' options before it is danced to follow.
 *
 * @param after the first of the danced sections that may come between it and the part before
 */
export function partTakes(
  part: RoutinePart,
  after: number,
  material: Material,
  settings: ClassSettings,
): readonly Draft[] {
  const { sections } = part.routine;
  const first = sections.indexOf(part.section);
  return [
    ...uncountedTakes(part.routine, after, first, settings),
    ...part.chunks.flatMap((_, order) => chunkTakes(part, order, material, settings)),
    ...(part.last ? uncountedTakes(part.routine, first, sections.length, settings) : []),
  ];
}

/** Time without counts among some of the danced sections, where it comes for the first time. */
function uncountedTakes({ sections }: Routine, from: number, to: number, settings: ClassSettings): readonly Draft[] {
  return sections.slice(from, to).flatMap(({ name, seconds, written }, index): readonly Draft[] => {
    const opens = from + index;
    if (seconds === undefined || sections.findIndex((other) => other.written === written) !== opens) return [];
    const exact = seconds.valueOf() + settings.explain;
    return [{ ...plainTake("uncounted", []), camera: "front", opens, runs: 1, exact, sections: [name] }];
  });
}

function chunkTakes(part: RoutinePart, order: number, material: Material, settings: ClassSettings): readonly Draft[] {
  const index = part.chunks[order] ?? -1;
  const chunk = material.chunks[index];
  if (!chunk) return [];
  const link = order === 0 ? part.after : index - 1;
  // Nothing links what the dancers make up.
  const own = link !== undefined && material.chunks[link]?.improvised ? undefined : link;
  const steps = chunkSteps(material, index, own, noPlace, settings).filter(({ least }) => least > 0);
  const as = (kind: TakeKind, ...from: readonly Step["kind"][]): readonly Draft[] => {
    const those = steps.filter((step) => from.includes(step.kind));
    if (kind === "explain") return those.length > 0 ? [taught(kind, those, material, settings)] : [];
    return those.map((step) => taught(kind, [step], material, settings));
  };
  const opens = order === 0 ? { opens: chunk.sectionIndex } : {};
  const opening = (drafts: readonly Draft[], more: Partial<Draft> = {}) =>
    drafts.map((draft) => ({ ...draft, ...opens, ...more }));
  if (chunk.improvised) return opening(as("own", "show"));
  if (isKnown(chunk)) return [...opening(as("known", "drill").slice(-1)), ...as("link", "link")];
  return [
    ...opening(as("explain", "show", "mark"), { speed: settings.markSpeed, calls: callsIn(chunk) }),
    ...optionsTake(chunk, settings),
    ...as("hard", "detail"),
    ...as("follow", "drill"),
    ...as("link", "link"),
  ];
}

/* A recording has no parts and blocks of a class. */
const noPlace = { part: 0, block: 0, routine: "" };

/** The section of which one is danced again, this way or the other, where it comes before it. */
export function taughtAs(sections: readonly DancedSection[], index: number): DancedSection | undefined {
  const section = sections[index];
  return sections
    .slice(0, index)
    .find(
      ({ name, written, sameAs }) =>
        written === section?.written ||
        name === section?.sameAs ||
        (sameAs !== undefined && (sameAs === section?.name || sameAs === section?.sameAs)),
    );
}

/** Whether a chunk was taught before, on this side or the other, with nothing new in it. */
function isKnown({ routine, sectionIndex, moves }: Chunk): boolean {
  return taughtAs(routine.sections, sectionIndex) !== undefined && moves.every(({ known }) => known !== "no");
}

/** Steps of a class as one take. */
function taught(kind: TakeKind, steps: readonly Step[], material: Material, settings: ClassSettings): Draft {
  const last = steps.at(-1);
  const alone = last?.moves ?? [];
  const chunks = (last?.chunks ?? []).flatMap((index) => material.chunks[index] ?? []);
  const dances = steps.map((step) => (step.kind === "show" ? plusAllOf(chunks) : step.loads));
  return {
    ...plainTake(kind, chunks),
    ...(last && { speed: last.speed }),
    runs: last?.least ?? 0,
    calls: alone.length > 0 ? [{ moves: alone.map(({ move }) => called(move)) }] : [],
    exact: sum(steps.map((step) => step.once.valueOf() + step.each.valueOf() * step.least)),
    around: sum(steps.map((step) => settings.overhead[step.kind] + settings.again * step.least)),
    load: steps.reduce<Load>(
      (load, { least }, index) => plus(load, heaviest((dances[index] ?? []).map((one) => one.taught)), least),
      {},
    ),
  };
}

const plusAllOf = (chunks: readonly Chunk[]) =>
  chunks.slice(1).reduce((loads, one) => plusAll(loads, one.loads), chunks[0]?.loads ?? []);

/** The other versions' ways to fill the chunk's counts, one after the other, each once however many versions dance it. */
function optionsTake(chunk: Chunk, settings: ClassSettings): readonly Draft[] {
  const options = optionsIn(chunk, settings);
  if (options.length === 0) return [];
  return [
    {
      ...plainTake("options", [chunk]),
      options,
      runs: 1,
      exact: sum(options.map(({ seconds }) => seconds)),
      around: 0,
      load: options.reduce<Load>((load, one) => plus(load, one.load), {}),
      cautions: risks.filter((risk) => options.some((one) => one.cautions.includes(risk))),
    },
  ];
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
