import { guessSong } from "../../../src/hearing/song/tempo.js";
import type { SongGuess } from "../../../src/hearing/song/types.js";
import { render, type Song, type Track } from "./render.js";

/** How one song is heard. */
export interface Heard {
  readonly song: Song;
  readonly track: Track;
  readonly guess: SongGuess | undefined;
  /** Where one tempo holds and none was denied: how far the first candidate lies from the truth or its octave, as a part of it. */
  readonly tempoError: number;
  /** Where the right octave stands among the candidates, from 0; -1 where nowhere. */
  readonly octave: number;
  /** How far the nearest guess for the right octave's first count lies from it, in seconds. */
  readonly firstCountError: number;
  readonly guesses: number;
  /** Whether it is rightly called steady, or unsteady with a range that has the truth's faster end and reaches half way to the slower. */
  readonly steadiness: boolean;
}

export function hear(song: Song, track: Track = render(song)): Heard {
  const guess = guessSong(track.samples, track.rate);
  if ("why" in guess)
    return {
      song,
      track,
      guess: undefined,
      tempoError: 1,
      octave: -1,
      firstCountError: 99,
      guesses: 0,
      steadiness: false,
    };
  const truth = song.countsPerMinute;
  const [first] = guess.tempos;
  const ratio = (first?.countsPerMinute ?? 1) / truth;
  const tempoError = Math.min(...[0.25, 0.5, 1, 2, 4].map((octave) => Math.abs(ratio / octave - 1)));
  const octave = guess.tempos.findIndex(({ countsPerMinute }) => Math.abs(countsPerMinute / truth - 1) < 0.04);
  const firstCounts = guess.tempos[octave]?.firstCounts ?? [];
  const off = firstCounts.map(({ at }) => Math.abs(at - track.firstCount));
  return {
    song,
    track,
    guess,
    tempoError,
    octave,
    firstCountError: Math.min(99, ...off),
    guesses: firstCounts.length,
    steadiness: steadinessOf(guess, track, song),
  };
}

function steadinessOf(guess: SongGuess, { range }: Track, { countsPerMinute }: Song): boolean {
  if (range === undefined || guess.unsteady === undefined) return range === undefined && guess.unsteady === undefined;
  const { slowest, fastest } = guess.unsteady;
  const factors = [0.5, 1, 2].map((octave) => octave * countsPerMinute);
  return factors.some((truth) => {
    const scale = truth / countsPerMinute;
    const half = (scale * (range.slowest + range.fastest)) / 2;
    return slowest <= half * 1.005 && fastest >= half * 0.995 && Math.abs(fastest / (scale * range.fastest) - 1) < 0.03;
  });
}

/** The figures of many songs, a line of words for each. */
export function figures(heard: readonly Heard[]): string {
  const steady = heard.filter(({ track }) => track.range === undefined);
  const changing = heard.filter(({ track }) => track.range !== undefined);
  const share = (of: readonly Heard[], holds: (one: Heard) => boolean) => `${of.filter(holds).length} of ${of.length}`;
  return [
    `tempo within 0.2 % up to the octave, steady tracks: ${share(steady, ({ tempoError }) => tempoError <= 0.002)}`,
    `right octave in the first two candidates: ${share(heard, ({ octave }) => octave === 0 || octave === 1)}`,
    `right octave first: ${share(heard, ({ octave }) => octave === 0)}`,
    `first count among its guesses within 60 ms: ${share(heard, ({ firstCountError }) => firstCountError <= 0.06)}`,
    `guesses of the first count, at the right octave: ${(heard.reduce((sum, { guesses }) => sum + guesses, 0) / heard.length).toFixed(1)} a track`,
    `steady tracks called steady: ${share(steady, ({ steadiness }) => steadiness)}`,
    `changing tracks called unsteady with the range: ${share(changing, ({ steadiness }) => steadiness)}`,
  ].join("\n");
}
