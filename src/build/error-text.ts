/** An error as plain data, which passes from thread to thread. */
export interface ErrorData {
  readonly message: string;
  /** Of the system call that failed. */
  readonly code?: string;
  readonly path?: string;
}

/** What went wrong with a build, in words that say what to do about it. */
export function buildErrorText(error: unknown, out: string): string {
  const { message, code, path } = errorData(error);
  const found = code === undefined ? undefined : explanations[code];
  return found === undefined ? message : `${withPath(path, found.what)} ${found.remedy} Nothing was changed in ${out}.`;
}

/** What went wrong elsewhere: a call of the system that failed in words of ours, anything else in its own. */
export function errorText(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  // What lies behind it has been put into words already.
  const { code, path } = dataOf([error]);
  const found = code === undefined ? undefined : explanations[code];
  return found === undefined ? error.message : withPath(path, found.what);
}

/* What belongs to the library as a whole has an empty path. */
const withPath = (path: string | undefined, what: string) => `${path ? `${path}: ` : ""}${what}.`;

/** The message of an error, and the system call that failed behind it, if one did. */
export function errorData(error: unknown): ErrorData {
  const found = chain(error);
  return found.length === 0 ? { message: String(error) } : dataOf(found);
}

function dataOf(found: readonly Nested[]): ErrorData {
  const message = found[0]?.message ?? "";
  const known = found.find(({ code }) => typeof code === "string" && Object.hasOwn(explanations, code));
  if (known === undefined) return { message };
  const { code, path, dest } = known;
  // What is copied has room where it is.
  const where = typeof dest === "string" && noRoom.includes(String(code)) ? dest : path;
  return { message, code: String(code), ...(typeof where === "string" ? { path: where } : {}) };
}

const noRoom = ["ENOSPC", "EDQUOT", "EFBIG"];

interface Explanation {
  readonly what: string;
  /** What a person who builds can do. */
  readonly remedy: string;
}

const notAllowed: Explanation = {
  what: "you are not allowed to write here",
  remedy: "Allow it for this folder, or choose a folder of your own with --out, and build again.",
};
const inUse: Explanation = {
  what: "another program is using this, or it is a whole disk of its own",
  remedy: "Close what shows it, or choose a folder inside with --out, and build again.",
};
const tooMany: Explanation = {
  what: "too many files are open on this computer",
  remedy: "Close some programs and build again.",
};
const noMemory: Explanation = {
  what: "this computer has too little memory free",
  remedy: "Close some programs and build again.",
};
const gone: Explanation = {
  what: "there is no such file or folder",
  remedy: "Something may have been moved or removed meanwhile; build again.",
};

/** By the error codes of Node for its threads, one of ours, and those of POSIX.1-2017 (XSH 2.3), as Node names them on every system. */
const explanations: Readonly<Record<string, Explanation>> = {
  ERR_WORKER_OUT_OF_MEMORY: {
    what: "a routine takes more memory than a build may use",
    remedy: "Divide it into several and build again.",
  },
  ERR_WORKER_INIT_FAILED: noMemory,
  ENOMEM: noMemory,
  EAGAIN: noMemory,
  ENOSPC: {
    what: "the disk is full",
    remedy: "Make room on it, or choose a folder on another disk with --out, and build again.",
  },
  EFBIG: {
    what: "this file would be larger than the disk, or a limit that is set for you, allows",
    remedy:
      "Have the limit raised (`ulimit -f` shows it), or choose a folder on another disk with --out, and build again.",
  },
  EDQUOT: {
    what: "your share of the disk is full",
    remedy: "Delete some of your files, or choose another disk with --out, and build again.",
  },
  EACCES: notAllowed,
  EPERM: notAllowed,
  EROFS: { what: "this disk can only be read", remedy: "Choose a folder on another one with --out, and build again." },
  EBUSY: inUse,
  EXDEV: inUse,
  EMFILE: tooMany,
  ENFILE: tooMany,
  ENOENT: gone,
  ELOOP: { what: "this is a link that leads round in a circle", remedy: "Delete it and build again." },
  ENOTDIR: { what: "this is a file, not a folder", remedy: "Choose another folder with --out, and build again." },
  EISDIR: { what: "this is a folder, not a file", remedy: "Move it away and build again." },
  EIO: {
    what: "the disk could not be read or written",
    remedy: "Copy your files to another one, and build again there.",
  },
  ENAMETOOLONG: {
    what: "this path is too long for this disk",
    remedy: "Give the routine's file a shorter name, or build in a folder nearer to the top.",
  },
};

interface Nested {
  readonly code?: unknown;
  readonly path?: unknown;
  readonly dest?: unknown;
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
