import type { Glyph } from "fontkit";
import type { Face } from "../../typesetting/faces.js";
import type { Coordinates } from "../../typesetting/shape.js";
import { type Coverage, coverage } from "./coverage.js";

/** A letter as pixels, and where its upper left corner stands from the pen on the base line. */
export interface GlyphPixels extends Coverage {
  readonly left: number;
  readonly top: number;
}

const known = new Map<string, GlyphPixels>();

/** A letter at a size in pixels. The same letters come again and again, so they are drawn once a process. */
export function glyphPixels({ key, font }: Face, glyph: Glyph, size: number): GlyphPixels {
  const id = `${key} ${glyph.id} ${size}`;
  const drawn = known.get(id) ?? drawGlyph(glyph, size / font.unitsPerEm);
  known.set(id, drawn);
  return drawn;
}

function drawGlyph({ path }: Glyph, scale: number): GlyphPixels {
  const contours = contoursOf(path.commands).map((contour) =>
    contour.map(([x, y]): Coordinates => [x * scale, -y * scale]),
  );
  const [xs, ys] = [0, 1].map((axis) => contours.flat().map((point) => point[axis] ?? 0)) as [number[], number[]];
  if (xs.length === 0) return { width: 0, height: 0, values: new Float32Array(), left: 0, top: 0 };
  const [left, top] = [Math.floor(Math.min(...xs)), Math.floor(Math.min(...ys))];
  const [width, height] = [Math.ceil(Math.max(...xs)) - left, Math.ceil(Math.max(...ys)) - top];
  const moved = contours.map((contour) => contour.map(([x, y]): Coordinates => [x - left, y - top]));
  return { ...coverage(moved, width, height), left, top };
}

/** Steps of a curve: at the largest size a step is a few pixels long. */
const steps = 8;

/** A path's contours as corner points, curves as short lines. */
function contoursOf(commands: Glyph["path"]["commands"]): readonly (readonly Coordinates[])[] {
  const contours: Coordinates[][] = [];
  let pen: Coordinates = [0, 0];
  for (const { command, args } of commands) {
    if (command === "closePath") continue;
    const points: Coordinates[] = [];
    for (let index = 0; index < args.length; index += 2) points.push([args[index] ?? 0, args[index + 1] ?? 0]);
    if (command === "moveTo") contours.push([]);
    const curve = [pen, ...points];
    for (let step = 1; step <= (points.length > 1 ? steps : 1); step++)
      contours.at(-1)?.push(points.length > 1 ? onCurve(curve, step / steps) : (points[0] ?? pen));
    pen = points.at(-1) ?? pen;
  }
  return contours;
}

/** A point of a Bézier curve, by de Casteljau's construction. */
function onCurve(points: readonly Coordinates[], at: number): Coordinates {
  const [first, ...rest] = points as [Coordinates, ...Coordinates[]];
  if (rest.length === 0) return first;
  const between = rest.map((to, index): Coordinates => {
    const from = points[index] ?? to;
    return [from[0] + (to[0] - from[0]) * at, from[1] + (to[1] - from[1]) * at];
  });
  return onCurve(between, at);
}
