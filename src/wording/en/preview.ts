/** The picture that stands for a routine where its address is shared. */
export const preview = {
  byline: (choreographer: string): string => `Choreography by ${choreographer}`,
  figures: (counts: number, run: string, tempo: string): string => `${counts} counts · ${run} · ${tempo} a minute`,
};
