/*
 * What is kept on a device: what was visited, until there is too much of it, and what somebody chose to keep. A host may hold
 * several libraries, so the shelves are named by the site's first folder.
 */

/** @param home address of the site's first folder, with a slash at its end */
export function shelvesOf(home: string): { readonly visited: string; readonly chosen: string } {
  return { visited: `visited 2 ${home}`, chosen: `chosen 2 ${home}` };
}

/**
 * Where something is kept. Version and side are shown by the page itself: one copy serves them all. A folder and the page in
 * it are the same.
 */
export function keyOf(address: string): string {
  return address.replace(/[?#].*$/, "").replace(/\/$/, "/index.html");
}

/** An address as that of a folder, with a slash behind its path. */
export function asFolder(address: string): string {
  const url = new URL(address);
  url.pathname = url.pathname.replace(/\/*$/, "/");
  return url.href;
}

/** Of a routine or a workshop: its folder's path from the site's first folder; "" of what pages share. */
export function folderOf(key: string, home: string): string {
  return /^(?:routines|workshops)\/[^/]+\//.exec(key.slice(home.length))?.[0] ?? "";
}

/**
 * What is too much on a shelf: of the pages that were visited longest ago all that belongs to them, and what pages share but
 * none has asked for in a long time.
 *
 * @param keys of a shelf, what was put there last at the end
 */
export function tooMuch(
  keys: readonly string[],
  home: string,
  most: { readonly folders: number; readonly shared: number },
): readonly string[] {
  const latest = new Map<string, number>();
  for (const [index, key] of keys.entries()) latest.set(folderOf(key, home), index);
  const shared = keys.filter((key) => folderOf(key, home) === "");
  const folders = [...latest].filter(([folder]) => folder !== "").sort(([, one], [, other]) => one - other);
  const gone = new Set(folders.slice(0, Math.max(0, folders.length - most.folders)).map(([folder]) => folder));
  return [
    ...keys.filter((key) => gone.has(folderOf(key, home))),
    ...shared.slice(0, Math.max(0, shared.length - most.shared)),
  ];
}

/** What a page asks the worker to keep. It answers, where it can, with how many of them could not be had. */
export interface ToKeep {
  readonly addresses: readonly string[];
  /** True of what somebody chose: it is fetched anew, and stays. */
  readonly chosen: boolean;
}
