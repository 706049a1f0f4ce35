import type { Routine, Workshop } from "../routine/routine.js";
import { captions } from "./captions/publisher.js";
import { click } from "./click/publisher.js";
import { course } from "./course/publisher.js";
import { description } from "./description/publisher.js";
import { handout } from "./handout/publisher.js";
import { pack } from "./pack/publisher.js";
import { pictures } from "./pictures/publisher.js";
import { plan } from "./plan/publisher.js";
import { libraryPreview, preview, workshopPreview } from "./preview/publisher.js";
import type { Publisher } from "./publisher.js";
import { record } from "./record/publisher.js";
import type { SitePage } from "./site/feed-view.js";
import { formerPages } from "./site/former.js";
import type { LibraryFacts } from "./site/library-view.js";
import { libraryPages, routinePage, workshopPage } from "./site/publisher.js";
import type { WholeLibrary } from "./site/site-config.js";

/** What is made of each: a list a kind of subject. A further output is a folder and a line here; pages offer its files in this order. */
export interface Outputs {
  readonly routines: readonly Publisher<Routine>[];
  readonly workshops: readonly Publisher<Workshop>[];
  readonly library: readonly Publisher<WholeLibrary>[];
}

export const outputs: Outputs = {
  routines: [handout, pictures, preview, click, captions, description, record, formerPages, routinePage],
  workshops: [pack, course, plan, workshopPreview, workshopPage],
  library: [libraryPreview, libraryPages],
};

/** Every page of a library, for its sitemap. */
export function pagesOf({ routines, workshops }: Outputs, facts: LibraryFacts): readonly SitePage[] {
  const pages = (publishers: readonly Pick<Publisher<never>, "pages">[], slug: string) =>
    publishers.flatMap(({ pages }) => pages?.({ slug }) ?? []);
  return [
    { path: "index.html" },
    ...facts.routines.flatMap(({ slug, date }) =>
      pages(routines, slug).map((path) => ({ path, ...(date === undefined ? {} : { date }) })),
    ),
    ...facts.workshops.flatMap(({ slug }) => pages(workshops, slug).map((path) => ({ path }))),
  ];
}
