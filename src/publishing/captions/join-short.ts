import Fraction from "fraction.js";

/** Seconds below which a caption flashes rather than shows (from memory: captioning guides ask for about five sixths of a second). */
export const shortest = new Fraction(4, 5);

/** What is to be shown for a time, in seconds of the track. */
export interface Shown {
  readonly start: Fraction;
  readonly end: Fraction;
  /** Which phrase it belongs to. */
  readonly phrase: string;
  /** Nothing is called just before it, so that what was before does not stay until it. */
  readonly afterSilence: boolean;
}

export interface Run<S extends Shown> {
  readonly start: Fraction;
  readonly end: Fraction;
  readonly parts: readonly [S, ...S[]];
}

/**
 * Has nothing flash that shares its phrase: what is shown too short is shown together with what follows in its phrase. Where
 * nothing of the phrase follows at once, it stays a little longer; where it can't, it goes with what came before in its phrase, or
 * else with what follows there. Alone in its phrase it stays as long as what follows lets it: whoever reads it is not to take it for
 * the next section's. What would be over before the track begins is shown together with what comes next, whichever phrase that is.
 *
 * @param shown in the order of their starts
 */
export function joinShort<S extends Shown>(shown: readonly S[]): readonly Run<S>[] {
  const runs: Run<S>[] = [];
  for (const part of shown) {
    const last = runs.at(-1);
    if (last !== undefined && joins(last, part)) runs[runs.length - 1] = joined(last, part);
    else runs.push({ start: later(part.start, new Fraction(0)), end: part.end, parts: [part] });
  }
  const whole = withNext(withoutShortEnds(runs));
  return whole.map((run, index) => lengthened(run, whole[index + 1]?.start));
}

/** A run that is short to the end of its phrase, or to a silence in it, goes with the one before it where it can't stay longer. */
function withoutShortEnds<S extends Shown>(runs: readonly Run<S>[]): readonly Run<S>[] {
  const kept: Run<S>[] = [];
  for (const [index, run] of runs.entries()) {
    const before = kept.at(-1);
    const next = runs[index + 1];
    const mayStay = next?.start.gte(run.start.add(shortest)) === true;
    if (before !== undefined && mayShare(before, run) && isShort(run) && !mayStay)
      kept[kept.length - 1] = { start: before.start, end: run.end, parts: [...before.parts, ...run.parts] };
    else kept.push(run);
  }
  return kept;
}

/** A run that begins its phrase and has no room after it goes with what follows in it. */
function withNext<S extends Shown>(runs: readonly Run<S>[]): readonly Run<S>[] {
  const kept: Run<S>[] = [];
  for (const run of runs) {
    const before = kept.at(-1);
    if (before !== undefined && isShort(before) && mayShare(before, run) && run.start.sub(before.start).lt(shortest))
      kept[kept.length - 1] = {
        start: before.start,
        end: later(before.end, run.end),
        parts: [...before.parts, ...run.parts],
      };
    else kept.push(run);
  }
  return kept;
}

/** Neighbours of one phrase, with no silence between them. */
function mayShare<S extends Shown>(before: Run<S>, { parts: [first] }: Run<S>): boolean {
  return before.parts.at(-1)?.phrase === first.phrase && !first.afterSilence;
}

function joins<S extends Shown>(run: Run<S>, next: S): boolean {
  if (run.end.lte(0)) return true;
  const last = run.parts.at(-1) ?? run.parts[0];
  const touches = next.start.lte(run.end) && last.phrase === next.phrase;
  return touches && isShort(run);
}

function joined<S extends Shown>(run: Run<S>, next: S): Run<S> {
  return { start: run.start, end: later(run.end, next.end), parts: [...run.parts, next] };
}

function isShort({ start, end }: Pick<Shown, "start" | "end">): boolean {
  return end.sub(start).lt(shortest);
}

/** As long as it has to be shown, as far as what follows lets it. */
function lengthened<S extends Shown>(run: Run<S>, next: Fraction | undefined): Run<S> {
  if (!isShort(run)) return run;
  const wanted = run.start.add(shortest);
  const end = next === undefined || wanted.lt(next) ? wanted : next;
  return { ...run, end: later(run.end, end) };
}

function later(a: Fraction, b: Fraction): Fraction {
  return a.lt(b) ? b : a;
}
