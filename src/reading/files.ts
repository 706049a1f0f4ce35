import type { Dirent } from "node:fs";
import { lstat, readdir, readFile, realpath, stat } from "node:fs/promises";
import { join, posix, sep } from "node:path";
import { decode } from "./decode.js";
import { compareText, type TextFinding } from "./finding.js";
import { quoted } from "./nearest.js";
import { slugOf } from "./slug.js";

/** Most bytes of a file: a routine of ten thousand moves takes less. */
const mostBytes = 2 * 1024 * 1024;

/** A file of the content folder. */
export interface TextFile {
  /** As the author would type it. */
  readonly file: string;
  /** The file's name without its ending, in Unicode's form C however the disk stores it. */
  readonly slug: string;
  /** Absent where the file is not to be read; a finding says why. */
  readonly text?: string;
  readonly findings: readonly TextFinding[];
}

/** A way to read a file of the content folder, by its names from there on. */
export type ReadFile = (contentDir: string, ...names: string[]) => Promise<TextFile>;

/** The files of a content folder, as they were read at one time. */
export interface ContentFiles {
  /** As the author would type it. */
  readonly folder: string;
  readonly library: TextFile;
  readonly routines: readonly TextFile[];
  readonly workshops: readonly TextFile[];
}

/** A finding about a file as a whole. */
export function aboutFile(severity: TextFinding["severity"], rule: string, message: string): TextFinding {
  return { severity, rule, message, line: 1, column: 1 };
}

/** A path in the content folder as its author would type it. */
export function namedIn(contentDir: string, ...names: readonly string[]): string {
  return posix.join(contentDir.replaceAll(sep, "/"), ...names);
}

/** Reads one file, as long as it lies in the content folder (a link may lead there and nowhere else). */
export async function readTextFile(contentDir: string, ...names: string[]): Promise<TextFile> {
  const file = namedIn(contentDir, ...names);
  const slug = (names.at(-1) ?? "").replace(/\.(md|yaml)$/, "").normalize("NFC");
  const refuse = (rule: string, message: string): TextFile => ({
    file,
    slug,
    findings: [aboutFile("error", rule, message)],
  });
  try {
    const real = await realpath(join(contentDir, ...names));
    const root = await realpath(contentDir);
    if (!isWithin(root, real)) {
      return refuse("outside-folder", "This is a link to a file outside the content folder: put the file itself here.");
    }
    const { size, ...kind } = await stat(real).then((stats) => ({ size: stats.size, isFile: stats.isFile() }));
    if (!kind.isFile) return refuse("unreadable", "This is no file that can be read.");
    if (size > mostBytes) {
      return refuse(
        "too-big",
        `This file has ${(size / 1024 / 1024).toFixed(1)} MB, and 2 MB is the most. A routine is text alone: link to pictures and videos.`,
      );
    }
    return { file, slug, ...decode(await readFile(real)) };
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "ENOENT") return refuse("missing-file", "There is no such file, or it vanished while it was read.");
    if (code === "EACCES" || code === "EPERM")
      return refuse("unreadable", "This file can't be opened: its permissions do not allow it.");
    return refuse("unreadable", "This file can't be read.");
  }
}

/** Reads all files of a content folder that say something. */
export async function readFiles(folder: string, readFile: ReadFile = readTextFile): Promise<ContentFiles> {
  return {
    folder,
    library: await readFile(folder, "library.yaml"),
    routines: await readTextFolder(folder, "routines", readFile),
    workshops: await readTextFolder(folder, "workshops", readFile),
  };
}

/**
 * Reads the Markdown files of a folder of the content folder, in an order that does not depend on the disk. A folder that does
 * not exist has none; one that can't be looked into is no reason to believe that there are none, so it is an error.
 */
async function readTextFolder(contentDir: string, folder: string, readFile: ReadFile): Promise<readonly TextFile[]> {
  const entries = await entriesOf(contentDir, folder);
  if ("fault" in entries) return [aboutFolder(contentDir, folder, entries.fault)];
  const files: TextFile[] = [];
  for (const entry of [...entries].sort((a, b) => compareText(a.name, b.name))) {
    const { name } = entry;
    const isFolder = entry.isDirectory();
    if (name.startsWith(".")) continue;
    if (name.endsWith(".md") && !isFolder) files.push(withNameFinding(await readFile(contentDir, folder, name), files));
    else if (isFolder || /\.(md|markdown)\b/i.test(name)) files.push(notRead(contentDir, folder, name, isFolder));
  }
  // Where it has files, each of them says so.
  if (!files.some(hasError) && (await leadsOutside(contentDir, folder))) {
    const message = "This is a link to a folder outside the content folder: put the folder itself here.";
    files.push(aboutFolder(contentDir, folder, aboutFile("error", "outside-folder", message)));
  }
  return files;
}

function aboutFolder(contentDir: string, folder: string, finding: TextFinding): TextFile {
  return { file: namedIn(contentDir, folder), slug: unreadFolder, findings: [finding] };
}

function hasError({ findings }: TextFile): boolean {
  return findings.some(({ severity }) => severity === "error");
}

async function leadsOutside(contentDir: string, folder: string): Promise<boolean> {
  const [root, real] = await Promise.all(
    [contentDir, join(contentDir, folder)].map((path) => realpath(path).catch(() => "")),
  );
  return root !== undefined && real !== undefined && real !== "" && !isWithin(root, real);
}

/** What stands for a whole folder that could not be read has this in place of a slug, which no file can have. */
export const unreadFolder = "";

async function entriesOf(
  contentDir: string,
  folder: string,
): Promise<readonly Dirent[] | { readonly fault: TextFinding }> {
  const path = join(contentDir, folder);
  const refuse = (rule: string, message: string) => ({ fault: aboutFile("error", rule, message) });
  try {
    return await readdir(path, { withFileTypes: true });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const here = await lstat(path).catch(() => undefined);
    if (code === "ENOENT" && !here) return [];
    if (here?.isSymbolicLink() && (code === "ENOENT" || code === "ELOOP")) {
      return refuse(
        "unreadable",
        "This is a link that leads nowhere: put the folder itself here, or take the link away.",
      );
    }
    if (code === "ENOTDIR") {
      const message = here
        ? `This is no folder, and your ${folder} belong in one: give it another name and make a folder here.`
        : `${quoted(contentDir)} is no folder: name the folder that your ${folder} lie in with \`--content\`.`;
      return refuse("unreadable", message);
    }
    if (code === "EACCES" || code === "EPERM") {
      return refuse(
        "unreadable",
        "This folder can't be opened: its permissions do not allow it. Allow yourself to read it and to open it.",
      );
    }
    return refuse("unreadable", "This folder can't be read: see that its disk is there, and try again.");
  }
}

function isWithin(root: string, real: string): boolean {
  return real.startsWith(root.endsWith(sep) ? root : root + sep);
}

function withNameFinding(read: TextFile, before: readonly TextFile[]): TextFile {
  const slug = slugOf(read.slug);
  const other = before.find(({ file }) => file.normalize("NFC") === read.file.normalize("NFC"));
  if (slug === read.slug && !other) return read;
  return { ...read, findings: [aboutFile("error", "file-name", nameMessage(slug, other)), ...read.findings] };
}

function nameMessage(slug: string, other: TextFile | undefined): string {
  if (other)
    return `${quoted(posix.basename(other.file))} has the same name, its letters stored in another way: give one of the two another name.`;
  return slug === ""
    ? "This file's name can't be part of an address: use lower-case letters, digits and hyphens."
    : `This file's name becomes part of an address, so it can't have spaces, capitals or special signs: call it \`${slug}.md\`.`;
}

function notRead(contentDir: string, folder: string, name: string, isFolder: boolean): TextFile {
  const slug = slugOf(name.replace(/\.(md|markdown)\b.*$/i, ""));
  const message = isFolder
    ? `Folders inside \`${folder}\` are not read: put the files themselves into \`${folder}\`.`
    : `This file is not read, since its name does not end in \`.md\`: call it \`${slug}.md\`.`;
  return { file: namedIn(contentDir, folder, name), slug, findings: [aboutFile("warning", "file-name", message)] };
}
