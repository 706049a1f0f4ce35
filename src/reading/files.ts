import { readdir, readFile, realpath, stat } from "node:fs/promises";
import { join, posix, sep } from "node:path";
import { decode } from "./decode.js";
import { compareText, type TextFinding } from "./finding.js";
import { slugOf } from "./slug.js";

/** Most bytes of a file: a routine of ten thousand moves takes less. */
const mostBytes = 2 * 1024 * 1024;

/** A file of the content folder. */
export interface TextFile {
  /** As the author would type it. */
  readonly file: string;
  /** The file's name without its ending. */
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
  const slug = (names.at(-1) ?? "").replace(/\.(md|yaml)$/, "");
  const refuse = (rule: string, message: string): TextFile => ({
    file,
    slug,
    findings: [aboutFile("error", rule, message)],
  });
  try {
    const real = await realpath(join(contentDir, ...names));
    const root = await realpath(contentDir);
    if (!real.startsWith(root.endsWith(sep) ? root : root + sep)) {
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

/** Reads the Markdown files of a folder of the content folder, in an order that does not depend on the disk. */
async function readTextFolder(contentDir: string, folder: string, readFile: ReadFile): Promise<readonly TextFile[]> {
  const entries = await readdir(join(contentDir, folder), { withFileTypes: true }).catch(() => []);
  const files: TextFile[] = [];
  for (const entry of [...entries].sort((a, b) => compareText(a.name, b.name))) {
    const { name } = entry;
    const isFolder = entry.isDirectory();
    if (name.startsWith(".")) continue;
    if (name.endsWith(".md") && !isFolder) files.push(withNameFinding(await readFile(contentDir, folder, name)));
    else if (isFolder || /\.(md|markdown)\b/i.test(name)) files.push(notRead(contentDir, folder, name, isFolder));
  }
  return files;
}

function withNameFinding(read: TextFile): TextFile {
  const slug = slugOf(read.slug);
  if (slug === read.slug) return read;
  const message =
    slug === ""
      ? "This file's name can't be part of an address: use lower-case letters, digits and hyphens."
      : `This file's name becomes part of an address, so it can't have spaces, capitals or special signs: call it \`${slug}.md\`.`;
  return { ...read, findings: [aboutFile("error", "file-name", message), ...read.findings] };
}

function notRead(contentDir: string, folder: string, name: string, isFolder: boolean): TextFile {
  const slug = slugOf(name.replace(/\.(md|markdown)\b.*$/i, ""));
  const message = isFolder
    ? `Folders inside \`${folder}\` are not read: put the files themselves into \`${folder}\`.`
    : `This file is not read, since its name does not end in \`.md\`: call it \`${slug}.md\`.`;
  return { file: namedIn(contentDir, folder, name), slug, findings: [aboutFile("warning", "file-name", message)] };
}
