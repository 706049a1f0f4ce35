import Fraction from "fraction.js";
import { planText } from "../../src/publishing/plan-text.js";
import { readLibrary } from "../../src/reading/read-library.js";
import { dance } from "../../src/routine/dance.js";
import type { Library, Routine, Workshop } from "../../src/routine/routine.js";
import type { WrittenMove } from "../../src/routine/written.js";
import type { ActivityStep, ClassPlan } from "../../src/teaching/class-plan.js";
import { en } from "../../src/wording/en.js";
import { plainLibrary as library, move, phrase, section, written } from "../fixtures/written.js";

/** A move's words, or its words and what else is written of it; `easier` is its option for level 1. */
export type Step = string | (Partial<WrittenMove> & { readonly do: string; readonly easier?: Partial<WrittenMove> });

export interface SectionSketch {
  readonly name: string;
  /** One mapping from spans to moves a phrase. */
  readonly phrases?: readonly Readonly<Record<string, Step>>[];
  readonly sameAs?: string;
  readonly mirrored?: "never" | "always" | "alternate";
  readonly repeat?: number;
  readonly tempo?: number;
}

export interface RoutineSketch {
  readonly slug?: string;
  /** Counts a minute. */
  readonly tempo: number;
  readonly tempoIsEstimate?: boolean;
  readonly firstCount?: number;
  readonly phrase?: number;
  readonly walls?: number;
  readonly times?: number;
  readonly levels?: readonly string[];
  readonly sections: readonly SectionSketch[];
}

/** A routine as danced, from a sketch; a sketch that cannot be danced is an error of the test. */
export function routineOf(sketch: RoutineSketch): Routine {
  const {
    slug = "test",
    tempo,
    tempoIsEstimate = false,
    firstCount,
    levels = ["1", "2"],
    walls = 1,
    times = walls,
  } = sketch;
  const routine = written({
    ...{ slug, title: `Title of ${slug}`, levels, taught: levels.at(-1) ?? "1", walls, times },
    sections: sketch.sections.map(sectionOf),
    music: {
      ...{ tempo: new Fraction(tempo), tempoIsEstimate, phrase: sketch.phrase ?? 8 },
      ...(firstCount !== undefined && { firstCount: new Fraction(firstCount) }),
    },
  });
  const danced = dance(routine, library);
  if (!danced.routine) throw new Error(danced.problems.map(({ message }) => message).join("\n"));
  return danced.routine;
}

function sectionOf(sketch: SectionSketch, index: number) {
  const { name, phrases, sameAs, mirrored, repeat, tempo } = sketch;
  const counts = phrases?.map((steps, at) => {
    const place = `sections/${index}/counts/${at}`;
    const moves = Object.entries(steps).map(([on, step]) => moveOf(on, `${place}/${on}`, step));
    return phrase(moves, { place });
  });
  return section(name, counts, {
    ...(sameAs !== undefined && { sameAs }),
    ...(mirrored !== undefined && { mirrored }),
    ...(repeat !== undefined && { repeat }),
    ...(tempo !== undefined && { tempo: new Fraction(tempo) }),
  });
}

function moveOf(on: string, place: string, step: Step): WrittenMove {
  if (typeof step === "string") return move(on, step, { place });
  const { do: text, easier, ...rest } = step;
  const at = `${place}/options/1`;
  const option = { place: at, version: "1", moves: [move(undefined, "Walk", { ...easier, place: at })] };
  return move(on, text, { ...rest, place, options: easier ? [option] : [] });
}

/** A section of eights with one new move on every two counts. */
export function eights(name: string, number: number, extra: Partial<SectionSketch> = {}): SectionSketch {
  const spans = ["1-2", "3-4", "5-6", "7-8"];
  const phrases = Array.from({ length: number }, (_, eight) =>
    Object.fromEntries(spans.map((on) => [on, `${name} ${eight + 1} ${on}`])),
  );
  return { name, phrases, ...extra };
}

/** A class of so many minutes, without frame unless given. */
export function workshopOf(routines: readonly Routine[], minutes: number, extra: Partial<Workshop> = {}): Workshop {
  return {
    ...{ slug: "class", title: "Class", minutes, level: "2", routines, warmUp: 0, coolDown: 0, breaks: 0, prose: "" },
    ...extra,
  };
}

/** The test library with settings for the planner, as `library.yaml` says them. */
export function libraryWith(teaching: Readonly<Record<string, unknown>>): Library {
  const { library: read, findings } = readLibrary(`name: Test room\nteaching: ${JSON.stringify(teaching)}\n`);
  if (!read) throw new Error(findings.map(({ message }) => message).join("\n"));
  return read;
}

export { library };

/** All steps of a plan, in order, with the routine that each belongs to. */
export function stepsOf({
  activities,
}: Pick<ClassPlan, "activities">): readonly (ActivityStep & { readonly routine: string })[] {
  return activities.flatMap(({ steps, routine = "" }) => steps.map((step) => ({ ...step, routine })));
}

/** What the plan says in the steps that are wanted. */
export function saidIn(plan: ClassPlan, wanted: (step: ActivityStep) => boolean): readonly string[] {
  const text = planText(plan, en);
  return plan.activities.flatMap((activity) =>
    text.steps(activity).flatMap(({ label, instruction }, index) => {
      const step = activity.steps[index];
      return step && wanted(step) ? [`${label}. ${instruction}`] : [];
    }),
  );
}
