import type { Style } from "../../typesetting/style.js";
import { type Line, wrap } from "../../typesetting/text.js";
import { blankPage, drawBox, drawLine, type Ink } from "./canvas.js";
import type { Indexed } from "./png.js";

/** Pixels; the shape that most places show the preview of a link in. */
const width = 1200;
const height = 630;
const margin = 72;

/** What stands on a picture, from top to bottom. */
export interface Cover {
  /** Whose it is. */
  readonly over: string;
  readonly title: string;
  readonly byline: string;
  /** Counts of a phrase, and those of them that land hard. */
  readonly phrase: number;
  readonly accents: readonly number[];
  readonly figures: string;
}

/** Whose it is, what it is called, counts on the floor, and the figures that one asks for first. */
export function coverPicture({ over, title, byline, phrase, accents, figures }: Cover): Indexed {
  const page = blankPage(width, height);
  const set = (text: string, size: number, style: Style = "regular") =>
    wrap([{ text, style }], size, width - 2 * margin);
  const draw = (ink: Ink, line: Line | undefined, x: number, y: number) => line && drawLine(page, ink, line, x, y);

  draw("quiet", set(over, 32, "bold")[0], margin, 96);
  const { lines, size } = titleLines(title, set);
  for (const [index, line] of lines.entries()) draw("ink", line, margin, 150 + size * (0.75 + index));
  draw("quiet", set(byline, 32)[0], margin, 150 + size * lines.length + 52);
  drawCounts(page, phrase, accents, 500);
  draw("ink", set(figures, 36, "bold")[0], margin, 570);
  return page;
}

/** The title as large as it fits; what is longer than two lines at the smallest size is cut, as any preview would. */
function titleLines(text: string, set: (text: string, size: number, style: Style) => readonly Line[]) {
  const sizes = [120, 100, 84, 68, 56];
  const size = sizes.find((each) => set(text, each, "bold").length <= (each > 100 ? 1 : 2)) ?? 56;
  return { size, lines: set(text, size, "bold").slice(0, 2) };
}

/** The counts of a phrase, standing on the floor; those that land hard are larger and in the accent's colour. */
function drawCounts(page: Indexed, phrase: number, accents: readonly number[], floor: number): void {
  const numbers = Array.from({ length: Math.min(phrase, 16) }, (_, index) => index + 1);
  const room = (width - 2 * margin) / numbers.length;
  for (const number of numbers) {
    const hard = accents.includes(number);
    const [line] = wrap(
      [{ text: `${number}`, style: hard ? "bold" : "regular" }],
      Math.min(room * 0.7, hard ? 104 : 68),
    );
    if (line) drawLine(page, hard ? "beat" : "quiet", line, margin + (number - 1) * room, floor - 2);
  }
  drawBox(page, "ink", margin, floor, width - 2 * margin, 10);
}
