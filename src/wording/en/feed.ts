/** What a feed says of something new that has no summary of its own. */
export const feed = {
  routine: (counts: number): string => `A routine of ${counts} counts.`,
  workshop: (minutes: number, routines: readonly string[]): string => `${minutes} minutes with ${routines.join(", ")}.`,
};
