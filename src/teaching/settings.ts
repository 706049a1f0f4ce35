import type { Library } from "../routine/routine.js";
import type { TeachingSettings } from "../routine/teaching-settings.js";

export type { TeachingSettings };

/** The class planner's settings with the drill's speeds filled in, rising to full tempo. */
export type ClassSettings = TeachingSettings & { readonly drillSpeeds: readonly number[] };

export function settingsFor({ teaching, practiceSpeeds }: Library): ClassSettings {
  const wanted = teaching.drillSpeeds ?? practiceSpeeds;
  const speeds = new Set([...wanted.filter((speed) => speed < 100), 100]);
  return { ...teaching, drillSpeeds: [...speeds].sort((a, b) => a - b) };
}
