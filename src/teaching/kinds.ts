import type { DancedKind } from "../routine/vocabulary.js";

export type { DancedKind };

/** What stands around it. */
export const frameKinds = ["warm-up", "water", "questions", "free-practice", "cool-down"] as const;
export type FrameKind = (typeof frameKinds)[number];

/**
 * What a class spends some minutes on: the show of a whole dance, what is known of one, a chunk of it, all of it so far, and
 * the dance itself.
 */
export type ActivityKind = "show" | "recap" | "teach" | "from-the-top" | "dance" | FrameKind;

export function isFrame(kind: ActivityKind): kind is FrameKind {
  return frameKinds.some((frame) => frame === kind);
}
