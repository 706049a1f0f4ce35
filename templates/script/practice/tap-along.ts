import type { PlayerWording } from "../../../src/wording/player.js";
import type { EvenRun } from "./tapped.js";
import { tapped } from "./tapped.js";
import type { Track } from "./track.js";

/** The learner taps the counts of her song while it plays, from the first of what is chosen on, and the routine is laid on it. */
export function tapAlong(given: {
  readonly root: HTMLElement;
  readonly audio: HTMLAudioElement;
  readonly track: Track;
  /** The counts from the first of what is chosen on. */
  readonly run: () => EvenRun | undefined;
  /** Nobody measured the routine's tempo. */
  readonly isEstimate: boolean;
  readonly laid: () => void;
  readonly wording: PlayerWording;
}): void {
  const { root, audio, track, run, isEstimate, laid, wording } = given;
  const button = root.querySelector<HTMLElement>("[data-tap]");
  const line = root.querySelector("[data-tapped]");
  if (!button || !line) return;
  let times: number[] = [];
  let from: number | undefined;
  let complete = false;

  const tap = (happened: number) => {
    const counts = run();
    if (audio.paused || !counts) {
      line.textContent = wording.tapWhilePlaying;
      return;
    }
    if (from !== counts.position) [times, complete] = [[], false];
    from = counts.position;
    if (complete) return;
    const since = ((performance.now() - happened) / 1000) * audio.playbackRate;
    times.push((track.clicks.heard() ?? audio.currentTime) - since);
    const result = tapped(times, counts, isEstimate);
    line.textContent = wording.tapped(result, 60 / counts.count);
    if (!("copy" in result)) return;
    complete = result.complete;
    track.lay(result.copy);
    laid();
  };
  const clear = () => (line.textContent = "");
  audio.addEventListener("emptied", clear);
  // Where the counts lie otherwise, or nowhere any more, the taps say nothing of it.
  for (const other of root.querySelectorAll("[data-forget], [data-one], [data-nudge]"))
    other.addEventListener("click", clear);
  // Wherever the song is taken up anew, the first count comes anew.
  for (const event of ["pause", "seeking", "emptied"]) audio.addEventListener(event, () => (from = undefined));

  // A finger or a key counts when it comes down: the click comes once it is up, and is left for whoever presses otherwise.
  let down = false;
  const press = (event: Event) => {
    down = true;
    tap(event.timeStamp);
  };
  button.addEventListener("pointerdown", press);
  button.addEventListener("pointercancel", () => (down = false));
  button.addEventListener("keydown", (event) => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    if (!event.repeat) press(event);
  });
  button.addEventListener("click", (event) => {
    if (!down || !event.isTrusted) tap(event.timeStamp);
    down = false;
  });
}
