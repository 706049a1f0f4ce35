/** The frame of every page. */
export const site = {
  skip: "Skip to the content",
  feed: "Feed of new routines",
  /** At the foot of a page: whose library it is. */
  of: (library: string, teacher: string | undefined): string => (teacher ? `${library}, ${teacher}.` : `${library}.`),
  /** The picture that stands for a page where its address is shared. */
  preview: (title: string): string => `${title}, over a row of counts`,
};
