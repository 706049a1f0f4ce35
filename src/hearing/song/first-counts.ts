import { quantile } from "./numbers.js";
import type { Onsets } from "./onsets.js";
import type { FirstCountGuess } from "./types.js";

/** Beats of a bar: dancers count two bars of four as an eight. */
const bar = 4;
/** Most guesses that are of use to somebody who hears each once. */
const mostGuesses = 4;
/** Beats from the one where music begins on that show that it does. */
const follow = 8;

/** A beat, with how much begins on it, at any pitch and among the low ones. */
interface Beat {
  readonly at: number;
  readonly all: number;
  readonly low: number;
}

/**
 * Where a routine may begin, told from beats that run through the track: where music begins, where it gets strong, where the bass
 * comes in, and where the heaviest of four counts first comes.
 *
 * @param rows beats in seconds, the likeliest row first: those that lie half a count beside them may be what is counted
 */
export function firstCountsOn(onsets: Onsets, rows: readonly (readonly number[])[]): readonly FirstCountGuess[] {
  const guesses = rows.flatMap((beats, row) => {
    const weight = row === 0 ? 1 : 0.6;
    const within = beats.filter((at) => at >= 0);
    return guessesOn(within.map((at) => beatAt(onsets, at))).map((guess) => ({
      ...guess,
      trust: guess.trust * weight,
    }));
  });
  const merged: FirstCountGuess[] = [];
  for (const guess of guesses.toSorted((a, b) => b.trust - a.trust)) {
    const same = merged.findIndex(({ at }) => Math.abs(at - guess.at) < 0.06);
    const known = merged[same];
    if (known === undefined) merged.push(guess);
    else merged[same] = { ...known, trust: known.trust + guess.trust };
  }
  const best = merged.toSorted((a, b) => b.trust - a.trust).slice(0, mostGuesses);
  const whole = best.reduce((sum, { trust }) => sum + trust, 0);
  return best.map((guess) => ({ ...guess, trust: guess.trust / whole }));
}

/** Seconds about a beat within which what begins belongs to it. */
const near = 0.04;

function beatAt({ all, low, rate, begins }: Onsets, at: number): Beat {
  const [from, until] = [Math.ceil((at - begins - near) * rate), Math.floor((at - begins + near) * rate)];
  let [most, mostLow] = [0, 0];
  for (let frame = Math.max(0, from); frame <= until; frame++) {
    most = Math.max(most, all[frame] ?? 0);
    mostLow = Math.max(mostLow, low[frame] ?? 0);
  }
  return { at, all: most, low: mostLow };
}

function guessesOn(beats: readonly Beat[]): readonly FirstCountGuess[] {
  const begins = firstOf(beats, ({ all }) => all, 0.5);
  if (begins < 0) return [];
  const strong = firstOf(beats, ({ all }) => all, 0.9);
  const bass = firstOf(beats, ({ low }) => low, 0.7);
  const heaviest = heaviestOf(beats);
  const barBegins = begins + ((((heaviest - begins) % bar) + bar) % bar);
  const guess = (index: number, why: FirstCountGuess["why"], trust: number): FirstCountGuess[] => {
    const beat = beats[index];
    return beat === undefined ? [] : [{ at: beat.at, why, trust }];
  };
  return [
    ...guess(begins, "music-begins", 1),
    ...guess(barBegins, "bar-begins", 0.9),
    ...guess(bass, "bass-begins", 0.7),
    ...guess(strong, "first-strong", 0.5),
  ];
}

/** The first beat that is as strong as so much of a usual one, and is followed by others. */
function firstOf(beats: readonly Beat[], of: (beat: Beat) => number, part: number): number {
  const values = beats.map(of);
  const sorted = values.toSorted((a, b) => a - b);
  const usual = quantile(sorted, 0.6);
  return values.findIndex((value, index) => {
    const following = values.slice(index, index + follow);
    const strong = following.filter((other) => other >= 0.5 * usual).length;
    return value >= part * usual && value > 0 && strong >= following.length / 2;
  });
}

/** Which of four beats is the heaviest throughout, 0 to 3. */
function heaviestOf(beats: readonly Beat[]): number {
  const sums = Array.from({ length: bar }, (_, place) =>
    beats.reduce(
      (sum, { all, low }, index) => (index % bar === place ? sum + Math.min(4, all) + 2 * Math.min(4, low) : sum),
      0,
    ),
  );
  return sums.indexOf(Math.max(...sums));
}
