import type { Cue, Score } from "./score.js";

/** Seconds that a move has to be shown to be read. */
const readable = 0.8;

/**
 * The cues as they can be read at a speed: where two or more of a phrase follow each other too quickly, one stands for all of them with
 * their counts, and the row of the phrase says which count it is. Those that ask for care stay on their own.
 *
 * @param percent of the tempo
 */
export function readableCues({ beats }: Score, cues: readonly Cue[], percent: number): readonly Cue[] {
  const opens = beats.filter((beat) => beat.opens).map(({ start }) => start);
  const phraseOf = ({ start }: Cue) => opens.filter((open) => open <= start + 1e-4).length;
  const runs: Cue[][] = [];
  for (const cue of cues) {
    const last = runs.at(-1)?.at(-1);
    const goesOn = last && isQuick(last, percent) && isQuick(cue, percent) && phraseOf(last) === phraseOf(cue);
    if (goesOn) runs.at(-1)?.push(cue);
    else runs.push([cue]);
  }
  return runs.map(joined);
}

function isQuick({ start, end, care }: Cue, percent: number): boolean {
  return care === undefined && ((end - start) * 100) / percent < readable;
}

function joined(run: readonly Cue[]): Cue {
  const [first, ...others] = run as [Cue, ...Cue[]];
  if (others.length === 0) return first;
  const { call: _, ...rest } = first;
  const end = others.at(-1)?.end ?? first.end;
  return { ...rest, end, text: run.map(({ on, call, text }) => `${on} ${call ?? text}`).join(" · ") };
}

/** The fastest of some speeds at which each move of a section can be read, else the slowest of them. */
export function firstSpeed(cues: readonly Cue[], section: number, speeds: readonly number[]): number | undefined {
  const own = cues.filter((cue) => cue.section === section);
  const slowToFast = [...speeds].sort((a, b) => a - b);
  const fits = (percent: number) => own.every(({ start, end }) => ((end - start) * 100) / percent >= readable);
  return slowToFast.filter(fits).at(-1) ?? slowToFast[0];
}
