import type { OutFile, Publisher } from "../publishing/publisher.js";
import type { LibraryFacts } from "../publishing/site/library-view.js";
import { type PackFiles, packOf } from "../publishing/site/pack.js";
import { type RoutineFacts, routineFacts } from "../publishing/site/routine-facts.js";
import type { SitePart } from "../publishing/site/site-config.js";
import type { TextFinding } from "../reading/finding.js";
import { type RoutineRead, readRoutine } from "../reading/read-routine.js";
import type { WorkshopOf } from "../reading/read-workshop.js";
import type { Library, Routine, Workshop } from "../routine/routine.js";
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
  /** Where the files are written. */
  readonly folder: string;
  /** Leaves what takes a while for later; pages link to it all the same. */
  readonly later?: true;
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
async function routines(
  bench: Bench,
  works: readonly RoutineWork[],
  tell: Tell = () => {},
): Promise<readonly Digests[]> {
  const { routinePublishers } = await import("../publishing/list.js");
  const { routineRecord } = await import("../publishing/record/record.js");
  const made: Made<Routine>[] = [];
  for (const work of works) {
    const routine = readAgain(work, bench.library);
    const record = routineRecord(routine, bench.library, work.findings);
    made.push({ subject: routine, pack: await publish(bench, routinePublishers, routine, [record]) });
    tell(routine.title);
  }
  await makePages(bench, { routines: made, workshops: [] });
  return works.map(({ slug }) => digestsBelow(bench, `routines/${slug}`));
}

/** The same for workshops. */
async function workshops(
  bench: Bench,
  works: readonly WorkshopWork[],
  tell: Tell = () => {},
): Promise<readonly Digests[]> {
  const { workshopPublishers } = await import("../publishing/list.js");
  const made: Made<Workshop>[] = [];
  for (const work of works) {
    const workshop = lookedUp(work, bench.library);
    made.push({ subject: workshop, pack: await publish(bench, workshopPublishers, workshop) });
    tell(workshop.title);
  }
  await makePages(bench, { routines: [], workshops: made });
  return works.map(({ slug }) => digestsBelow(bench, `workshops/${slug}`));
}

/** Makes the pages about the whole library, and what all pages share. */
async function shared(
  bench: Bench,
  works: readonly LibraryFacts[],
  tell: Tell = () => {},
): Promise<readonly Digests[]> {
  for (const facts of works) await makePages(bench, { facts, routines: [], workshops: [] });
  tell(bench.library.name);
  // The others are made at the same time, into folders of their own.
  return [digestsOf(bench.folder, listFiles(bench.folder, "", ["routines", "workshops"]))];
}

/** Makes what was left for later of a routine. */
async function routineLater(bench: Bench, work: RoutineWork): Promise<Digests> {
  const { routinePublishers } = await import("../publishing/list.js");
  const slow = routinePublishers.filter(({ paths }) => paths !== undefined);
  await publish(bench, slow, readAgain(work, bench.library));
  return digestsBelow(bench, `routines/${work.slug}`);
}

/** Makes what was left for later of a workshop. */
async function workshopLater(bench: Bench, work: WorkshopWork): Promise<Digests> {
  const { workshopPublishers } = await import("../publishing/list.js");
  const slow = workshopPublishers.filter(({ paths }) => paths !== undefined);
  await publish(bench, slow, lookedUp(work, bench.library));
  return digestsBelow(bench, `workshops/${work.slug}`);
}

/** What can be asked for, by name. */
export const crafts = { read, routines, workshops, shared, routineLater, workshopLater };

export type Craft = keyof typeof crafts;
/** With what a craft is done: a library, or a library and a place to write to. */
export type With<C extends Craft> = Parameters<(typeof crafts)[C]>[0];
export type Given<C extends Craft> = Parameters<(typeof crafts)[C]>[1];
export type Gained<C extends Craft> = Awaited<ReturnType<(typeof crafts)[C]>>;

/** A routine or workshop, and what lies in the pack beside its page. */
interface Made<Subject> {
  readonly subject: Subject;
  readonly pack: PackFiles;
}

function digestsBelow({ folder }: Bench, place: string): Digests {
  return digestsOf(folder, listFiles(folder, place));
}

function readAgain({ slug, text }: RoutineText, library: Library): Routine {
  const { routine } = readRoutine(text, slug, library);
  if (routine === undefined) throw new Error(`The routine ${slug} is not whole.`);
  return routine;
}

function lookedUp(work: WorkshopWork, library: Library): Workshop {
  return { ...work, routines: work.routines.map((routine) => readAgain(routine, library)) };
}

/** Writes what some outputs make of a subject, and tells what then lies in the pack, or will. */
async function publish<S extends { readonly slug: string }>(
  { library, folder, later }: Bench,
  publishers: readonly Publisher<S>[],
  subject: S,
  more: readonly OutFile[] = [],
): Promise<PackFiles> {
  const files = [...more];
  const paths: string[] = [];
  for (const publisher of publishers) {
    if (later && publisher.paths) paths.push(...publisher.paths(subject, library));
    else files.push(...(await published(publisher, subject, library)));
  }
  for (const file of files) writeInto(folder, file);
  return packOf(files, paths);
}

async function published<S extends { readonly slug: string }>(publisher: Publisher<S>, subject: S, library: Library) {
  try {
    return await publisher.publish(subject, library);
  } catch (error) {
    const what = `The ${publisher.name} of ${subject.slug}`;
    throw new Error(`${what} could not be made: ${(error as Error).message}`, { cause: error });
  }
}

interface Pages {
  readonly facts?: LibraryFacts;
  readonly routines: readonly Made<Routine>[];
  readonly workshops: readonly Made<Workshop>[];
}

async function makePages({ library, folder }: Bench, { routines, workshops, ...shared }: Pages): Promise<void> {
  const { publishSite } = await import("../publishing/site/publish-site.js");
  const packs = new Map([...routines, ...workshops].map(({ subject, pack }) => [subject.slug, pack]));
  const part: SitePart = {
    ...shared,
    library,
    routines: routines.map(({ subject }) => subject),
    workshops: workshops.map(({ subject }) => subject),
    packOf: (_, slug) => packs.get(slug) ?? packOf([], []),
  };
  await publishSite(part, folder);
}
