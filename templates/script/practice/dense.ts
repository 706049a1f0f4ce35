import type { Cue, Score } from "./score.js";

/** Seconds that a move has to be shown to be read. */
const readable = 0.8;

/**
 * The cues as they can be read at a speed: where they follow each other too quickly, as many of a phrase as it takes stand together for
 * twice that long, and the row of the phrase says which count it is. Those that ask for care stay on their own.
 *
 * @param percent of the tempo
 */
export function readableCues({ beats }: Score, cues: readonly Cue[], percent: number): readonly Cue[] {
  const opens = beats.filter((beat) => beat.opens).map(({ start }) => start);
  const phraseOf = ({ start }: Cue) => opens.filter((open) => open <= start + 1e-4).length;
  const shown = (start: number, end: number) => ((end - start) * 100) / percent;
  const isQuick = ({ start, end, care }: Cue) => care === undefined && shown(start, end) < readable;
  const runs: [Cue, ...Cue[]][] = [];
  for (const cue of cues) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    const goesOn =
      run !== undefined &&
      last !== undefined &&
      isQuick(last) &&
      isQuick(cue) &&
      phraseOf(last) === phraseOf(cue) &&
      shown(run[0].start, last.end) < 2 * readable;
    if (goesOn) run.push(cue);
    else runs.push([cue]);
  }
  return runs.map(joined);
}

function joined(run: readonly [Cue, ...Cue[]]): Cue {
  const [first, ...others] = run;
  const last = others.at(-1);
  return last === undefined ? first : { ...first, end: last.end, run };
}

/** The fastest of some speeds at which each move of a section can be read, else the slowest of them. */
export function firstSpeed(cues: readonly Cue[], section: number, speeds: readonly number[]): number | undefined {
  const own = cues.filter((cue) => cue.section === section);
  const slowToFast = [...speeds].sort((a, b) => a - b);
  const fits = (percent: number) => own.every(({ start, end }) => ((end - start) * 100) / percent >= readable);
  return slowToFast.filter(fits).at(-1) ?? slowToFast[0];
}
