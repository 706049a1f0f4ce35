import type { Coordinates } from "../../typesetting/shape.js";

/** An upright box, y downwards. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface Around {
  /** A line from point to point that is better not covered. */
  readonly way: readonly Coordinates[];
  /** What the name stays in, or stands right beside where all its places within cover some of the way. */
  readonly frame: Box;
  /** How far the paper reaches to both sides of the frame. */
  readonly paper: Pick<Box, "left" | "right">;
  /** What it may not cover. */
  readonly others: readonly Box[];
  /** From the middle of what is named to the name. */
  readonly gap: number;
}

/**
 * Where a name of some size stands best beside what it names: within the frame or, of a narrow one, right beside it; over nothing else,
 * on as little of the way as can be.
 */
export function nameBeside(
  [x, y]: Coordinates,
  { width, height }: { readonly width: number; readonly height: number },
  { way, frame, paper, others, gap }: Around,
): Box {
  const boxAt = (left: number, top: number): Box => ({ left, top, right: left + width, bottom: top + height });
  const [middle, row] = [x - width / 2, y - height / 2];
  const places = [
    boxAt(middle, y + gap),
    boxAt(middle, y - gap - height),
    boxAt(x + gap, row),
    boxAt(x - gap - width, row),
    ...[-1, 1].flatMap((side) => [
      boxAt(side < 0 ? x - gap * 0.8 - width : x + gap * 0.8, y + gap * 0.8),
      boxAt(side < 0 ? x - gap * 0.8 - width : x + gap * 0.8, y - gap * 0.8 - height),
    ]),
  ].map((box) => within(box, frame));
  const outside = [boxAt(frame.right + beside, row), boxAt(frame.left - beside - width, row)].filter(
    ({ left, right }) => paper.left <= left && right <= paper.right,
  );
  const cost = (box: Box) =>
    1000 * others.filter((other) => meets(box, other)).length +
    (meets(box, { left: x - gap + 3, top: y - gap + 3, right: x + gap - 3, bottom: y + gap - 3 }) ? 500 : 0) +
    crossings(way, box);
  return [...places, ...outside].reduce((best, box) => (cost(box) < cost(best) ? box : best));
}

/** Points between the frame and a name beside it. */
const beside = 3;

/** Moved into the frame, where it reaches out of it. */
function within({ left, top, right, bottom }: Box, frame: Box): Box {
  const dx = Math.max(frame.left + 2 - left, 0) || Math.min(frame.right - 2 - right, 0);
  const dy = Math.max(frame.top + 2 - top, 0) || Math.min(frame.bottom - 2 - bottom, 0);
  return { left: left + dx, top: top + dy, right: right + dx, bottom: bottom + dy };
}

function meets(one: Box, other: Box): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

/** Points that each way is drawn aside of the middle, its stroke with it. */
const aside = 2.4;

/** How many points of the way, a point each unit and a half, lie in a box or so near that what is drawn does. */
function crossings(way: readonly Coordinates[], box: Box): number {
  let points = 0;
  for (let index = 1; index < way.length; index++) {
    const [[x1, y1], [x2, y2]] = [way[index - 1] ?? [0, 0], way[index] ?? [0, 0]];
    const steps = Math.ceil(Math.hypot(x2 - x1, y2 - y1) / 1.5);
    for (let step = 0; step <= steps; step++) {
      const [x, y] = [x1 + ((x2 - x1) * step) / (steps || 1), y1 + ((y2 - y1) * step) / (steps || 1)];
      if (box.left - aside < x && x < box.right + aside && box.top - aside < y && y < box.bottom + aside) points++;
    }
  }
  return points;
}
