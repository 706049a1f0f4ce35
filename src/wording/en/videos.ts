/** The videos of a routine. */
export const videos = {
  watch: "Watch",
  performance: "The performance",
  breakdown: "The breakdown, step by step",
  breakdownMirrored: "The breakdown, mirrored",
  /* Beside a section, in short. */
  toPerformance: "Performance",
  toBreakdown: "Breakdown",
  toBreakdownMirrored: "Breakdown, mirrored",
  chapters: "Chapters of the breakdown",
  /** What the breakdown of a routine is called by itself. */
  stepByStep: (title: string): string => `${title}, step by step`,
};
