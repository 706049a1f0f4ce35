import { readdir } from "node:fs/promises";
import { basename } from "node:path";
import type { Library, Routine } from "../routine/routine.js";
import { aboutFile, type ContentFiles, namedIn, readFiles, type TextFile, unreadFolder } from "./files.js";
import { type Finding, inOrder, type TextFinding } from "./finding.js";
import { formerFindings, type SlugsTaken } from "./former-slugs.js";
import { quoted } from "./nearest.js";
import { emptyLibrary, readLibrary } from "./read-library.js";
import { type RoutineRead, readRoutineSource, type Title } from "./read-routine.js";
import { nothingTaught, type RoutineInClass, readWorkshop, type WorkshopOf } from "./read-workshop.js";
import { limited } from "./report.js";

/** Everything that a content folder says. `R` is what is kept of a routine: all of it, or of a large library its gist. */
export interface Content<R = Routine> {
  readonly library: Library;
  /** Those that are whole, by slug. */
  readonly routines: readonly R[];
  /** Those that are whole and whose routines are. */
  readonly workshops: readonly WorkshopOf<R>[];
  /** By file, line and column; a little over 200 of one file at most. */
  readonly findings: readonly Finding[];
  /** The findings of one routine's file. */
  readonly findingsOf: (slug: string) => readonly Finding[];
  /** The text of each file that has findings, by the path that they name. */
  readonly sources: ReadonlyMap<string, string>;
}

interface Notes {
  readonly findings: Map<string, readonly Finding[]>;
  readonly sources: Map<string, string>;
}

/** A file that could be opened. */
export type Readable = TextFile & { readonly text: string };

/** How the routines' files are read: what came of each, in their order. */
export type ReadRoutines<R> = (files: readonly Readable[], library: Library) => Promise<readonly RoutineRead<R>[]>;

/** By slug, the minutes that those of some classes would need which have no time to teach anything. */
export type MinutesNeeded<R> = (
  workshops: readonly WorkshopOf<R>[],
  library: Library,
) => Promise<ReadonlyMap<string, number>>;

/** Reads a content folder: every file of it, and all that is wrong in any of them. */
export async function readContent(contentDir: string): Promise<Content> {
  return readContentBy(await readFiles(contentDir), async (files, library) =>
    files.map(({ text, slug }) => readRoutineSource(text, slug, library)),
  );
}

/** The same from its files, with a way of one's own to read the routines, side by side or from what is known from last time. */
export async function readContentBy<R extends RoutineInClass>(
  { folder, ...files }: ContentFiles,
  readRoutines: ReadRoutines<R>,
  minutesNeeded: MinutesNeeded<R> = async () => new Map(),
): Promise<Content<R>> {
  const notes: Notes = { findings: new Map(), sources: new Map() };
  const library = await libraryIn(folder, files.library, notes);
  // Where there is no library either, that is said already, and one thing is enough to begin with.
  if (files.routines.length === 0 && notes.findings.size === 0)
    take(notes, { file: namedIn(folder, "routines"), slug: "", findings: [noRoutines] }, []);
  const routines = await routinesOf(files.routines, library, readRoutines, notes);
  const planned = (all: readonly WorkshopOf<R>[]) => minutesNeeded(all, library);
  const workshops = await workshopsOf(files.workshops, files.routines, routines, planned, notes);
  const fileOf = new Map(files.routines.map(({ slug, file }) => [slug, file]));
  return {
    library,
    routines,
    workshops,
    findings: inOrder([...notes.findings.values()].flat()),
    findingsOf: (slug) => notes.findings.get(fileOf.get(slug) ?? "") ?? [],
    sources: notes.sources,
  };
}

const noRoutines = aboutFile(
  "error",
  "no-routines",
  'There is no routine yet. Start one with `countleaf new routine "My routine"`: each is a file here whose name ends in `.md`.',
);

async function libraryIn(folder: string, file: TextFile, notes: Notes): Promise<Library> {
  const missing = file.findings.some(({ rule }) => rule === "missing-file");
  if (missing) {
    take(notes, { ...file, findings: [aboutFile("error", "missing-file", await noLibrary(folder))] }, []);
    return emptyLibrary;
  }
  const { library, findings } = file.text === undefined ? { findings: [] } : readLibrary(file.text);
  take(notes, file, findings);
  return library ?? emptyLibrary;
}

async function noLibrary(contentDir: string): Promise<string> {
  const names = await readdir(contentDir).catch(() => undefined);
  if (!names) {
    return `There is no folder ${quoted(contentDir)} here. Run this where it is, name another with \`--content\`, or start one with \`countleaf new library DIR\`.`;
  }
  const near = names.find((name) => /^library\.ya?ml/i.test(name));
  if (near !== undefined)
    return `This file is missing; perhaps it is the one that is called ${quoted(near)}: rename that.`;
  return "This file is missing. Make it, with at least one line: `name: The name of your studio`.";
}

async function routinesOf<R extends RoutineInClass>(
  files: readonly TextFile[],
  library: Library,
  readRoutines: ReadRoutines<R>,
  notes: Notes,
): Promise<R[]> {
  for (const file of files) if (file.text === undefined) take(notes, file, []);
  const readable = files.filter((file): file is Readable => file.text !== undefined);
  const reads = await readRoutines(readable, library);
  const titles = new Map<string, string>();
  const slugs: SlugsTaken = { now: new Set(files.map(({ slug }) => slug)), before: new Map() };
  return readable.flatMap((file, index) => {
    const { routine, title, formerly = [], findings } = reads[index] ?? { findings: [] };
    const former = formerFindings(file.slug, formerly, slugs);
    take(notes, file, [
      ...findings,
      ...sameTitle(file.file, title, titles),
      ...former,
      ...undated(routine, title, library),
    ]);
    return routine && isSound(file) && former.length === 0 ? [routine] : [];
  });
}

/* What is wrong with a file's name or its bytes is wrong with what it says. */
function isSound({ findings }: TextFile): boolean {
  return !findings.some(({ severity }) => severity === "error");
}

/* A feed tells what is new, and so needs to know when. Where nobody has an address to follow it at, nobody misses it. */
function undated(
  routine: RoutineInClass | undefined,
  title: Title | undefined,
  { url }: Pick<Library, "url">,
): TextFinding[] {
  if (!routine || !title || url === undefined || routine.draft || routine.date !== undefined) return [];
  const { text: _, ...position } = title;
  const message =
    "Without a `date` this routine is not in the feed of new routines, and comes last in the library. Write the day when you publish it, for example `date: 2026-10-02`.";
  return [{ severity: "note", rule: "no-date", message, ...position }];
}

/* Two files with one title are mostly a copy that was never renamed. */
function sameTitle(file: string, title: Title | undefined, titles: Map<string, string>): TextFinding[] {
  if (!title) return [];
  const { text, ...position } = title;
  const other = titles.get(text.toLowerCase());
  // Its name alone, since what is found is published as well, and must not depend on where the folder lies.
  if (other === undefined) titles.set(text.toLowerCase(), basename(file));
  const message = `${quoted(other ?? "")} has the title ${quoted(text)} too: give one of them another.`;
  return other === undefined ? [] : [{ severity: "warning", rule: "same-title", message, ...position }];
}

async function workshopsOf<R extends RoutineInClass>(
  files: readonly TextFile[],
  routineFiles: readonly TextFile[],
  routines: readonly R[],
  minutesNeeded: (workshops: readonly WorkshopOf<R>[]) => Promise<ReadonlyMap<string, number>>,
  notes: Notes,
): Promise<WorkshopOf<R>[]> {
  // Where nobody could look into their folder, nobody knows which routines there are.
  const slugs = routineFiles.some(({ slug }) => slug === unreadFolder)
    ? undefined
    : routineFiles.map(({ slug }) => slug);
  const reads = files.map((file) => {
    const read = file.text === undefined ? { findings: [] } : readWorkshop(file.text, file.slug, routines, slugs);
    return { file, findings: read.findings, workshop: isSound(file) ? read.workshop : undefined };
  });
  const sound = reads.flatMap(({ workshop }) => workshop ?? []);
  const needed = await minutesNeeded(sound);
  for (const { file, findings } of reads) {
    const minutes = needed.get(file.slug);
    take(notes, file, minutes === undefined ? findings : [...findings, nothingTaught(file.text ?? "", minutes)]);
  }
  return sound;
}

function take(notes: Notes, { file, text, findings: own }: TextFile, found: readonly TextFinding[]): void {
  // In a file that is saved in another way every odd letter would be one more warning.
  const isGarbled = own.some(({ rule }) => rule === "encoding");
  const shown = isGarbled ? found.filter(({ severity }) => severity === "error") : found;
  const findings = limited(inOrder([...own, ...shown])).map((finding) => ({ file, ...finding }));
  if (findings.length === 0) return;
  notes.findings.set(file, findings);
  if (text !== undefined) notes.sources.set(file, text);
}
