import { counted } from "./language.js";

/** The picture that stands for a page where its address is shared. */
export const preview = {
  byline: (choreographer: string): string => `Choreography by ${choreographer}`,
  classFigures: (minutes: number, routines: number): string =>
    `${minutes} minutes · ${counted(routines, "routine", "routines")}`,
  libraryFigures: (routines: number, workshops: number): string =>
    [counted(routines, "routine", "routines"), workshops > 0 ? counted(workshops, "class", "classes") : ""]
      .filter(Boolean)
      .join(" · "),
  figures: (counts: number, run: string, tempo: string): string => `${counts} counts · ${run} · ${tempo} a minute`,
};
