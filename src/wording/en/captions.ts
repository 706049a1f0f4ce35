import { counted } from "./language.js";

/** Text tracks of a video: their titles and notes. */
export const captions = {
  counts: (title: string, lead: number): string =>
    `${title}: counts and cues${lead === 0 ? "" : `, ${counted(lead, "count", "counts")} ahead`}`,
  /** Calls, so that they can't be read as the counts before them. */
  called: (calls: readonly string[]): string => `“${calls.join(" · ")}”`,
  /** Before what the dancers improvise. */
  own: "(yours)",
  uncounted: (section: string): string => `${section} (no counts)`,
  numbers: (title: string): string => `${title}: counts`,
  accents: "An exclamation mark stands where the phrase lands hardest.",
  chapters: (title: string): string => `${title}: chapters`,
};
