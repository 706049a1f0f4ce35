import { type Facing, facings } from "../../routine/vocabulary.js";
import type { Coordinates, Shape } from "../../typesetting/shape.js";

/** A facing as a dart seen from above: up is front, where the audience is. `radius` is half its length. */
export function facingDart(facing: Facing, [x, y]: Coordinates, radius: number): Shape {
  const angle = (facings.indexOf(facing) * Math.PI) / 4;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const turned = ([px, py]: Coordinates): Coordinates => [
    x + (px * cos - py * sin) * radius,
    y + (px * sin + py * cos) * radius,
  ];
  const points: readonly Coordinates[] = [
    [0, -1],
    [0.72, 0.85],
    [0, 0.45],
    [-0.72, 0.85],
  ];
  return { kind: "path", points: points.map(turned), closed: true, fill: "ink" };
}

/** A move that lands hard: a solid corner, its right angle at the point. */
export function hitCorner([x, y]: Coordinates, size: number): Shape {
  const points: readonly Coordinates[] = [
    [x, y],
    [x + size, y],
    [x, y + size * 1.3],
  ];
  return { kind: "path", points, closed: true, fill: "ink" };
}

/** A move that carries a caution: an upright triangle with a stroke and a dot. Its middle is at the point. */
export function cautionSign([x, y]: Coordinates, radius: number): readonly Shape[] {
  const [half, foot] = [radius * 0.95, y + radius * 0.8];
  return [
    {
      kind: "path",
      points: [
        [x, y - radius * 0.9],
        [x + half, foot],
        [x - half, foot],
      ],
      closed: true,
      fill: "paper",
      stroke: { tone: "ink", width: radius * 0.18 },
    },
    {
      kind: "path",
      points: [
        [x, y - radius * 0.3],
        [x, y + radius * 0.25],
      ],
      stroke: { tone: "ink", width: radius * 0.22 },
    },
    { kind: "disc", at: [x, y + radius * 0.53], radius: radius * 0.12, fill: "ink" },
  ];
}

/** Danced on the other side: two triangles, their tips together. */
export function otherSide([x, y]: Coordinates, radius: number): readonly Shape[] {
  return [-1, 1].map((side): Shape => {
    const points: readonly Coordinates[] = [
      [x + side * radius * 0.15, y],
      [x + side * radius * 1.1, y - radius * 0.7],
      [x + side * radius * 1.1, y + radius * 0.7],
    ];
    return { kind: "path", points, closed: true, fill: "ink" };
  });
}

/** Upside down: a triangle on its point. */
export function upsideDown([x, y]: Coordinates, radius: number): Shape {
  const points: readonly Coordinates[] = [
    [x - radius, y - radius * 0.8],
    [x + radius, y - radius * 0.8],
    [x, y + radius],
  ];
  return { kind: "path", points, closed: true, fill: "paper", stroke: { tone: "ink", width: 1.1 } };
}
