import type { Library, Routine } from "../../routine/routine.js";
import type { Style } from "../../typesetting/style.js";
import { type Line, wrap } from "../../typesetting/text.js";
import { wordingOf } from "../../wording/wording.js";
import type { Publisher } from "../publisher.js";
import { blankPage, drawBox, drawLine, type Ink } from "./canvas.js";
import { type Indexed, pngFile } from "./png.js";

/** Pixels; the shape that most places show the preview of a link in. */
const width = 1200;
const height = 630;
const margin = 72;

/** The picture that stands for a routine where its address is shared. Without an address there is nothing to share. */
export const preview: Publisher<Routine> = {
  name: "preview",
  publish: (routine, { library }) =>
    library.url === undefined
      ? []
      : [
          {
            path: `routines/${routine.slug}/preview.png`,
            kind: "picture",
            mediaType: "image/png",
            content: pngFile(previewPicture(routine, library)),
          },
        ],
};

/** Whose it is, what it is called, its counts on the floor, and the figures that a learner asks for first. */
export function previewPicture(routine: Routine, library: Library): Indexed {
  const { preview, time } = wordingOf(library.language);
  const page = blankPage(width, height);
  const set = (text: string, size: number, style: Style = "regular") =>
    wrap([{ text, style }], size, width - 2 * margin);
  const draw = (ink: Ink, line: Line | undefined, x: number, y: number) => line && drawLine(page, ink, line, x, y);

  draw("quiet", set(library.name, 32, "bold")[0], margin, 96);
  const { lines, size } = title(routine.title, set);
  for (const [index, line] of lines.entries()) draw("ink", line, margin, 150 + size * (0.75 + index));
  draw("quiet", set(preview.byline(routine.choreographer), 32)[0], margin, 150 + size * lines.length + 52);
  drawCounts(page, routine, 500);
  const { counts, music } = routine;
  const figures = preview.figures(counts, time.run(routine), time.tempo(music));
  draw("ink", set(figures, 36, "bold")[0], margin, 570);
  return page;
}

/** The title as large as it fits; what is longer than two lines at the smallest size is cut, as any preview would. */
function title(text: string, set: (text: string, size: number, style: Style) => readonly Line[]) {
  const sizes = [120, 100, 84, 68, 56];
  const size = sizes.find((each) => set(text, each, "bold").length <= (each > 100 ? 1 : 2)) ?? 56;
  return { size, lines: set(text, size, "bold").slice(0, 2) };
}

/** The counts of a phrase, standing on the floor; those that land hard are larger and in the accent's colour. */
function drawCounts(page: Indexed, { music: { phrase, accents } }: Routine, floor: number): void {
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
