import { quantile } from "./numbers.js";
import type { Onsets } from "./onsets.js";
import { changesOn } from "./tones.js";
import type { FirstCountGuess } from "./types.js";

/** Most guesses that are of use to somebody who hears each once. */
const mostGuesses = 5;
/** Beats from the one where music begins on that show that it does. */
const follow = 8;

/** A beat, with how much begins on it, at any pitch and among the low ones, how much louder it gets, and how much its tones are new. */
interface Beat {
  readonly at: number;
  readonly all: number;
  readonly low: number;
  readonly rise: number;
  readonly change: number;
}

/**
 * Where a routine may begin, told from beats that run through the track: where music begins, where the first bar does once it is
 * under way, and where it gets strong.
 *
 * @param rows beats in seconds, the likeliest row first: those that lie half a count beside them may be what is counted
 */
export function firstCountsOn(onsets: Onsets, rows: readonly (readonly number[])[]): readonly FirstCountGuess[] {
  const [counted = [], ...others] = rows.map((row) =>
    beatsOn(
      onsets,
      row.filter((at) => at >= 0),
    ),
  );
  const usual = usualOf(counted);
  // Where nothing is played beside the counts, the hiss before the music is as loud as anything.
  const beside = others
    .flatMap((beats) => guessesOn(beats, Math.max(usualOf(beats), 0.3 * usual)))
    .filter(({ why }) => why !== "first-strong");
  const guesses = [...guessesOn(counted, usual), ...beside.map((guess) => ({ ...guess, trust: 0.4 * guess.trust }))];
  const merged: FirstCountGuess[] = [];
  for (const guess of guesses) {
    const same = merged.findIndex(({ at }) => Math.abs(at - guess.at) < 0.06);
    const known = merged[same];
    if (known === undefined) merged.push(guess);
    else merged[same] = { ...known, trust: known.trust + guess.trust };
  }
  const best = merged.toSorted((a, b) => b.trust - a.trust).slice(0, mostGuesses);
  const whole = best.reduce((sum, { trust }) => sum + trust, 0);
  return best.map((guess) => ({ ...guess, trust: guess.trust / whole }));
}

/** Seconds about a beat within which what begins belongs to it, and after and before it that say whether it gets louder. */
const [near, aside] = [0.04, 0.06];

function beatsOn({ all, low, level, rate, begins, tones }: Onsets, row: readonly number[]): readonly Beat[] {
  const changes = changesOn(tones, row);
  return row.map((at, index) => {
    const [from, until] = [
      Math.max(0, Math.ceil((at - begins - near) * rate)),
      Math.floor((at - begins + near) * rate) + 1,
    ];
    const most = (values: Float32Array) => values.subarray(from, until).reduce((top, value) => Math.max(top, value), 0);
    const loud = (seconds: number) => level[Math.round((seconds - begins) * rate)] ?? 0;
    const rise = Math.max(0, loud(at + aside) - loud(at - aside));
    return { at, all: most(all), low: most(low), rise, change: changes[index] ?? 0 };
  });
}

/** How much usually begins on a beat. */
function usualOf(beats: readonly Beat[]): number {
  const all = beats.map(({ all }) => all);
  return quantile(
    all.toSorted((a, b) => a - b),
    0.6,
  );
}

/** @param usual how much begins on a beat while music is under way */
function guessesOn(beats: readonly Beat[], usual: number): readonly FirstCountGuess[] {
  const begins = beats.findIndex(({ all }) => all > 0 && all >= 0.3 * usual);
  const underWay = beats.findIndex(({ all }, index) => {
    const following = beats.slice(index, index + follow);
    return (
      all > 0 &&
      all >= 0.5 * usual &&
      following.filter((beat) => beat.all >= 0.5 * usual).length >= following.length / 2
    );
  });
  const bar = barOf(beats);
  const downbeat = beats.findIndex(
    (_, index) => underWay >= 0 && index >= underWay && index % bar.length === bar.first,
  );
  const early = beats.slice(0, Math.ceil(beats.length / 2));
  const strongest = early.findIndex(({ rise }) => rise > 0 && early.every((other) => other.rise <= rise));
  const guess = (index: number, why: FirstCountGuess["why"], trust: number): FirstCountGuess[] => {
    const beat = beats[index];
    return beat === undefined ? [] : [{ at: beat.at, why, trust }];
  };
  return [
    ...guess(begins, "music-begins", 1),
    ...guess(downbeat, "bar-begins", 0.9),
    ...guess(strongest, "first-strong", 0.5),
  ];
}

/** How many beats a bar has, four or three, and which of the first ones begins one: harmony and bass change there, and it is the heaviest. */
function barOf(beats: readonly Beat[]): { readonly length: number; readonly first: number } {
  const places = [4, 3].flatMap((length) => {
    const change = prominence(beats, length, (beat) => beat.change);
    const weight = prominence(beats, length, ({ all, low }) => Math.min(4, all) + 2 * Math.min(4, low));
    return change.map((value, first) => ({ length, first, speaks: value + 0.3 * (weight[first] ?? 0) }));
  });
  return places.reduce((best, place) => (place.speaks > best.speaks ? place : best));
}

/** By how much each place of a bar stands out from the mean of all, in parts of that. */
function prominence(beats: readonly Beat[], length: number, of: (beat: Beat) => number): readonly number[] {
  const mean = (some: readonly Beat[]) => some.reduce((sum, beat) => sum + of(beat), 0) / Math.max(1, some.length);
  const whole = mean(beats) || 1;
  return Array.from({ length }, (_, place) => mean(beats.filter((_, index) => index % length === place)) / whole - 1);
}
