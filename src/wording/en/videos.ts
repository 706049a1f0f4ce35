import type { MirroredBy } from "../../routine/vocabulary.js";
import { counted } from "./language.js";

/** Which counts go with a film, where there are two. */
const goesWith: Readonly<Record<MirroredBy | "plain", string>> = {
  plain: "The counts as taught go with it.",
  flipped:
    "The same film, its picture flipped, to follow as in a mirror. What is said in it keeps its sides, so the counts as taught go with it, not the mirrored ones.",
  danced: "Danced and taught on the other side: the mirrored counts go with it.",
};

/** The videos of a routine. */
export const videos = {
  watch: "Watch",
  /** @param chapters of the breakdown */
  line: (chapters: number): string =>
    chapters === 0 ? "The films" : `The films, and ${counted(chapters, "chapter", "chapters")} to jump to`,
  performance: "The performance",
  breakdown: "The breakdown, step by step",
  breakdownMirrored: { flipped: "The breakdown, flipped", danced: "The breakdown, on the other side" },
  goesWith,
  /* Beside a section, in short. */
  toPerformance: "Performance",
  toBreakdown: "Breakdown",
  /** The same film, flipped. */
  toFlipped: "Breakdown, flipped",
  chapters: "Chapters of the breakdown",
  /** After a chapter, into the same film flipped. */
  chapterFlipped: "flipped",
};
