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

/** What stands around it. */
export const frameKinds = ["warm-up", "water", "free-practice", "cool-down"] as const;
export type FrameKind = (typeof frameKinds)[number];

export type ActivityKind = DancedKind | FrameKind;

export function isFrame(kind: ActivityKind): kind is FrameKind {
  return frameKinds.some((frame) => frame === kind);
}
