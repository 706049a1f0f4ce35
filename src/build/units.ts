import { type LibraryFacts, workshopFacts } from "../publishing/site/library-view.js";
import { digestOf } from "./digest.js";
import type { Survey } from "./survey.js";
import type { Craft, Given } from "./work.js";

/** A part of the pack that is made on its own. */
export interface Unit<C extends Making = Making> {
  readonly craft: C;
  /** Its folder in the pack; empty for what belongs to the library as a whole. */
  readonly place: string;
  readonly work: Given<C>[number];
  /** A digest of all that it is made from: what the craft is given, no more and no less. */
  readonly key: string;
}

export type Making = Exclude<Craft, "read">;

/** What has to be made from a content folder, what takes longest first. */
export function unitsOf({ content, texts }: Survey): readonly Unit[] {
  const { library, routines, workshops } = content;
  const unit = <C extends Making>(craft: C, place: string, work: Given<C>[number]): Unit<C> => {
    return { craft, place, work, key: digestOf(craft, library, work) };
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
