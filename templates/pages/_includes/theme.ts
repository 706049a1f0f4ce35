/** The paper of the pages, by day and by night, for what a browser draws around them; the style sheet has the same. */
export const paperColours = { light: "#fbf5ea", dark: "#1b1513" } as const;
