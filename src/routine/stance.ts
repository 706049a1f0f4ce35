import type { Stance } from "./routine.js";
import { type Facing, type Foot, facings, type TravelWay, type Weight } from "./vocabulary.js";
import type { Travel } from "./written.js";

/** A facing as eighths of a turn from the front, clockwise from above: 0 to 7. */
export function eighths(facing: Facing): number {
  return facings.indexOf(facing);
}

/** The facing that lies a number of eighths clockwise of the front; any whole number. */
export function facingAt(eighth: number): Facing {
  return facings[((eighth % 8) + 8) % 8] ?? "front";
}

/** A facing after a turn in eighths, to the right positive: compass arithmetic. */
export function turned(facing: Facing, turn: number): Facing {
  return facingAt(eighths(facing) + turn);
}

/** A facing reflected about another one; about the front, left and right change places. */
export function reflected(facing: Facing, about: Facing = "front"): Facing {
  return facingAt(2 * eighths(about) - eighths(facing));
}

export function otherFoot(foot: Foot): Foot {
  return foot === "left" ? "right" : "left";
}

/** Where the weight is on the other side; only feet have one. */
export function otherWeight<Known extends Weight | undefined>(weight: Known): Known | Foot {
  return weight === "left" || weight === "right" ? otherFoot(weight) : weight;
}

export function otherTravel(travel: Travel): Travel {
  const way: TravelWay = travel.way === "left" || travel.way === "right" ? otherFoot(travel.way) : travel.way;
  return { ...travel, way };
}

/** A stance reflected about the room's front-back line. */
export function reflectedStance(stance: Stance): Stance {
  return { ...stance, facing: reflected(stance.facing), weight: otherWeight(stance.weight) };
}

/** A turn in words: 2 is "1/4 right", -12 is "1 1/2 left". */
export function turnText(turn: number): string {
  const size = Math.abs(turn);
  const [whole, rest] = [Math.floor(size / 8), size % 8];
  const divisor = rest % 4 === 0 ? 4 : rest % 2 === 0 ? 2 : 1;
  const part = rest === 0 ? "" : `${rest / divisor}/${8 / divisor}`;
  return `${[whole > 0 || rest === 0 ? String(whole) : "", part].filter(Boolean).join(" ")} ${turn < 0 ? "left" : "right"}`;
}
