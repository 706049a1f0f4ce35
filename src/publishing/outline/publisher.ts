import type { Routine } from "../../routine/routine.js";
import type { Publisher } from "../publisher.js";
import { outlineText } from "./outline.js";

/** The text for the video's description box. */
export const outline: Publisher<Routine> = {
  name: "outline",
  publish: (routine, library) => [
    { path: `routines/${routine.slug}/description.txt`, content: outlineText(routine, library) },
  ],
};
