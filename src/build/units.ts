import { type LibraryFacts, workshopFacts } from "../publishing/site/library-view.js";
import type { Library } from "../routine/routine.js";
import { type Digests, digestOf } from "./digest.js";
import type { Survey } from "./survey.js";
import type { Threads } from "./threads.js";
import type { Bench, Given, With } from "./work.js";

/** A part of the pack that is made on its own. */
export interface Unit<C extends Making = Making> {
  readonly craft: C;
  /** Its folder in the pack; empty for what belongs to the library as a whole. */
  readonly place: string;
  readonly work: Given<C>[number];
}

export type Making = "shared" | "workshops" | "routines";

/** What has to be made from a content folder, what takes longest first. */
export function unitsOf({ content, texts }: Survey): readonly Unit[] {
  const { routines, workshops } = content;
  const unit = <C extends Making>(craft: C, place: string, work: Given<C>[number]): Unit<C> => {
    return { craft, place, work };
  };
  const textOf = (slug: string) => ({ slug, text: texts.get(slug) ?? "" });
  const facts: LibraryFacts = { routines, workshops: workshops.map(workshopFacts) };
  return [
    unit("shared", "", facts),
    ...workshops.map((workshop) =>
      unit("workshops", `workshops/${workshop.slug}`, {
        ...workshop,
        routines: workshop.routines.map(({ slug }) => textOf(slug)),
      }),
    ),
    ...routines.map(({ slug }) => {
      const findings = content.findingsOf(slug).map(({ file: _, ...finding }) => finding);
      return unit("routines", `routines/${slug}`, { ...textOf(slug), findings });
    }),
  ];
}

/** A digest of all that a unit is made from: what the craft is given, no more and no less. */
export function keyOf({ craft, work }: Unit, library: Library): string {
  return digestOf(craft, library, work);
}

/** Has units made in a thread, all by one craft. */
export async function makeUnits<C extends Making>(
  threads: Threads,
  bench: Bench,
  craft: C,
  units: readonly Unit<C>[],
  tell?: (what: string) => void,
): Promise<readonly Digests[]> {
  const works = units.map(({ work }) => work);
  try {
    // The compiler can't see that a list of what one craft takes is what that craft is given.
    return await threads.do(craft, bench as With<C>, works as unknown as Given<C>, tell);
  } catch (error) {
    // Of a thread that has run out of memory nothing else says what it was at.
    if ((error as NodeJS.ErrnoException).code !== "ERR_WORKER_OUT_OF_MEMORY") throw error;
    throw Object.assign(error as Error, { path: units.map(({ place }) => place).join(", ") });
  }
}
