import { existsSync, lstatSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { realPath } from "../build/folders.js";
import { makeFolder } from "../build/make-folder.js";
import { emptyLibrary } from "../reading/read-library.js";
import { readRoutine } from "../reading/read-routine.js";
import { slugOf } from "../reading/slug.js";
import { failed, usageError } from "./status.js";

/** Why something is not written, in words, and the exit status that goes with it. */
export interface Refusal {
  readonly refused: string;
  readonly status: number;
}

/** Where a routine's file is going to lie. */
export interface NewPlace {
  readonly folder: string;
  readonly slug: string;
  readonly path: string;
}

const refusal = (refused: string, status = failed): Refusal => ({ refused, status });

/** Where the file of a new routine goes; refused where there is no library, or something in the way. */
export function placeOfNew(title: string, content: string): NewPlace | Refusal {
  const slug = slugOf(title);
  if (slug === "")
    return refusal(`"${title}" has no letter or digit to make a file name of; write another title`, usageError);
  if (!existsSync(join(content, "library.yaml")))
    return refusal(
      `there is no library in ${content}; run this in the folder that holds ${content}, or start one with \`countleaf new library DIR\``,
    );
  const folder = join(content, "routines");
  const there = lstatSync(folder, { throwIfNoEntry: false });
  if (there?.isSymbolicLink() || realPath(folder) !== join(realPath(content), "routines"))
    return refusal(`${folder} is a link to another folder, and links are not followed; put a folder there`);
  if (there && !there.isDirectory())
    return refusal(`${folder} is a file, not a folder; move it away, and the folder is made`);
  const path = join(folder, `${slug}.md`);
  return lstatSync(path, { throwIfNoEntry: false }) ? refusal(taken(path)) : { folder, slug, path };
}

const taken = (path: string) => `${path} is there already; write another title, or change that file`;

/** What our own reader has against the text of a new routine, whose title and choreographer somebody typed. */
export function faultOfNew(text: string, { slug }: NewPlace): string | undefined {
  return readRoutine(text, slug, emptyLibrary).findings.find(({ severity }) => severity === "error")?.message;
}

/** Writes the file of a new routine, over nothing. */
export function writeRoutine({ folder, path }: NewPlace, text: string): Refusal | undefined {
  makeFolder(folder);
  try {
    writeNew(path, text);
    return undefined;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    return refusal(taken(path));
  }
}

/** Writes a file where there is none, nor a link; fails where something is. */
export function writeNew(path: string, text: string): void {
  writeFileSync(path, text, { flag: "wx" });
}

/** Says why something is not written; the exit status. */
export function refuse({ refused, status }: Refusal): number {
  process.stderr.write(`countleaf: ${refused}\n`);
  return status;
}
