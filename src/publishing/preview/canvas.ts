import type { Line } from "../../typesetting/text.js";
import { glyphPixels } from "./glyphs.js";
import type { Colour, Indexed } from "./png.js";

/** What stands on the paper: plain ink, quieter ink, and the accent of what lands hard. */
export type Ink = "ink" | "quiet" | "beat";

const paper: Colour = [0xfb, 0xf5, 0xea];
const inks: Readonly<Record<Ink, Colour>> = {
  ink: [0x2a, 0x1c, 0x17],
  quiet: [0x5f, 0x4b, 0x3c],
  beat: [0x8c, 0x2a, 0x1c],
};
/** Shades from paper to a full ink. */
const shades = 32;

const palette: readonly Colour[] = Object.values(inks).flatMap((ink) =>
  Array.from({ length: shades }, (_, shade) => blend(ink, shade / (shades - 1))),
);

function blend(ink: Colour, share: number): Colour {
  return ink.map((channel, index) =>
    Math.round((paper[index] ?? 0) + (channel - (paper[index] ?? 0)) * share),
  ) as unknown as Colour;
}

/** An empty sheet. */
export function blankPage(width: number, height: number): Indexed {
  return { width, height, palette, pixels: new Uint8Array(width * height) };
}

/** Draws a filled box. */
export function drawBox(page: Indexed, ink: Ink, left: number, top: number, width: number, height: number): void {
  const full = firstShade(ink) + shades - 1;
  for (let y = top; y < top + height; y++) page.pixels.fill(full, y * page.width + left, y * page.width + left + width);
}

/** Draws a line of text, its base line at `y`. What would stand beside the page is left out. */
export function drawLine(page: Indexed, ink: Ink, line: Line, x: number, y: number): void {
  for (const { x: shift, text, face } of line.pieces()) {
    const { glyphs, positions } = face.font.layout(text);
    let pen = x + shift;
    glyphs.forEach((glyph, index) => {
      const { left, top, width, height, values } = glyphPixels(face, glyph, line.size);
      stamp(page, firstShade(ink), { width, height, values }, Math.round(pen) + left, Math.round(y) + top);
      pen += ((positions[index]?.xAdvance ?? 0) * line.size) / face.font.unitsPerEm;
    });
  }
}

/** The same with paper and one ink in each other's place, of a picture that has no other ink. */
export function reversed(page: Indexed, ink: Ink): Indexed {
  const first = firstShade(ink);
  const pixels = page.pixels.map((pixel) => first + shades - 1 - Math.max(pixel - first, 0));
  return { ...page, pixels };
}

function stamp(
  { width, height, pixels }: Indexed,
  first: number,
  glyph: { readonly width: number; readonly height: number; readonly values: Float32Array },
  left: number,
  top: number,
): void {
  for (let row = 0; row < glyph.height; row++)
    for (let column = 0; column < glyph.width; column++) {
      const [x, y] = [left + column, top + row];
      const shade = Math.round((glyph.values[row * glyph.width + column] ?? 0) * (shades - 1));
      if (shade > 0 && x >= 0 && x < width && y >= 0 && y < height) pixels[y * width + x] = first + shade;
    }
}

function firstShade(ink: Ink): number {
  return Object.keys(inks).indexOf(ink) * shades;
}
