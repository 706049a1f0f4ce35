import { existsSync, lstatSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";

/** A file in the published folder that says whose it is and lists what was put there, a path a line. */
export const markName = ".countleaf";

/** Why a folder can't be published into, in words; undefined where it can. */
export function outFolderTrouble(content: string, out: string): string | undefined {
  const [from, to] = [realPath(content), realPath(out)];
  if (from === to) return `the output folder and the content folder are both ${out}; choose another folder with --out`;
  if (inside(from, to))
    return `the output folder ${out} lies inside the content folder ${content}; choose one beside it with --out`;
  if (inside(to, from))
    return `the content folder ${content} lies inside the output folder ${out}, and a build replaces all that is in there; choose another folder with --out`;
  if (!existsSync(out))
    return isLink(out) ? `${out} is a link to nowhere; delete it, or choose another folder with --out` : undefined;
  if (!statSync(out).isDirectory()) return `${out} is a file, not a folder; choose another name with --out`;
  const foreign = foreignFile(out);
  return foreign === undefined
    ? undefined
    : `${join(out, foreign)} was not made by countleaf, and a build replaces all that is in ${out}; move it away, or choose another folder with --out`;
}

/** The first file in an output folder that no earlier build put there. */
export function foreignFile(out: string): string | undefined {
  const ours = new Set(markIn(out).split("\n"));
  return listFiles(out).find((path) => path !== markName && !ours.has(path));
}

/** What the mark in a folder says; empty where there is none. */
export function markIn(folder: string): string {
  const mark = join(folder, markName);
  return existsSync(mark) ? readFileSync(mark, "utf8") : "";
}

/** Whether a folder holds every file that its mark lists; one without a mark is none of ours. */
export function isComplete(folder: string): boolean {
  return existsSync(join(folder, markName)) && missingFile(folder, filesIn(markIn(folder))) === undefined;
}

/** The first of some files that does not lie in a folder. */
export function missingFile(folder: string, files: readonly string[]): string | undefined {
  const there = new Set(listFiles(folder));
  return files.find((path) => !there.has(path));
}

/** The files that a mark lists. */
export function filesIn(mark: string): readonly string[] {
  return mark.split("\n").filter((path) => path !== "");
}

/** The mark of a folder with these files. */
export function markOf(files: readonly string[]): string {
  return `${[...files].sort().join("\n")}\n`;
}

/**
 * The files below a place in a folder, with forward slashes, by code units. Links are listed, not followed.
 *
 * @param except names at the place itself that are left out
 */
export function listFiles(folder: string, place = "", except: readonly string[] = []): readonly string[] {
  const entries = readdirSync(join(folder, place), { withFileTypes: true });
  return entries
    .filter(({ name }) => !except.includes(name))
    .flatMap((entry) => {
      const path = place === "" ? entry.name : `${place}/${entry.name}`;
      return entry.isDirectory() ? listFiles(folder, path) : [path];
    })
    .sort();
}

/** A path with every link followed as far as it exists. */
export function realPath(path: string): string {
  const full = resolve(path);
  if (existsSync(full)) return realpathSync.native(full);
  const parent = dirname(full);
  return parent === full ? full : join(realPath(parent), basename(full));
}

function isLink(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() ?? false;
}

function inside(outer: string, inner: string): boolean {
  const way = relative(outer, inner);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`);
}
