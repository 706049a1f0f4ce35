import type { Library } from "../routine/routine.js";
import { planningLimits, type TeachingSettings } from "../routine/teaching-settings.js";

export type { TeachingSettings };

/** The class planner's settings with the drill's speeds filled in, rising to full tempo, and the planning's own limits. */
export type ClassSettings = TeachingSettings & {
  readonly drillSpeeds: readonly number[];
  /** The limits that the library sets itself. */
  readonly ownLimits: TeachingSettings["limits"];
};

export function settingsFor({ teaching, practiceSpeeds }: Library): ClassSettings {
  const wanted = teaching.drillSpeeds ?? practiceSpeeds;
  const speeds = new Set([...wanted.filter((speed) => speed < 100), 100]);
  const limits = { ...planningLimits, ...teaching.limits };
  return { ...teaching, limits, ownLimits: teaching.limits, drillSpeeds: [...speeds].sort((a, b) => a - b) };
}
