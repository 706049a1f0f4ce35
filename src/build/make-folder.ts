import { lstatSync, mkdirSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { ignoreErrors } from "./ignore-errors.js";

/** Tries, since another build may clear away in the meantime what this one has just made. */
const tries = 10;

/**
 * Makes a folder, and those it lies in, where they are missing. Node's own `recursive` never comes back where the system says
 * "not there" of a folder that can't be made (below `/proc`).
 *
 * @throws the error of the system, or in words where it says too little
 */
export function makeFolder(path: string): void {
  for (let attempt = 1; ; attempt++) {
    if (isFolder(path)) return;
    const parent = dirname(path);
    if (parent !== path) makeFolder(parent);
    try {
      mkdirSync(path);
      return;
    } catch (error) {
      if (isFolder(path)) return;
      const { code } = error as NodeJS.ErrnoException;
      const there = lstatSync(path, { throwIfNoEntry: false });
      if (there?.isSymbolicLink()) throw new Error(`${path} is a link to nowhere or to a file; delete it first`);
      if (there) throw Object.assign(error as Error, { code: "ENOTDIR" });
      if (code !== "ENOENT" && code !== "EEXIST") throw error;
      if (attempt === tries)
        throw new Error(`${parent} belongs to the system, which lets nobody make a folder there; choose another place`);
    }
  }
}

const isFolder = (path: string) => ignoreErrors(() => statSync(path).isDirectory()) ?? false;
