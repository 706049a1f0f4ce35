/** The dancing that a class is made of, in the order in which a part of a routine goes through it. */
export const dancedKinds = [
  "show",
  "mark",
  "detail",
  "drill",
  "link",
  "from-the-top",
  "run-through",
  "away-from-mirror",
  "mirrored",
  "groups",
] as const;
export type DancedKind = (typeof dancedKinds)[number];

/** What surrounds it. */
export type FrameKind = "warm-up" | "water" | "free-practice" | "cool-down";

export type ActivityKind = DancedKind | FrameKind;
