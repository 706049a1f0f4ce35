import type Fraction from "fraction.js";
import { type Click, clicks } from "../../routine/clicks.js";
import type { Routine } from "../../routine/routine.js";

/** A quarter note of the click track: a count, or a part of a wait. */
export interface Quarter {
  /** Microseconds that it lasts, a whole number as the format wants it. */
  readonly length: number;
  /** The count that sounds at its start; absent in a wait. */
  readonly click?: Click;
}

/** Longest quarter note, in seconds: a tempo has 24 bits of microseconds, 16.78 s (Standard MIDI File 1.0, FF 51 03). */
const longest = 16;

/** How far, in microseconds, rounded tempos may run from the exact time before a quarter sets it right. */
const tolerance = 100;

/**
 * The routine as quarter notes, a count each and a wait as counts without a sound. Tempos are whole microseconds, so that
 * time would drift: wherever it is off by a tenth of a millisecond, one quarter makes up for it.
 */
export function* quarters(routine: Routine): Generator<Quarter> {
  let origin: Fraction | undefined;
  let written = 0;
  for (const { end, start, click } of stretches(routine)) {
    origin ??= start;
    const exact = end.sub(origin).mul(1_000_000);
    const plain = end.sub(start).mul(1_000_000).round().valueOf();
    const off = exact.sub(written + plain).abs();
    const length = off.compare(tolerance) > 0 ? exact.sub(written).round().valueOf() : plain;
    written += length;
    yield click ? { length, click } : { length };
  }
}

interface Stretch {
  readonly start: Fraction;
  readonly end: Fraction;
  readonly click?: Click;
}

/** Counts and waits, exact, none longer than a tempo can say. A wait of under half a count is given to the count before it. */
function* stretches(routine: Routine): Generator<Stretch> {
  let last: Click | undefined;
  for (const click of clicks(routine)) {
    if (last) yield* untilNext(last, click.start);
    last = click;
  }
  if (last) yield* untilNext(last, last.end);
}

function* untilNext(click: Click, next: Fraction): Generator<Stretch> {
  const wait = next.sub(click.end);
  const rests = wait.div(click.end.sub(click.start)).round().valueOf();
  const [sound, ...silence] = divided(click.start, rests > 0 ? click.end : next, 1);
  if (sound) yield { ...sound, click };
  yield* silence;
  if (rests > 0) yield* divided(click.end, next, rests);
}

function divided(start: Fraction, end: Fraction, parts: number): readonly Stretch[] {
  const number = Math.max(parts, end.sub(start).div(longest).ceil().valueOf());
  const each = end.sub(start).div(number);
  return Array.from({ length: number }, (_, part) => ({
    start: start.add(each.mul(part)),
    end: start.add(each.mul(part + 1)),
  }));
}
