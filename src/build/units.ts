import { type LibraryFacts, workshopFacts } from "../publishing/site/library-view.js";
import type { Library } from "../routine/routine.js";
import { digestOf } from "./digest.js";
import type { JobInput, JobOptions } from "./jobs.js";
import type { MadeFile, MakeOptions } from "./publish.js";
import type { Survey } from "./survey.js";
import type { Threads } from "./threads.js";

/** A part of the pack that is made on its own. */
export interface Unit<J extends MakingJob = MakingJob> {
  readonly job: J;
  /** Its folder in the pack; empty for what belongs to the library as a whole. */
  readonly place: string;
  /** Of the routine or workshop; the library's name for the library as a whole. */
  readonly title: string;
  readonly input: JobInput<J>[number];
}

export type MakingJob = "library" | "workshops" | "routines";

/**
 * What has to be made from a content folder, what takes longest first.
 *
 * @param told what a library page for its author says as well
 */
export function unitsOf(
  { content, texts }: Survey,
  { broken = [], toLookAt = {} }: Pick<LibraryFacts, "broken" | "toLookAt"> = {},
): readonly Unit[] {
  const { routines, workshops } = content;
  const unit = <J extends MakingJob>(job: J, place: string, title: string, input: JobInput<J>[number]): Unit<J> => {
    return { job, place, title, input };
  };
  const textOf = (slug: string) => ({ slug, text: texts.get(slug) ?? "" });
  const facts: LibraryFacts = {
    routines,
    workshops: workshops.map(workshopFacts),
    ...(broken.length > 0 && { broken }),
    ...(Object.keys(toLookAt).length > 0 && { toLookAt }),
  };
  return [
    unit("library", "", content.library.name, facts),
    ...workshops.map((workshop) =>
      unit("workshops", `workshops/${workshop.slug}`, workshop.title, {
        ...workshop,
        routines: workshop.routines.map(({ slug }) => textOf(slug)),
      }),
    ),
    ...routines.map(({ slug, title }) => {
      const findings = content.findingsOf(slug).map(({ file: _, ...finding }) => finding);
      return unit("routines", `routines/${slug}`, title, { ...textOf(slug), findings });
    }),
  ];
}

/** A digest of all that a unit is made from: what the job is given, no more and no less. */
export function keyOf({ job, input }: Unit, library: Library): string {
  return digestOf(job, library, input);
}

/** Has units made in a thread, all by one job. */
export async function makeUnits<J extends MakingJob>(
  threads: Threads,
  options: MakeOptions,
  job: J,
  units: readonly Unit<J>[],
  tell?: (what: string) => void,
): Promise<readonly (readonly MadeFile[])[]> {
  const inputs = units.map(({ input }) => input);
  // The compiler can't see that a list of inputs of one job is what that job takes.
  return withPlaces(units, threads.do(job, options as JobOptions<J>, inputs as unknown as JobInput<J>, tell));
}

/** Has made in a thread what was left for later of a unit. */
export async function makeLater(threads: Threads, options: MakeOptions, unit: Unit): Promise<readonly MadeFile[]> {
  const { job, input } = unit;
  if (job === "routines")
    return withPlaces([unit], threads.do("routineLater", options, input as JobInput<"routineLater">));
  if (job === "workshops")
    return withPlaces([unit], threads.do("workshopLater", options, input as JobInput<"workshopLater">));
  return [];
}

/** Of a thread that has run out of memory nothing else says what it was doing. */
async function withPlaces<Result>(units: readonly Unit[], result: Promise<Result>): Promise<Result> {
  try {
    return await result;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ERR_WORKER_OUT_OF_MEMORY") throw error;
    throw Object.assign(error as Error, { path: units.map(({ place }) => place).join(", ") });
  }
}
