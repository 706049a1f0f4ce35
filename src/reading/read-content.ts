import { readdir } from "node:fs/promises";
import type { Library, Routine, Workshop } from "../routine/routine.js";
import { aboutFile, namedIn, readTextFile, readTextFolder, type TextFile } from "./files.js";
import { type Finding, inOrder, type TextFinding } from "./finding.js";
import { quoted } from "./nearest.js";
import { emptyLibrary, readLibrary } from "./read-library.js";
import { readRoutine, type Title } from "./read-routine.js";
import { readWorkshop } from "./read-workshop.js";
import { limited } from "./report.js";

/** Everything that a content folder says. */
export interface Content {
  readonly library: Library;
  /** Those that are whole, by slug. */
  readonly routines: readonly Routine[];
  /** Those that are whole and whose routines are. */
  readonly workshops: readonly Workshop[];
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

/** Reads a content folder: every file of it, and all that is wrong in any of them. */
export async function readContent(contentDir: string): Promise<Content> {
  const notes: Notes = { findings: new Map(), sources: new Map() };
  const library = await libraryIn(contentDir, notes);
  const files = await readTextFolder(contentDir, "routines");
  if (files.length === 0) take(notes, { file: namedIn(contentDir, "routines"), slug: "", findings: [noRoutines] }, []);
  const routines = routinesOf(files, library, notes);
  const workshops = workshopsOf(await readTextFolder(contentDir, "workshops"), files, routines, notes);
  const fileOf = new Map(files.map(({ slug, file }) => [slug, file]));
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

async function libraryIn(contentDir: string, notes: Notes): Promise<Library> {
  const file = await readTextFile(contentDir, "library.yaml");
  const missing = file.findings.some(({ rule }) => rule === "missing-file");
  if (missing) {
    take(notes, { ...file, findings: [aboutFile("error", "missing-file", await noLibrary(contentDir))] }, []);
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

function routinesOf(files: readonly TextFile[], library: Library, notes: Notes): Routine[] {
  const titles = new Map<string, string>();
  return files.flatMap((file) => {
    if (file.text === undefined) {
      take(notes, file, []);
      return [];
    }
    const { routine, title, findings } = readRoutine(file.text, file.slug, library);
    take(notes, file, [...findings, ...sameTitle(file.file, title, titles)]);
    return routine ? [routine] : [];
  });
}

/* Two files with one title are mostly a copy that was never renamed. */
function sameTitle(file: string, title: Title | undefined, titles: Map<string, string>): TextFinding[] {
  if (!title) return [];
  const { text, ...position } = title;
  const other = titles.get(text.toLowerCase());
  if (other === undefined) titles.set(text.toLowerCase(), file);
  const message = `${quoted(other ?? "")} has the title ${quoted(text)} too: give one of them another.`;
  return other === undefined ? [] : [{ severity: "warning", rule: "same-title", message, ...position }];
}

function workshopsOf(
  files: readonly TextFile[],
  routineFiles: readonly TextFile[],
  routines: readonly Routine[],
  notes: Notes,
): Workshop[] {
  const slugs = routineFiles.map(({ slug }) => slug);
  return files.flatMap((file) => {
    const read = file.text === undefined ? { findings: [] } : readWorkshop(file.text, file.slug, routines, slugs);
    take(notes, file, read.findings);
    return read.workshop ? [read.workshop] : [];
  });
}

function take(notes: Notes, { file, text, findings: own }: TextFile, found: readonly TextFinding[]): void {
  const findings = limited(inOrder([...own, ...found])).map((finding) => ({ file, ...finding }));
  if (findings.length === 0) return;
  notes.findings.set(file, findings);
  if (text !== undefined) notes.sources.set(file, text);
}
