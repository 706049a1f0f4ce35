import { countLength, nearestCount, timeOfCount } from "../../../src/hearing/song/grid.js";
import { fitTaps } from "../../../src/hearing/song/taps.js";
import type { FirstCountGuess, Grid, NoFit, SongGuess, TapFit } from "../../../src/hearing/song/types.js";

import type { SongWording } from "../../../src/wording/song.js";

/** What taps are for: the whole song, or a section of the file by its index. */
export type Stretch = "song" | number;

/** Where the counts are taken from. */
export type Basis =
  | { readonly from: "file" | "given" | "taps" }
  /** Of the tempos that were guessed, and of the first counts of that: by their indexes. */
  | { readonly from: "guess"; readonly tempo: number; readonly first: number };

/** All that has been found out on the desk so far. */
export interface Desk {
  readonly basis: Basis;
  /** The counts of the routine's file, and those that were brought along from another desk. */
  readonly file?: Grid;
  readonly given?: Grid;
  readonly guess?: SongGuess;
  /** Seconds in the song, by what they are for. */
  readonly taps: ReadonlyMap<Stretch, readonly number[]>;
  /** The first count is the one nearest to this, in seconds: said by her, whatever the basis has. */
  readonly anchor?: number;
  /** Added by hand: seconds, counts a minute, and how many counts are counted for one. */
  readonly nudge: { readonly firstCount: number; readonly countsPerMinute: number; readonly ratio: number };
  /** By the index of a section as danced: where she heard it begin, in seconds. */
  readonly marks: ReadonlyMap<number, number>;
  /** Likewise: where she has put it by hand. */
  readonly kept: ReadonlyMap<number, number>;
}

const still = { firstCount: 0, countsPerMinute: 0, ratio: 1 };

/** As many taps give a figure. */
export const enoughTaps = 8;

/**
 * @param file the counts that the routine's file leads to, where it says where the first one is
 * @param given counts that were brought along
 */
export function newDesk(file?: Grid, given?: Grid): Desk {
  return {
    basis: { from: given ? "given" : "file" },
    ...(file && { file }),
    ...(given && { given }),
    taps: new Map(),
    nudge: still,
    marks: new Map(),
    kept: new Map(),
  };
}

/** The counts from another place; what was added by hand was meant for those before. */
export function takenFrom(desk: Desk, basis: Basis): Desk {
  const { anchor: _, ...rest } = desk;
  return { ...rest, basis, nudge: still };
}

/** The counts as the basis alone has them. */
function basisGrid(desk: Desk): Grid | undefined {
  const { basis } = desk;
  if (basis.from === "guess") {
    const tempo = desk.guess?.tempos[basis.tempo];
    const first: FirstCountGuess | undefined = tempo?.firstCounts[basis.first];
    return tempo && { countsPerMinute: tempo.countsPerMinute, firstCount: first?.at ?? 0 };
  }
  if (basis.from !== "taps") return desk[basis.from];
  const fit = fitFor(desk, "song");
  return fit === undefined || "why" in fit ? undefined : fit;
}

/** What taps say: nothing as long as they are few. */
export function fitFor({ taps }: Desk, stretch: Stretch): TapFit | NoFit | undefined {
  const times = taps.get(stretch) ?? [];
  return times.length < enoughTaps ? undefined : fitTaps(times);
}

/** The counts that are heard, as exact as they are written into a file: what is heard is what is written. */
export function gridOf(desk: Desk): Grid | undefined {
  const from = basisGrid(desk);
  if (from === undefined) return undefined;
  const { nudge, anchor } = desk;
  const countsPerMinute = rounded(from.countsPerMinute * nudge.ratio + nudge.countsPerMinute, 100);
  if (!(countsPerMinute > 0)) return undefined;
  const plain = { firstCount: from.firstCount, countsPerMinute };
  const said = anchor === undefined ? plain.firstCount : timeOfCount(plain, nearestCount(plain, anchor).count);
  // Before the song begins nothing is counted.
  const within = said < 0 ? said + Math.ceil(-said / countLength(plain)) * countLength(plain) : said;
  return { firstCount: rounded(Math.max(0, within + nudge.firstCount), 1000), countsPerMinute };
}

export type OpenedCounts = Parameters<SongWording["ready"]>[2];

/** What is counted once a song was opened and its sound heard; one that speaks against the counts has none that are near them. */
export function openedCounts({ basis, guess, ...desk }: Desk): OpenedCounts {
  if (basis.from === "guess") return "guess";
  const has = gridOf({ ...desk, basis })?.countsPerMinute;
  const tempos = (guess?.tempos ?? []).map(({ countsPerMinute }) => countsPerMinute);
  const [sounds] = tempos;
  if (has === undefined || sounds === undefined) return "known";
  return tempos.some((tempo) => Math.abs(tempo / has - 1) < 0.01) ? "known" : { sounds, has };
}

function rounded(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}

/** Another tap; enough of them for the whole song are what the counts are taken from. */
export function tapped(desk: Desk, stretch: Stretch, at: number): Desk {
  const taps = new Map(desk.taps).set(stretch, [...(desk.taps.get(stretch) ?? []), at]);
  const next = { ...desk, taps };
  if (stretch !== "song") return next;
  const fit = fitFor(next, "song");
  if (fit === undefined || "why" in fit) return next;
  return { ...next, basis: { from: "taps" }, nudge: still };
}

/** No taps for a stretch any more; then the counts come from where they can be had. */
export function withoutTaps(desk: Desk, stretch: Stretch): Desk {
  const taps = new Map(desk.taps);
  taps.delete(stretch);
  const next = { ...desk, taps };
  return stretch === "song" && desk.basis.from === "taps" ? takenFrom(next, otherBasis(next)) : next;
}

function otherBasis({ given, file, guess }: Desk): Basis {
  if (given) return { from: "given" };
  return file || !guess ? { from: "file" } : { from: "guess", tempo: 0, first: 0 };
}

/** With what the sound gives; it is where the counts come from until something better is there. */
export function guessed(desk: Desk, guess: SongGuess): Desk {
  const next = { ...desk, guess };
  return basisGrid(desk) === undefined ? { ...next, basis: { from: "guess", tempo: 0, first: 0 } } : next;
}

/** As from another song: what was heard in the one before is forgotten. */
export function forgotten({ file, given }: Desk): Desk {
  return newDesk(file, given);
}

/** The first count at the count nearest to a moment. */
export function anchored(desk: Desk, at: number): Desk {
  return { ...desk, anchor: at, nudge: { ...desk.nudge, firstCount: 0 } };
}

export type Nudge =
  | "first-back"
  | "first-on"
  | "count-back"
  | "count-on"
  | "tempo-down"
  | "tempo-up"
  | "half"
  | "double";

/** A little more by hand. */
export function nudged(desk: Desk, nudge: Nudge): Desk {
  const grid = gridOf(desk);
  if (grid === undefined) return desk;
  const by = desk.nudge;
  const add = (more: Partial<Desk["nudge"]>): Desk => ({ ...desk, nudge: { ...by, ...more } });
  /** A count on or back, with what the hand has added to it. */
  const step = (counts: number): Desk => {
    const at = grid.firstCount + counts * countLength(grid);
    return at < 0 ? desk : { ...desk, anchor: at - by.firstCount };
  };
  switch (nudge) {
    case "first-back":
      return add({ firstCount: by.firstCount - 0.005 });
    case "first-on":
      return add({ firstCount: by.firstCount + 0.005 });
    case "count-back":
      return step(-1);
    case "count-on":
      return step(1);
    case "tempo-down":
      return add({ countsPerMinute: by.countsPerMinute - 0.05 });
    case "tempo-up":
      return add({ countsPerMinute: by.countsPerMinute + 0.05 });
    case "half":
      return add({ ratio: by.ratio / 2, countsPerMinute: by.countsPerMinute / 2 });
    case "double":
      return add({ ratio: by.ratio * 2, countsPerMinute: by.countsPerMinute * 2 });
  }
}
