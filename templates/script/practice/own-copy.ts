/** How the routine lies on the learner's own copy of the song. */
export interface OnCopy {
  /** Seconds into the copy at which the routine's first count falls. */
  readonly first: number;
  /** How many seconds of the copy a second of the routine takes: more than 1 where the copy is slower. */
  readonly stretch: number;
}

/** Where in the copy a position falls (seconds at full tempo from the routine's first count). */
export function placeOn({ first, stretch }: OnCopy, position: number): number {
  return first + stretch * position;
}

/** The position that a place in the copy is. */
export function positionOn({ first, stretch }: OnCopy, place: number): number {
  return (place - first) / stretch;
}

/** The same copy, laid so that a place in it is a position. */
export function alignedTo({ stretch }: OnCopy, position: number, place: number): OnCopy {
  return { first: place - stretch * position, stretch };
}

/**
 * What was said of a copy on this device: how far its first count lies from the published one, and its stretch. A device that
 * lets the page store nothing remembers nothing; the rest works all the same.
 */
export function recall(key: string, published: number): OnCopy | undefined {
  try {
    const [shift, stretch] = (localStorage.getItem(key) ?? "none").split(" ").map(Number);
    // Whoever aligned a copy before there was a stretch has the shift alone.
    return Number.isFinite(shift) ? { first: published + Number(shift), stretch: stretch || 1 } : undefined;
  } catch {
    return undefined;
  }
}

export function remember(key: string, published: number, copy: OnCopy | undefined): void {
  try {
    if (copy) localStorage.setItem(key, `${copy.first - published} ${copy.stretch}`);
    else localStorage.removeItem(key);
  } catch {
    // Nothing to do: it holds until the page is left.
  }
}
