import type { DancedKind } from "../routine/vocabulary.js";

export type { DancedKind };

/** What stands around it. */
export const frameKinds = ["warm-up", "water", "free-practice", "cool-down"] as const;
export type FrameKind = (typeof frameKinds)[number];

export type ActivityKind = DancedKind | FrameKind;

export function isFrame(kind: ActivityKind): kind is FrameKind {
  return frameKinds.some((frame) => frame === kind);
}
