/** An error as plain data, which passes from thread to thread. */
export interface Fault {
  readonly message: string;
  /** Of the system call that failed. */
  readonly code?: string;
  readonly path?: string;
}

/** What went wrong with a build, in words that say what to do about it. */
export function faultWords(error: unknown, out: string): string {
  const { message, code, path } = faultOf(error);
  const way = code === undefined ? undefined : ways[code];
  return way === undefined ? message : `${placed(path, way.what)} ${way.so} Nothing was changed in ${out}.`;
}

/** What went wrong elsewhere: a call of the system that failed in words of ours, anything else in its own. */
export function systemWords(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const { code = "", path } = error as NodeJS.ErrnoException;
  const way = Object.hasOwn(ways, code) ? ways[code] : undefined;
  return way === undefined ? error.message : placed(path, way.what);
}

const placed = (path: string | undefined, what: string) => `${path === undefined ? "" : `${path}: `}${what}.`;

/** The message of an error, and the system call that failed behind it, if one did. */
export function faultOf(error: unknown): Fault {
  const found = chain(error);
  const { code, path } =
    found.find((nested) => typeof nested.code === "string" && Object.hasOwn(ways, nested.code)) ?? {};
  return {
    message: found[0]?.message ?? String(error),
    ...(typeof code === "string" ? { code } : {}),
    ...(typeof path === "string" ? { path } : {}),
  };
}

interface Way {
  readonly what: string;
  /** What a person who builds can do. */
  readonly so: string;
}

const notAllowed: Way = {
  what: "you are not allowed to write here",
  so: "Allow it for this folder, or choose a folder of your own with --out, and build again.",
};
const inUse: Way = {
  what: "another program is using this, or it is a whole disk of its own",
  so: "Close what shows it, or choose a folder inside with --out, and build again.",
};
const tooMany: Way = { what: "too many files are open on this computer", so: "Close some programs and build again." };
const gone: Way = {
  what: "there is no such file or folder",
  so: "Something may have been moved or removed meanwhile; build again.",
};

/** By the error codes of Node for its threads, and of POSIX.1-2017 (XSH 2.3), as Node names them on every system. */
const ways: Readonly<Record<string, Way>> = {
  ERR_WORKER_OUT_OF_MEMORY: {
    what: "a routine takes more memory than a build may use",
    so: "Divide it into several and build again.",
  },
  ENOSPC: {
    what: "the disk is full",
    so: "Make room on it, or choose a folder on another disk with --out, and build again.",
  },
  EDQUOT: {
    what: "your share of the disk is full",
    so: "Delete some of your files, or choose another disk with --out, and build again.",
  },
  EACCES: notAllowed,
  EPERM: notAllowed,
  EROFS: { what: "this disk can only be read", so: "Choose a folder on another one with --out, and build again." },
  EBUSY: inUse,
  EXDEV: inUse,
  EMFILE: tooMany,
  ENFILE: tooMany,
  ENOENT: gone,
  ENOTDIR: { what: "this is a file, not a folder", so: "Choose another folder with --out, and build again." },
  EISDIR: { what: "this is a folder, not a file", so: "Move it away and build again." },
  EIO: {
    what: "the disk could not be read or written",
    so: "Copy your files to another one, and build again there.",
  },
  ENAMETOOLONG: {
    what: "this path is too long for this disk",
    so: "Give the routine's file a shorter name, or build in a folder nearer to the top.",
  },
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
