import type { FindingInFile } from "../publishing/publisher.js";
import type { LibraryFacts } from "../publishing/site/library-view.js";
import { type RoutineFacts, routineFacts } from "../publishing/site/routine-facts.js";
import type { ContentFiles } from "../reading/files.js";
import type { Content } from "../reading/read-content.js";
import type { RoutineRead } from "../reading/read-routine.js";
import type { WorkshopOf } from "../reading/read-workshop.js";
import type { Library, Routine, Workshop } from "../routine/routine.js";
import type { Cache } from "./cache.js";
import { withoutDoubts } from "./drafts.js";
import { type MadeFile, type MakeOptions, publish, type Tell } from "./publish.js";
import { type RoutineText, reader } from "./recent.js";
import { type Survey, survey as surveyBy } from "./survey.js";

/*
 * The jobs that a build is divided into. What goes in and comes out is plain data, since it passes from thread to thread: a
 * routine as its text, which is read again where it is needed. So nowhere are more than a few routines held. What takes long
 * to load is loaded by the job that needs it.
 */

/** A routine to be published, with what was found in its file. */
export interface RoutineInput extends RoutineText {
  readonly findings: readonly FindingInFile[];
}

export type WorkshopInput = WorkshopOf<RoutineText>;

/** Reads routines and keeps what other pages and checks need to know of them. */
async function read(library: Library, files: readonly RoutineText[]): Promise<readonly RoutineRead<RoutineFacts>[]> {
  const readRoutineSource = reader(library);
  return files.map((file) => {
    const { routine, ...rest } = readRoutineSource(file);
    return routine === undefined ? rest : { ...rest, routine: routineFacts(routine) };
  });
}

/** The minutes that each of these classes would need which has no time to teach anything. */
async function tooShort(library: Library, inputs: readonly WorkshopInput[]): Promise<readonly (number | undefined)[]> {
  const { minutesNeeded } = await import("./too-short.js");
  return inputs.map((input) => minutesNeeded(library, input));
}

/** A survey as plain data. */
export type SurveyData = Omit<Survey, "content"> & {
  readonly content: Omit<Content<RoutineFacts>, "findingsOf">;
  /** By slug. */
  readonly findings: ReadonlyMap<string, ReturnType<Content["findingsOf"]>>;
};

/** Reads a whole content folder's files, without those routines that the last build has read. */
async function survey(cached: Cache["reads"], files: ContentFiles): Promise<SurveyData> {
  const { content, ...rest } = await surveyBy(files, { read, tooShort }, { cached });
  const { findingsOf, ...data } = content;
  return { ...rest, content: data, findings: new Map(files.routines.map(({ slug }) => [slug, findingsOf(slug)])) };
}

type Files = readonly MadeFile[];

/** Makes everything that is about these routines alone: handouts, captions and the rest, and their pages. */
async function routines(options: MakeOptions, inputs: readonly RoutineInput[], tell?: Tell): Promise<readonly Files[]> {
  const { outputs } = await import("../publishing/list.js");
  const subjects = inputs.map((input) => routineOf(input, options));
  return publish(options, outputs.routines, subjects, tell);
}

/** The same for workshops. */
async function workshops(
  options: MakeOptions,
  inputs: readonly WorkshopInput[],
  tell?: Tell,
): Promise<readonly Files[]> {
  const { outputs } = await import("../publishing/list.js");
  const subjects = inputs.map((input) => workshopOf(input, options.library));
  return publish(options, outputs.workshops, subjects, tell);
}

/** Makes the pages about the whole library, and what all pages share. */
async function library(options: MakeOptions, inputs: readonly LibraryFacts[], tell?: Tell): Promise<readonly Files[]> {
  const { outputs, pagesOf } = await import("../publishing/list.js");
  const { name } = options.library;
  const subjects = inputs.map((facts) => ({
    name,
    title: name,
    subject: { facts, pages: pagesOf(outputs, facts) },
    findings: [],
  }));
  return publish(options, outputs.library, subjects, tell);
}

/** Makes what was left for later of a routine. */
async function routineLater(options: MakeOptions, input: RoutineInput): Promise<Files> {
  const { outputs } = await import("../publishing/list.js");
  const slow = outputs.routines.filter(({ declare }) => declare !== undefined);
  return (await publish(options, slow, [routineOf(input, options)])).flat();
}

/** Makes what was left for later of a workshop. */
async function workshopLater(options: MakeOptions, input: WorkshopInput): Promise<Files> {
  const { outputs } = await import("../publishing/list.js");
  const slow = outputs.workshops.filter(({ declare }) => declare !== undefined);
  return (await publish(options, slow, [workshopOf(input, options.library)])).flat();
}

/** By name. */
export const jobs = { read, tooShort, survey, routines, workshops, library, routineLater, workshopLater };

export type JobName = keyof typeof jobs;
/** What a job is done with: a library, or a library and a place to write to. */
export type JobOptions<J extends JobName> = Parameters<(typeof jobs)[J]>[0];
export type JobInput<J extends JobName> = Parameters<(typeof jobs)[J]>[1];
export type JobResult<J extends JobName> = Awaited<ReturnType<(typeof jobs)[J]>>;

function readAgain(file: RoutineText, library: Library): Routine {
  const { routine } = reader(library)(file);
  if (routine === undefined) throw new Error(`The routine ${file.slug} is not whole.`);
  return routine;
}

function routineOf(input: RoutineInput, { library, served }: MakeOptions) {
  const routine = readAgain(input, library);
  const subject = served ? routine : withoutDoubts(routine);
  return { subject, name: input.slug, title: subject.title, findings: input.findings };
}

function workshopOf(input: WorkshopInput, library: Library) {
  const subject: Workshop = { ...input, routines: input.routines.map((routine) => readAgain(routine, library)) };
  return { subject, name: input.slug, title: input.title, findings: [] };
}
