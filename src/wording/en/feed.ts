/** What a feed says of something new that has no summary of its own. */
export const feed = {
  routine: (counts: number): string => `A routine of ${counts} counts.`,
};
