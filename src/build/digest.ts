import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";

/** The files of a folder by their path in it, each with a digest of its bytes. */
export type Digests = Readonly<Record<string, string>>;

/** A digest of values, each apart from the next: two lists of texts have one digest only where they are equal. */
export function digestOf(...values: readonly unknown[]): string {
  return digestOfBytes(JSON.stringify(values));
}

/** Digests of files in a folder. */
export function digestsIn(folder: string, files: readonly string[]): Digests {
  return Object.fromEntries(files.map((path) => [path, digestOfBytes(readFileSync(join(folder, path)))]));
}

/** Whether these very files lie in a folder, whatever else does. */
export function holds(folder: string, digests: Digests): boolean {
  try {
    return Object.entries(digests).every(
      ([path, digest]) => digestOfBytes(readFileSync(join(folder, path))) === digest,
    );
  } catch {
    return false;
  }
}

/** A digest of a file. */
export function digestOfBytes(bytes: string | Uint8Array): string {
  return createHash("sha256").update(bytes).digest("base64url");
}
