import type { Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { Publisher } from "../publisher.js";
import { outlineText } from "./outline.js";

/** The text for the video's description box. */
export const outline: Publisher<Routine> = {
  name: "outline",
  publish: (routine, { library }) => [
    {
      path: `routines/${routine.slug}/description.txt`,
      kind: "description",
      mediaType: "text/plain",
      label: wordingOf(library.language).outputs.description,
      content: outlineText(routine, library),
    },
  ],
};
