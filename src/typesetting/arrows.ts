import type { Coordinates } from "./shape.js";

/** Where an arrow points, in eighths of a turn from straight up, clockwise; or which way it goes round. */
type Arrow = { readonly to: number; readonly both?: boolean } | { readonly round: 1 | -1 };

/** The signs that mean each; heavy, double and triangular ones say the same. */
const signs: readonly (readonly [string, Arrow])[] = [
  ["⇑⬆▲", { to: 0 }],
  ["↗⇗⬈", { to: 1 }],
  ["→⇒⟶⟹➔➙➛➜➝➞➡➤▶►", { to: 2 }],
  ["↘⇘⬊", { to: 3 }],
  ["⇓⬇▼", { to: 4 }],
  ["↙⇙⬋", { to: 5 }],
  ["←⇐⟵⟸⬅◀◄", { to: 6 }],
  ["↖⇖⬉", { to: 7 }],
  ["↔⇔⟷⟺⬌", { to: 2, both: true }],
  ["↕⇕⬍", { to: 0, both: true }],
  ["↻⟳↷", { round: 1 }],
  ["↺⟲↶", { round: -1 }],
];

const arrows = new Map(signs.flatMap(([letters, arrow]) => [...letters].map((letter) => [letter, arrow] as const)));

/** All arrows that are drawn, one after the other. */
export const drawnArrows = [...arrows.keys()].join("");

const middle: Coordinates = [0.5, -0.33];
const reach = 0.36;
const barb = 0.2;

/** A place so far from another, at an angle clockwise from straight up. */
const from = ([x, y]: Coordinates, angle: number, far: number): Coordinates => [
  x + Math.sin(angle) * far,
  y - Math.cos(angle) * far,
];

/** The two strokes of a head that points at an angle. */
function head(tip: Coordinates, angle: number): readonly Coordinates[] {
  return [from(tip, angle + Math.PI * 0.8, barb), tip, from(tip, angle - Math.PI * 0.8, barb)];
}

/**
 * The lines of an arrow that the faces lack, in an em's square over the base line, y downwards; undefined for any other sign.
 *
 * @example arrowLines("→")?.length // 2: a shaft and a head
 */
export function arrowLines(letter: string): readonly (readonly Coordinates[])[] | undefined {
  const arrow = arrows.get(letter);
  if (arrow === undefined) return undefined;
  if ("round" in arrow) return roundLines(arrow.round);
  const angle = (arrow.to * Math.PI) / 4;
  const [tip, tail] = [from(middle, angle, reach), from(middle, angle + Math.PI, reach)];
  return [[tail, tip], head(tip, angle), ...(arrow.both === true ? [head(tail, angle + Math.PI)] : [])];
}

/** Three quarters of a circle that end at the top, with a head there. */
function roundLines(way: 1 | -1): readonly (readonly Coordinates[])[] {
  const steps = 12;
  const arc = Array.from({ length: steps + 1 }, (_, step) =>
    from(middle, way * Math.PI * (0.5 + (1.5 * step) / steps), reach * 0.8),
  );
  return [arc, head(from(middle, 0, reach * 0.8), (way * Math.PI) / 2)];
}
