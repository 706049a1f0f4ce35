const longest = 40;

/** How many letters to add, drop, change or swap to get from one word to the other (optimal string alignment distance). */
function distance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, (before[j - 2] ?? 0) + 1);
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}

/** The word that was probably meant, or nothing when none is near: at most a third of the letters may be off. */
export function nearest(word: string, words: Iterable<string>): string | undefined {
  if (word.length > longest) return undefined;
  const plain = (text: string) => text.toLowerCase().replace(/[\s_]+/g, "-");
  const begun = word.length > 2 ? [...words].filter((candidate) => plain(candidate).startsWith(plain(word))) : [];
  if (begun.length === 1) return begun[0];
  let found: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of words) {
    if (candidate.length > longest) continue;
    const off = distance(plain(word), plain(candidate));
    const allowed = Math.max(1, Math.floor(Math.max(word.length, candidate.length) / 3));
    if (off < least && off <= allowed && off < candidate.length) [found, least] = [candidate, off];
  }
  return found;
}

/** "a, b or c"; of a long list the first and how many more there are. */
export function eitherOf(words: readonly string[], last = "or"): string {
  if (words.length > 24) return `${words.slice(0, 12).join(", ")} and ${words.length - 12} more`;
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}

/** A text of the file as a message quotes it: on one line, not too long. */
export function quoted(text: string): string {
  const line = onOneLine(text);
  return `\`${line.length > 60 ? `${line.slice(0, 57)}…` : line}\``;
}

/* No text that may stand in a file is nearly as long. */
const longestSuggested = 2500;

/** A line that a message says to write: on one line and whole, since it is copied into the file. */
export function suggested(text: string): string {
  const line = onOneLine(text);
  return line.length > longestSuggested ? quoted(line) : `\`${line}\``;
}

function onOneLine(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .replace(/\p{Cc}|\p{Surrogate}/gu, "\ufffd")
    .trim();
}
