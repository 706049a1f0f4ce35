import type { FilePhrase } from "./file-phrases.js";
import { sharesWord } from "./shared-words.js";
import type { DraftPhrase } from "./types.js";

/** How alike two phrases must be at the least to be taken for one. */
const least = 0.2;

/**
 * Which phrase of a file each phrase that was heard is, by their cues and in order; one that is like none is left out.
 *
 * @returns by the index of the heard phrase the index of the file's
 */
export function matched(heard: readonly DraftPhrase[], file: readonly FilePhrase[]): ReadonlyMap<number, number> {
  const alike = heard.map((phrase) => file.map((other) => likeness(phrase, other)));
  // best[i][j]: of what was heard from i on and of the file from j on.
  const best = Array.from({ length: heard.length + 1 }, () => new Array<number>(file.length + 1).fill(0));
  const at = (i: number, j: number) => best[i]?.[j] ?? 0;
  const pair = (i: number, j: number) => {
    const value = alike[i]?.[j] ?? 0;
    return value >= least ? value + at(i + 1, j + 1) : Number.NEGATIVE_INFINITY;
  };
  for (let i = heard.length - 1; i >= 0; i--)
    for (let j = file.length - 1; j >= 0; j--) {
      const row = best[i];
      if (row) row[j] = Math.max(pair(i, j), at(i + 1, j), at(i, j + 1));
    }
  const pairs = new Map<number, number>();
  for (let i = 0, j = 0; i < heard.length && j < file.length; ) {
    if (at(i, j) === pair(i, j)) pairs.set(i++, j++);
    else if (at(i, j) === at(i + 1, j)) i++;
    else j++;
  }
  return pairs;
}

/** From 0 to 1: the share of the heard cues that the file's phrase has, less where it has them on other counts. */
function likeness(heard: DraftPhrase, file: FilePhrase): number {
  const cues = heard.moves.filter(({ trust }) => trust !== "once");
  if (cues.length === 0) return 0;
  const values = cues.map(({ on, cue }) => {
    const count = Number.parseInt(on, 10);
    const distances = file.moves
      .filter(({ words }) => sharesWord(cue, words))
      .map(({ from }) => Math.abs(from - count));
    return distances.length === 0 ? 0 : Math.min(...distances) <= 1 ? 1 : 0.5;
  });
  return values.reduce<number>((sum, value) => sum + value, 0) / cues.length;
}
