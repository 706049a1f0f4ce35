import type { JudgedTap, TapFit } from "../../../src/hearing/song/types.js";
import type { SongWording } from "../../../src/wording/song.js";
import { type Desk, enoughTaps, fitFor, type Stretch } from "./state.js";

/** What the taps for a stretch come to, in words. */
export function tapsText(desk: Desk, stretch: Stretch, words: SongWording): string {
  const number = desk.taps.get(stretch)?.length ?? 0;
  if (number === 0) return "";
  const counted = words.tapsSoFar(number, enoughTaps);
  const fit = fitFor(desk, stretch);
  if (fit === undefined) return counted;
  if ("why" in fit) return `${counted}. ${words.noFit(fit.why)}`;
  const of = (...kinds: readonly JudgedTap["kind"][]) => fit.taps.filter(({ kind }) => kinds.includes(kind)).length;
  return [
    `${counted}:`,
    words.fit(fit, stretch === "song" ? firstCountSpread(desk, fit) : undefined),
    words.sure(fit.certainty),
    ...(fit.unsteady ? [words.unsteadyTaps(fit.unsteady)] : []),
    words.astray(of("off"), of("late", "doubled")),
  ]
    .filter(Boolean)
    .join(" ");
}

/** A first count that lies far from the first tap is less sure than that: by what the tempo may be wrong on the way. */
function firstCountSpread({ anchor }: Desk, { firstCount, firstCountSpread, countsPerMinute, spread }: TapFit): number {
  return Math.hypot(firstCountSpread, ((anchor ?? firstCount) - firstCount) * (spread / countsPerMinute));
}

/** Taps with whether they fell on the beat, as they are drawn; as long as they are too few, all do. */
export function shownTaps(desk: Desk, stretch: Stretch): readonly { readonly at: number; readonly on: boolean }[] {
  const fit = fitFor(desk, stretch);
  if (fit && !("why" in fit)) return fit.taps.map(({ at, kind }) => ({ at, on: kind === "on" }));
  return (desk.taps.get(stretch) ?? []).map((at) => ({ at, on: true }));
}

/**
 * Calls back with each tap on the pad, at once and not when it is let go.
 *
 * @param tap called with the event of it
 */
export function onTaps(pad: HTMLButtonElement, tap: (event: Event) => void): void {
  const isKey = ({ key }: KeyboardEvent) => key === " " || key === "Enter";
  pad.addEventListener("pointerdown", (event) => {
    if (event.button === 0) tap(event);
  });
  pad.addEventListener("keydown", (event) => {
    if (!isKey(event)) return;
    // Else it would be pressed once more when the key is let go.
    event.preventDefault();
    if (!event.repeat) tap(event);
  });
  pad.addEventListener("keyup", (event) => isKey(event) && event.preventDefault());
  pad.addEventListener("click", (event) => {
    // Of what reads the page out: it presses buttons without touching them.
    if (event.detail === 0) tap(event);
  });
}
