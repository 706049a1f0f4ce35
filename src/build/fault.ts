/** What a build could not do, in words that say what to do about it. */
export function faultWords(error: unknown, out: string): string {
  const { code, path } = systemFault(error);
  const way = code === undefined ? undefined : ways[code];
  if (way === undefined) return innermost(error);
  return `${path === undefined ? "" : `${path}: `}${way} Nothing was changed in ${out}.`;
}

const noRoom = "the disk is full. Make room on it, or choose a folder on another disk with --out, and build again.";
const notAllowed =
  "you are not allowed to write here. Allow it for this folder, or choose a folder of your own with --out, and build again.";
const inUse =
  "another program is using this, or it is a whole disk of its own. Close what shows it, or choose a folder inside with --out, and build again.";
const tooMany = "too many files are open on this computer. Close some programs and build again.";

/** By the error codes of POSIX.1-2017 (XSH 2.3), as Node names them on every system. */
const ways: Readonly<Record<string, string>> = {
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

/** Errors of other programs lie one inside the other. */
function chain(error: unknown): readonly Nested[] {
  const found: Nested[] = [];
  for (let next = error; typeof next === "object" && next !== null && !found.includes(next); ) {
    const nested: Nested = next;
    found.push(nested);
    next = nested.cause ?? nested.originalError;
  }
  return found;
}

function systemFault(error: unknown): { readonly code?: string; readonly path?: string } {
  const fault = chain(error).find(({ code }) => typeof code === "string" && code in ways);
  if (typeof fault?.code !== "string") return {};
  return { code: fault.code, ...(typeof fault.path === "string" ? { path: fault.path } : {}) };
}

function innermost(error: unknown): string {
  return chain(error).at(-1)?.message ?? String(error);
}
