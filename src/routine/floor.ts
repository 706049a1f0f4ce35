import type { Move } from "./routine.js";
import { eighths } from "./stance.js";
import type { TravelWay } from "./vocabulary.js";

/** A place on the floor in metres: x to the right and y to the front, as the dancer who faces the audience has them. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** One straight way on the floor. */
export interface Leg {
  /** Index into the moves. */
  readonly move: number;
  readonly to: Spot;
}

const diagonal = Math.SQRT1_2;
/** Unit vectors of the eight facings, clockwise from the front; a table keeps the straight ones exact. */
const ways: readonly (readonly [x: number, y: number])[] = [
  [0, 1],
  [diagonal, diagonal],
  [1, 0],
  [diagonal, -diagonal],
  [0, -1],
  [-diagonal, -diagonal],
  [-1, 0],
  [-diagonal, diagonal],
];
const offsets: Record<TravelWay, number> = { forward: 0, right: 2, back: 4, left: 6 };

/**
 * The way that a dancer travels from the spot (0, 0): a move's steps go straight to where they lead, seen from the facing
 * before the move; there and back (forward and back, left and right in one move) are two legs.
 *
 * @param stepLength metres a step
 */
export function floorPath(moves: readonly Pick<Move, "travel" | "before">[], stepLength: number): readonly Leg[] {
  let spot: Spot = { x: 0, y: 0 };
  return moves.flatMap(({ travel, before }, move) => {
    const legs = travel.map(({ way, steps }): Spot => {
      const [x, y] = ways[(eighths(before.facing) + offsets[way]) % 8] ?? [0, 0];
      return { x: x * steps * stepLength, y: y * steps * stepLength };
    });
    const used = travel.map(({ way }) => way);
    const returns =
      (used.includes("forward") && used.includes("back")) || (used.includes("left") && used.includes("right"));
    const sum = legs.reduce((all, leg) => ({ x: all.x + leg.x, y: all.y + leg.y }), { x: 0, y: 0 });
    return (returns ? legs : legs.length > 0 ? [sum] : []).map((leg): Leg => {
      spot = { x: spot.x + leg.x, y: spot.y + leg.y };
      return { move, to: spot };
    });
  });
}

/** Metres travelled over, across the room and front to back; nothing where nobody travels. */
export function spaceOf(path: readonly Leg[]): { readonly width: number; readonly depth: number } | undefined {
  if (path.length === 0) return undefined;
  const reach = (values: readonly number[]) =>
    values.reduce(({ low, high }, value) => ({ low: Math.min(low, value), high: Math.max(high, value) }), {
      low: 0,
      high: 0,
    });
  const [x, y] = [reach(path.map(({ to }) => to.x)), reach(path.map(({ to }) => to.y))];
  return { width: x.high - x.low, depth: y.high - y.low };
}
