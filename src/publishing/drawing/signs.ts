import { type Facing, facings } from "../../routine/vocabulary.js";
import type { Coordinates, Shape } from "../../typesetting/shape.js";

/** Nose, head and shoulders from above, the nose to the front; the style sheet of the page has the same outline. */
const somebody: readonly Coordinates[] = [
  [0, -1],
  [0.24, -0.66],
  [0.4, -0.42],
  [0.44, -0.14],
  [0.34, 0.06],
  [0.7, 0.12],
  [0.86, 0.26],
  [0.86, 0.5],
];

/** A facing as somebody seen from above: up is front, where the audience is. `radius` reaches from the middle to the nose. */
export function facingSign(facing: Facing, [x, y]: Coordinates, radius: number): Shape {
  const angle = (facings.indexOf(facing) * Math.PI) / 4;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const turned = ([px, py]: Coordinates): Coordinates => [
    x + (px * cos - py * sin) * radius,
    y + (px * sin + py * cos) * radius,
  ];
  const [nose, ...right] = somebody as [Coordinates, ...Coordinates[]];
  const left = right.toReversed().map(([px, py]): Coordinates => [-px, py]);
  return { kind: "path", points: [nose, ...right, ...left].map(turned), closed: true, fill: "ink" };
}

/** A move that lands hard: a solid corner, its right angle at the point. */
export function hitCorner([x, y]: Coordinates, size: number): Shape {
  const points: readonly Coordinates[] = [
    [x, y],
    [x + size, y],
    [x, y + size * 1.3],
  ];
  return { kind: "path", points, closed: true, fill: "beat" };
}

/** A count that the music lands on: a solid disc, as under its numeral. Its middle is at the point. */
export function accentDisc(at: Coordinates, radius: number): Shape {
  return { kind: "disc", at, radius, fill: "ink" };
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

/** Danced on the other side: a pair of feet from above, of which the other one is the dark one. */
export function otherSide([x, y]: Coordinates, radius: number): readonly Shape[] {
  return [-1, 1].flatMap((side): readonly Shape[] => {
    const middle = x + side * radius * 0.52;
    const sole = Array.from({ length: 12 }, (_, index): Coordinates => {
      const angle = (index * Math.PI) / 6;
      return [middle + Math.sin(angle) * radius * 0.4, y - radius * 0.32 - Math.cos(angle) * radius * 0.62];
    });
    const heel: Coordinates = [middle, y + radius * 0.68];
    const paint = { fill: side < 0 ? "paper" : "ink", stroke: { tone: "ink", width: radius * 0.18 } } as const;
    return [
      { kind: "path", points: sole, closed: true, ...paint },
      { kind: "disc", at: heel, radius: radius * 0.26, ...paint },
    ];
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
