import { capital } from "./language.js";

/** Levels and adaptations. */
export const versions = {
  /** "Level 2", or an adaptation's or a named level's own name with a capital. */
  name: (id: string): string => (/^\d+$/.test(id) ? `Level ${id}` : capital(id)),
};
