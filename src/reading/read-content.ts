import { readdir, readFile } from "node:fs/promises";
import { posix } from "node:path";
import type { Library, Routine, Workshop } from "../routine/routine.js";
import { compareText, type Finding, inOrder } from "./finding.js";
import { emptyLibrary, readLibraryText } from "./read-library.js";
import { readRoutineText } from "./read-routine.js";
import { readWorkshopText } from "./read-workshop.js";

/** Everything that a content folder says. */
export interface Content {
  readonly library: Library;
  readonly routines: readonly Routine[];
  readonly workshops: readonly Workshop[];
  /** By file, line and column. */
  readonly findings: readonly Finding[];
  readonly findingsOf: (slug: string) => readonly Finding[];
  /** The text of each file that has findings. */
  readonly sources: ReadonlyMap<string, string>;
}

/** Reads a content folder: every file, and every finding of every file. */
export async function readContent(contentDir: string): Promise<Content> {
  const findings: Finding[] = [];
  const sources = new Map<string, string>();
  const keep = (file: string, text: string, found: readonly Finding[]) => {
    findings.push(...found);
    if (found.length > 0) sources.set(file, text);
  };
  const libraryFile = posix.join(contentDir, "library.yaml");
  const libraryText = await readFile(libraryFile, "utf8").catch(() => "");
  const libraryRead = readLibraryText(libraryText, libraryFile);
  keep(libraryFile, libraryText, libraryRead.findings);
  const library = libraryRead.library ?? emptyLibrary;

  const routines: Routine[] = [];
  const files = await textsIn(posix.join(contentDir, "routines"));
  const ofRoutine = new Map<string, readonly Finding[]>();
  for (const { slug, file, text } of files) {
    const read = readRoutineText(text, slug, library, file);
    keep(file, text, read.findings);
    ofRoutine.set(slug, read.findings);
    if (read.routine) routines.push(read.routine);
  }
  const workshops: Workshop[] = [];
  for (const { slug, file, text } of await textsIn(posix.join(contentDir, "workshops"))) {
    const read = readWorkshopText(text, slug, routines, [...ofRoutine.keys()], file);
    keep(file, text, read.findings);
    if (read.workshop) workshops.push(read.workshop);
  }
  return {
    library,
    routines,
    workshops,
    findings: inOrder(findings),
    findingsOf: (slug) => ofRoutine.get(slug) ?? [],
    sources,
  };
}

async function textsIn(folder: string) {
  const names = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(".md")).sort(compareText);
  return Promise.all(
    names.map(async (name) => {
      const file = posix.join(folder, name);
      return { slug: name.slice(0, -3), file, text: await readFile(file, "utf8") };
    }),
  );
}
