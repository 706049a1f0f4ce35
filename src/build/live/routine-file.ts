import { constants } from "node:fs";
import * as disk from "node:fs/promises";
import { join, relative, sep } from "node:path";
import { digestOfBytes } from "../digest.js";

/** A routine's file as it lies on the disk. */
export interface RoutineFile {
  /** With its own line ends, and the mark of its encoding where it has one. */
  readonly text: string;
  /** Of its bytes: another one where anything in it changes. */
  readonly key: string;
}

/**
 * Why a file is left as it is. `gone`: no routine has that name; `link`: it is a link, and what it leads to is not ours to change; `encoding`:
 * it is no UTF-8; `changed`: somebody has saved it meanwhile; `read-only`: nobody may write it, though its folder would allow another in its
 * place; `nothing-before`: nothing was written that could be taken back.
 */
export type Refusal = "gone" | "link" | "encoding" | "changed" | "read-only" | "nothing-before";
export interface Refused {
  readonly refused: Refusal;
}

/** What is asked of the disk. */
export type Disk = Pick<typeof disk, "lstat" | "open" | "readdir" | "realpath" | "rename" | "rm">;

/** A content folder whose routines can be written. */
export interface RoutineFiles {
  readonly read: (slug: string) => Promise<RoutineFile | Refused>;
  /**
   * Puts a text in a routine's place, in one step, and keeps what stood there in `.<file>.before` beside it.
   *
   * @param seen the key of the file that the text was made from; another one there now is not written over
   * @throws where the disk does not do it; then the file is as it was
   */
  readonly write: (slug: string, seen: string, text: string) => Promise<RoutineFile | Refused>;
  /** Puts back what stood there before the last write, once. */
  readonly takeBack: (slug: string, seen: string) => Promise<RoutineFile | Refused>;
}

/** @param on another disk than this computer's, for tests */
export function routineFiles(contentDir: string, on: Disk = disk): RoutineFiles {
  // One after the other: between looking at a file and replacing it nobody else here does.
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = last.then(work);
    last = done.catch(() => {});
    return done;
  };
  /** Has a file replaced, as long as it is the one that was seen. */
  const replacing = (slug: string, seen: string, replace: (found: Found) => Promise<RoutineFile | Refused>) =>
    inTurn(async () => {
      const found = await find(on, contentDir, slug);
      if ("refused" in found) return found;
      if (found.key !== seen) return { refused: "changed" as const };
      return (found.mode & 0o222) === 0 ? { refused: "read-only" as const } : replace(found);
    });
  return {
    read: async (slug) => {
      const found = await find(on, contentDir, slug);
      return "refused" in found ? found : { text: found.text, key: found.key };
    },
    write: (slug, seen, text) =>
      replacing(slug, seen, async (found) => {
        await put(on, found.before, found.bytes, found.mode);
        return putBack(on, found, Buffer.from(text));
      }),
    takeBack: (slug, seen) =>
      replacing(slug, seen, async (found) => {
        const before = await bytesAt(on, found.before);
        if (before === undefined) return { refused: "nothing-before" };
        const back = await putBack(on, found, before.bytes);
        if (!("refused" in back)) await on.rm(found.before, { force: true });
        return back;
      }),
  };
}

/** A routine's file with what is needed to replace it. */
interface Found extends RoutineFile {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly mode: number;
  /** Where it is kept as it was. */
  readonly before: string;
}

/** Looks for a routine among the files that lie there, so that no name leads anywhere else. */
async function find(on: Disk, contentDir: string, slug: string): Promise<Found | Refused> {
  const folder = join(contentDir, "routines");
  const [root, real] = await Promise.all([contentDir, folder].map((path) => on.realpath(path).catch(() => undefined)));
  if (root === undefined || real === undefined) return { refused: "gone" };
  if (relative(root, real).split(sep)[0] === "..") return { refused: "link" };
  const entry = (await on.readdir(folder, { withFileTypes: true })).find(
    ({ name }) => !name.startsWith(".") && name.normalize("NFC") === `${slug}.md`,
  );
  if (entry === undefined) return { refused: "gone" };
  const path = join(folder, entry.name);
  const there = await bytesAt(on, path);
  if (there === undefined) return { refused: entry.isSymbolicLink() ? "link" : "gone" };
  const { bytes, mode } = there;
  const text = textOf(bytes);
  if (text === undefined) return { refused: "encoding" };
  return { text, key: digestOfBytes(bytes), path, bytes, mode, before: join(folder, `.${entry.name}.before`) };
}

/** A file's bytes; none where nothing lies there, or a link or a folder. */
async function bytesAt(on: Disk, path: string) {
  const there = await on.lstat(path).catch(() => undefined);
  if (!there?.isFile()) return undefined;
  const handle = await on.open(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
  try {
    return { bytes: new Uint8Array(await handle.readFile()), mode: there.mode & 0o777 };
  } finally {
    await handle.close();
  }
}

function textOf(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

/** Puts bytes in a routine's place, unless somebody has saved it since it was looked at. */
async function putBack(on: Disk, { path, bytes, mode }: Found, now: Uint8Array): Promise<RoutineFile | Refused> {
  const untouched = async () => {
    const there = await bytesAt(on, path);
    return there !== undefined && Buffer.from(there.bytes).equals(bytes);
  };
  if (!(await put(on, path, now, mode, untouched))) return { refused: "changed" };
  return { text: textOf(now) ?? "", key: digestOfBytes(now) };
}

/**
 * Writes a file aside and moves it into place, so that no half of one ever lies there, whenever this ends. What a run that was ended left
 * aside has the same name and is written anew.
 *
 * @param still asked at the last moment whether it is still to be done
 */
async function put(
  on: Disk,
  path: string,
  bytes: Uint8Array,
  mode: number,
  still: () => Promise<boolean> = async () => true,
): Promise<boolean> {
  const aside = join(path, "..", `.${path.split(sep).at(-1)?.replace(/^\./, "")}.new`);
  await on.rm(aside, { force: true });
  try {
    // Made anew: what lies there already, be it a link, is not written into.
    const handle = await on.open(aside, "wx", mode);
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (!(await still())) {
      await on.rm(aside, { force: true });
      return false;
    }
    await on.rename(aside, path);
    return true;
  } catch (error) {
    await on.rm(aside, { force: true }).catch(() => {});
    throw error;
  }
}
