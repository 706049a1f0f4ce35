/** An error as plain data, which passes from thread to thread. */
export interface Fault {
  readonly message: string;
  /** Of the system call that failed. */
  readonly code?: string;
  readonly path?: string;
}

/** What went wrong, in words that say what to do about it. */
export function faultWords(error: unknown, out: string): string {
  const { message, code, path } = faultOf(error);
  const way = code === undefined ? undefined : ways[code];
  if (way === undefined) return message;
  return `${path === undefined ? "" : `${path}: `}${way} Nothing was changed in ${out}.`;
}

/** The message of an error, and the system call that failed behind it, if one did. */
export function faultOf(error: unknown): Fault {
  const found = chain(error);
  const { code, path } = found.find((nested) => typeof nested.code === "string" && nested.code in ways) ?? {};
  return {
    message: found[0]?.message ?? String(error),
    ...(typeof code === "string" ? { code } : {}),
    ...(typeof path === "string" ? { path } : {}),
  };
}

const noRoom = "the disk is full. Make room on it, or choose a folder on another disk with --out, and build again.";
const notAllowed =
  "you are not allowed to write here. Allow it for this folder, or choose a folder of your own with --out, and build again.";
const inUse =
  "another program is using this, or it is a whole disk of its own. Close what shows it, or choose a folder inside with --out, and build again.";
const tooMany = "too many files are open on this computer. Close some programs and build again.";

/** By the error codes of Node for its threads, and of POSIX.1-2017 (XSH 2.3), as Node names them on every system. */
const ways: Readonly<Record<string, string>> = {
  ERR_WORKER_OUT_OF_MEMORY: "a routine takes more memory than a build may use. Divide it into several and build again.",
  ENOSPC: noRoom,
  EDQUOT:
    "your share of the disk is full. Delete some of your files, or choose another disk with --out, and build again.",
  EACCES: notAllowed,
  EPERM: notAllowed,
  EROFS: "this disk can only be read. Choose a folder on another one with --out, and build again.",
  EBUSY: inUse,
  EXDEV: inUse,
  EMFILE: tooMany,
  ENFILE: tooMany,
  EIO: "the disk could not be read or written. Copy your files to another one, and build again there.",
  ENAMETOOLONG:
    "this path is too long for this disk. Give the routine's file a shorter name, or build in a folder nearer to the top.",
};

interface Nested {
  readonly code?: unknown;
  readonly path?: unknown;
  readonly message?: string;
  readonly cause?: unknown;
  readonly originalError?: unknown;
}

/** An error and what lies behind it: errors of other programs lie one inside the other. */
function chain(error: unknown): readonly Nested[] {
  const found: Nested[] = [];
  for (let next = error; typeof next === "object" && next !== null && !found.includes(next); ) {
    const nested: Nested = next;
    found.push(nested);
    next = nested.cause ?? nested.originalError;
  }
  return found;
}
