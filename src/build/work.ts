import type { OutFile, Publisher } from "../publishing/publisher.js";
import type { LibraryFacts } from "../publishing/site/library-view.js";
import { readPack } from "../publishing/site/pack.js";
import { type RoutineFacts, routineFacts } from "../publishing/site/routine-facts.js";
import type { SitePart } from "../publishing/site/site-config.js";
import type { TextFinding } from "../reading/finding.js";
import { type RoutineRead, readRoutine } from "../reading/read-routine.js";
import type { WorkshopOf } from "../reading/read-workshop.js";
import type { Library, Routine } from "../routine/routine.js";
import { type Digests, digestsOf } from "./digest.js";
import { listFiles } from "./folders.js";
import { writeInto } from "./staging.js";

/*
 * The pieces of work that a build is divided into. What goes in and comes out is plain data, since it passes from thread to
 * thread: a routine as its text, which is read again where it is needed. So nowhere are more than a few routines held. What
 * takes long to load is loaded by the piece of work that needs it.
 */

/** What all the making has in common. */
export interface Bench {
  readonly library: Library;
  /** The staging folder. */
  readonly folder: string;
}

export interface RoutineText {
  readonly slug: string;
  /** Line ends "\n". */
  readonly text: string;
}

/** A routine to be published, with what was found in its file. */
export interface RoutineWork extends RoutineText {
  readonly findings: readonly TextFinding[];
}

export type WorkshopWork = WorkshopOf<RoutineText>;

/** Called after each thing that was made. */
type Tell = (what: string) => void;

/** Reads routines and keeps what other pages and checks need to know of them. */
async function read(library: Library, files: readonly RoutineText[]): Promise<readonly RoutineRead<RoutineFacts>[]> {
  return files.map(({ slug, text }) => {
    const { routine, ...rest } = readRoutine(text, slug, library);
    return routine === undefined ? rest : { ...rest, routine: routineFacts(routine) };
  });
}

/** Makes everything that is about these routines alone: handouts, captions and the rest, and their pages. */
async function routines(bench: Bench, works: readonly RoutineWork[], tell: Tell): Promise<readonly Digests[]> {
  const { routinePublishers } = await import("../publishing/list.js");
  const { routineRecord } = await import("../publishing/record/record.js");
  const made: Routine[] = [];
  for (const work of works) {
    const routine = readAgain(work, bench.library);
    write(bench, [routineRecord(routine, bench.library, work.findings)]);
    await publish(bench, routinePublishers, routine);
    made.push(routine);
    tell(routine.title);
  }
  await makePages(bench, { routines: made, workshops: [] });
  return made.map(({ slug }) => digestsBelow(bench, `routines/${slug}`));
}

/** The same for workshops. */
async function workshops(bench: Bench, works: readonly WorkshopWork[], tell: Tell): Promise<readonly Digests[]> {
  const { workshopPublishers } = await import("../publishing/list.js");
  const made = works.map((work) => ({
    ...work,
    routines: work.routines.map((routine) => readAgain(routine, bench.library)),
  }));
  for (const workshop of made) {
    await publish(bench, workshopPublishers, workshop);
    tell(workshop.title);
  }
  await makePages(bench, { routines: [], workshops: made });
  return made.map(({ slug }) => digestsBelow(bench, `workshops/${slug}`));
}

/** Makes the pages about the whole library, and what all pages share. */
async function shared(bench: Bench, works: readonly LibraryFacts[], tell: Tell): Promise<readonly Digests[]> {
  for (const facts of works) await makePages(bench, { facts, routines: [], workshops: [] });
  tell(bench.library.name);
  // The others are made at the same time, into folders of their own.
  return [digestsOf(bench.folder, listFiles(bench.folder, "", ["routines", "workshops"]))];
}

/** What can be asked for, by name. */
export const crafts = { read, routines, workshops, shared };

export type Craft = keyof typeof crafts;
/** With what a craft is done: a library, or a library and a place to write to. */
export type With<C extends Craft> = Parameters<(typeof crafts)[C]>[0];
export type Given<C extends Craft> = Parameters<(typeof crafts)[C]>[1];
export type Gained<C extends Craft> = Awaited<ReturnType<(typeof crafts)[C]>>;

function digestsBelow({ folder }: Bench, place: string): Digests {
  return digestsOf(folder, listFiles(folder, place));
}

function readAgain({ slug, text }: RoutineText, library: Library): Routine {
  const { routine } = readRoutine(text, slug, library);
  if (routine === undefined) throw new Error(`The routine ${slug} is not whole.`);
  return routine;
}

async function publish<S extends { slug: string }>(bench: Bench, publishers: readonly Publisher<S>[], subject: S) {
  for (const { name, publish } of publishers)
    try {
      write(bench, await publish(subject, bench.library));
    } catch (error) {
      throw new Error(`The ${name} of ${subject.slug} could not be made: ${(error as Error).message}`, {
        cause: error,
      });
    }
}

function write({ folder }: Bench, files: readonly OutFile[]): void {
  for (const file of files) writeInto(folder, file);
}

async function makePages({ library, folder }: Bench, part: Omit<SitePart, "library" | "packOf">): Promise<void> {
  const { publishSite } = await import("../publishing/site/publish-site.js");
  await publishSite({ ...part, library, packOf: (kind, slug) => readPack(folder, kind, slug) }, folder);
}
