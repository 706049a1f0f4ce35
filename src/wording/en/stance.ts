import type { Stance } from "../../routine/routine.js";
import type { Facing, Height, TravelWay, Weight } from "../../routine/vocabulary.js";
import { counted } from "./language.js";

/** Where a move ends, said after "to" or "through". */
const heights: Readonly<Record<Height, string>> = {
  standing: "standing",
  chair: "the chair",
  crouching: "a crouch",
  kneeling: "the knees",
  seated: "sitting on the floor",
  lying: "lying down",
  inverted: "upside down",
};

/** Where a routine starts, said by itself. */
const posture = (height: Height): string =>
  height === "seated" ? "seated on the floor" : height === "chair" ? "on a chair" : height;

const ways: Readonly<Record<TravelWay, string>> = {
  forward: "forward",
  back: "back",
  left: "to the left",
  right: "to the right",
};

const parts = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];

function weight(on: Weight | undefined): string {
  if (on === undefined) return "weight anywhere";
  if (on === "both") return "weight on both feet";
  return on === "left" || on === "right" ? `weight on the ${on} foot` : `weight on the ${on}`;
}

/** Facing, weight, height, turns and travel. */
export const stance = {
  facing: (facing: Facing): string => `facing ${facing}`,
  weight,
  to: (height: Height): string => `to ${heights[height]}`,
  through: (height: Height): string => `through ${heights[height]}`,
  /** "facing left, weight on both feet, standing" */
  whole: ({ facing, weight: on, height }: Stance): string => `facing ${facing}, ${weight(on)}, ${posture(height)}`,
  /** @param eighths of a turn, to the right positive: -10 is "1¼ turns left" */
  turn(eighths: number): string {
    const size = Math.abs(eighths);
    const whole = Math.floor(size / 8);
    const amount = `${whole > 0 ? whole : ""}${parts[size % 8]} ${size > 8 ? "turns" : "turn"}`;
    return `${amount} ${eighths > 0 ? "right" : "left"}`;
  },
  travel: (steps: number, way: TravelWay): string => `${counted(steps, "step", "steps")} ${ways[way]}`,
};
