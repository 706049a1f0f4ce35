import type { SongWording } from "../../../src/wording/song.js";
import { drawNear, drawWhole, type View } from "./draw.js";
import { the } from "./elements.js";
import type { Playing } from "./playing.js";
import { lengthOf } from "./sound.js";

export interface Sight {
  /** Draws the song as it is now, and goes on as long as it plays. */
  readonly draw: () => void;
  /** Shows it from near from a moment on. */
  readonly turnTo: (at: number) => void;
}

/** Seconds that are seen from near, on a narrow screen and on a wide one; and at least, and at most. */
const [narrow, wide, least, most] = [4, 8, 1, 32];

/**
 * The song as it is seen: from near and whole, with where it plays, which a click or the slider sets.
 *
 * @param see what there is to be seen, asked for with each picture
 */
export function seeing(
  { audio, seek }: Pick<Playing, "audio" | "seek">,
  words: SongWording,
  see: () => Omit<View, "length" | "at" | "from" | "seconds">,
): Sight {
  const [nearby, whole] = [the("near", HTMLCanvasElement), the("whole", HTMLCanvasElement)];
  const [position, clock] = [the("position", HTMLInputElement), the("clock", HTMLElement)];
  let near = { from: 0, seconds: innerWidth < 600 ? narrow : wide };
  let drawing = 0;
  const view = (): View => {
    const at = audio.currentTime;
    const isNear = at >= near.from && at <= near.from + 0.92 * near.seconds;
    // It turns the page rather than run along: easier to read, and nothing moves for those who mind.
    if (!isNear) near = { ...near, from: Math.max(0, at - (audio.paused ? 0.5 : 0.1) * near.seconds) };
    const seen = see();
    return { ...seen, ...near, at, length: lengthOf(seen.shape) };
  };
  const show = () => {
    const seen = view();
    drawNear(nearby, seen);
    drawWhole(whole, seen);
    const said = words.positionOf(seen.at, seen.length);
    if (clock.textContent !== said) {
      clock.textContent = said;
      position.max = String(seen.length);
      position.value = String(seen.at);
      position.setAttribute("aria-valuetext", said);
    }
    if (!audio.paused) draw();
  };
  const draw = () => {
    cancelAnimationFrame(drawing);
    drawing = requestAnimationFrame(show);
  };
  const zoom = (by: number) => {
    const seconds = Math.max(least, Math.min(most, near.seconds * by));
    near = { from: Math.max(0, audio.currentTime - seconds / 2), seconds };
    draw();
  };
  for (const name of ["play", "pause", "seeked", "loadedmetadata"]) audio.addEventListener(name, draw);
  addEventListener("resize", draw);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", draw);
  position.addEventListener("input", () => seek(Number(position.value)));
  nearby.addEventListener("click", ({ offsetX }) => seek(near.from + (offsetX / nearby.clientWidth) * near.seconds));
  whole.addEventListener("click", ({ offsetX }) => seek((offsetX / whole.clientWidth) * Number(position.max)));
  the("closer", HTMLButtonElement).addEventListener("click", () => zoom(0.5));
  the("wider", HTMLButtonElement).addEventListener("click", () => zoom(2));
  return {
    draw,
    turnTo: (from) => {
      near = { ...near, from };
      draw();
    },
  };
}
