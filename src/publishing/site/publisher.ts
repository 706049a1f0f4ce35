import type { Routine, Workshop } from "../../routine/routine.js";
import type { OutFile, Publisher, Work } from "../publisher.js";
import type { SitePart, WholeLibrary } from "./site-config.js";

/* Pages are made by Eleventy, which takes a while to load and to set up: it is loaded when it is needed, and makes many at once. */

interface Paged {
  readonly slug: string;
}

/** A routine's page: `routines/<slug>/index.html`. */
export const routinePage: Publisher<Routine> = pageOutput(
  ({ slug }) => `routines/${slug}/index.html`,
  (routines) => ({ routines, workshops: [] }),
);

/** A workshop's page: `workshops/<slug>/index.html`. */
export const workshopPage: Publisher<Workshop> = pageOutput(
  ({ slug }) => `workshops/${slug}/index.html`,
  (workshops) => ({ routines: [], workshops }),
);

/** The pages about the whole library, its feed, sitemap and data, and what all pages share. */
export const libraryPages: Publisher<WholeLibrary> = together("site", (works) =>
  Promise.all(
    works.map(async ({ subject: whole, context: { library } }) => {
      const [{ publishSite }, { assets }] = await Promise.all([import("./publish-site.js"), import("./assets.js")]);
      return [...(await publishSite({ library, whole, routines: [], workshops: [] })), ...(await assets(whole.facts))];
    }),
  ),
);

function pageOutput<Subject extends Paged>(
  pathOf: (subject: Paged) => string,
  partOf: (works: readonly Work<Subject>[]) => Omit<SitePart, "library">,
): Publisher<Subject> {
  const publishAll = async (works: readonly Work<Subject>[]) => {
    const [first] = works;
    if (first === undefined) return [];
    const { publishSite } = await import("./publish-site.js");
    const made = await publishSite({ library: first.context.library, ...partOf(works) });
    const byPath = new Map(made.map((file) => [file.path, file]));
    return works.map(({ subject }) => [byPath.get(pathOf(subject))].filter((file) => file !== undefined));
  };
  return { ...together("page", publishAll), pages: (subject) => [pathOf(subject)] };
}

function together<Subject>(
  name: string,
  publishAll: (works: readonly Work<Subject>[]) => Promise<readonly (readonly OutFile[])[]>,
): Publisher<Subject> {
  return { name, publishAll, publish: async (subject, context) => (await publishAll([{ subject, context }])).flat() };
}
