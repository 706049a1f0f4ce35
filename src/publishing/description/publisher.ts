import type { Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { Publisher } from "../publisher.js";
import { descriptionText } from "./description.js";

/** The text for the video's description box. */
export const description: Publisher<Routine> = {
  name: "description",
  publish: (routine, { library }) => [
    {
      path: `routines/${routine.slug}/description.txt`,
      kind: "description",
      mediaType: "text/plain",
      label: wordingOf(library.language).outputs.description,
      content: descriptionText(routine, library),
    },
  ],
};
