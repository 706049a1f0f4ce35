/** What it costs to leave out phrases, to bring a new one, to dance one again or to go back, and what a start at the top is worth. */
const price = { skip: 1.5, skipEach: 0.25, insert: 1.1, again: 2.5, back: 3.2, top: 1, start: 0.15 } as const;

/** A phrase of a run, and how well it fits each phrase of the routine. */
export interface Fitting {
  readonly isCalled: boolean;
  readonly fits: readonly number[];
}

/** Where a phrase of a run is laid: on a phrase of the routine, or new behind it (-1: before all). */
export interface Laid {
  readonly at: number;
  readonly fresh: boolean;
}

interface Link extends Laid {
  readonly before?: Link;
}

/** A way through the phrases so far. */
interface Way {
  readonly score: number;
  readonly path?: Link;
}

const better = (a: Way | undefined, b: Way | undefined): Way | undefined => (a && (!b || a.score >= b.score) ? a : b);

/** The best of all ways for the phrases of a run through those of the routine. */
export function bestWay(run: readonly Fitting[], size: number, fromTop: boolean): readonly Laid[] {
  let ways: readonly Way[] = [];
  for (const [index, own] of run.entries()) {
    const enter = index === 0 ? startOf(fromTop) : entryAfter(ways, size);
    const ends = endsOf(ways, size);
    const next: Way[] = [];
    for (let at = 0; at < size; at++) {
      const from = enter(at);
      next.push({ score: from.score + (own.fits[at] ?? 0), path: linkTo(from, at, false) });
    }
    // A phrase that says nothing is no new phrase.
    for (let at = -1; own.isCalled && at < size; at++) {
      const from = index === 0 ? { score: at === size - 1 ? 0 : -0.05 } : ends[at + 1];
      if (from) next.push({ score: from.score - price.insert, path: linkTo(from, at, true) });
    }
    ways = next;
  }
  const places: Laid[] = [];
  for (let link = ways.reduce<Way | undefined>(better, undefined)?.path; link; link = link.before)
    places.push({ at: link.at, fresh: link.fresh });
  return places.reverse();
}

const linkTo = ({ path }: Way, at: number, fresh: boolean): Link => ({ at, fresh, ...(path && { before: path }) });

/** A run may begin anywhere; where it was said to begin at the top, it does. */
const startOf =
  (fromTop: boolean) =>
  (at: number): Way => ({
    score: (fromTop ? (at === 0 ? price.top : -0.5) : 0) + (at === 0 ? price.start : 0),
  });

/** The best way that ends at each phrase, from -1 on. */
function endsOf(ways: readonly Way[], size: number): readonly (Way | undefined)[] {
  const ends: (Way | undefined)[] = Array.from({ length: size + 1 }, () => undefined);
  for (const way of ways) ends[(way.path?.at ?? -1) + 1] = better(ends[(way.path?.at ?? -1) + 1], way);
  return ends;
}

/** The best way to come to a phrase: from the one before it, over some, from itself, or from anywhere. */
function entryAfter(ways: readonly Way[], size: number): (at: number) => Way {
  const ends = endsOf(ways, size);
  const all = ends.reduce(better, undefined);
  const upTo: (Way | undefined)[] = [];
  let best: Way | undefined;
  for (const end of ends) {
    best = better(end, less(best, price.skipEach));
    upTo.push(best);
  }
  return (at) =>
    [ends[at], less(upTo[at - 1], price.skip), less(ends[at + 1], price.again), less(all, price.back)].reduce(
      better,
    ) ?? {
      score: Number.NEGATIVE_INFINITY,
    };
}

const less = (way: Way | undefined, cost: number): Way | undefined => way && { ...way, score: way.score - cost };
