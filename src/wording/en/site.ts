/** The frame of every page. */
export const site = {
  skip: "Skip to the content",
  feed: "Feed of new routines",
  /** At the foot of a page: whose library it is. */
  of: (library: string, teacher: string | undefined): string => (teacher ? `${library}, ${teacher}.` : `${library}.`),
  /** Of the page that stands in for one that is not kept on the device. */
  offline: {
    title: "Not on this device",
    why: "There is no network just now, and that page was not opened here before.",
    again: "Try it again",
    opens: "These pages open without a network",
  },
  /** Of the page that stands in for one that does not exist. */
  missing: {
    title: "There is no page here",
    why: "The address may have a slip in it, or the page has gone.",
    look: <T>(library: T) => ["All routines and classes: ", library] as const,
  },
  /** The picture that stands for a page where its address is shared. */
  preview: (title: string): string => `${title}, over a row of counts`,
};
