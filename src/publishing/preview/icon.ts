import { wrap } from "../../typesetting/text.js";
import { blankPage, drawBox, drawLine, reversed } from "./canvas.js";
import type { Indexed } from "./png.js";

/**
 * The sign of a library on a phone's first screen: the last count of an eight, on its floor. It fills its square, and what it shows
 * keeps within the middle four fifths, so that a phone may cut the corners as it likes (W3C, Web Application Manifest, "maskable").
 *
 * @param size in pixels, of either side
 */
export function iconPicture(size: number): Indexed {
  const page = blankPage(size, size);
  const [line] = wrap([{ text: "8", style: "bold" }], Math.round(size * 0.62));
  const floor = Math.round(size * 0.7);
  if (line) drawLine(page, "beat", line, (size - line.width) / 2, floor - Math.round(size * 0.02));
  drawBox(page, "beat", Math.round(size * 0.26), floor, Math.round(size * 0.48), Math.round(size * 0.045));
  return reversed(page, "beat");
}
