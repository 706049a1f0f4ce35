/**
 * Whose counts somebody dances is asked once and remembered on their device. A link that names a group is its own answer, and is not
 * remembered.
 */
export function rememberGroup(groups: readonly HTMLInputElement[], slug: string, chosen: () => void): void {
  const key = `countleaf group ${slug}`;
  const linked = new URLSearchParams(location.search).has("group");
  const known = recall(key);
  const answer = groups.find(({ value }) => value === known);
  if (answer && !linked) {
    answer.checked = true;
    chosen();
  }
  for (const group of groups) group.addEventListener("change", () => remember(key, group.value));
}

/** A device that lets the page store nothing is asked again next time. */
function recall(key: string): string | undefined {
  try {
    return localStorage.getItem(key) ?? undefined;
  } catch {
    return undefined;
  }
}

function remember(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // Nothing to do.
  }
}
