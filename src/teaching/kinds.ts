import type { DancedKind } from "../routine/words.js";

export type { DancedKind };

/** What surrounds it. */
export type FrameKind = "warm-up" | "water" | "free-practice" | "cool-down";

export type ActivityKind = DancedKind | FrameKind;
