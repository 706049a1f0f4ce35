import type { Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { OutFile, Publisher } from "../publisher.js";
import { descriptionText } from "./description.js";

/** The text for the video's description box, and for that of its mirrored upload. */
export const description: Publisher<Routine> = {
  name: "description",
  publish(routine, { library }) {
    const { outputs } = wordingOf(library.language);
    const { slug, video } = routine;
    const file = (name: string, label: string, content: string): OutFile => {
      return { path: `routines/${slug}/${name}.txt`, kind: "description", mediaType: "text/plain", label, content };
    };
    return [
      file("description", outputs.description, descriptionText(routine, library)),
      ...(video.mirrored
        ? [
            file(
              "description-mirrored",
              outputs.mirroredDescription,
              descriptionText(routine, library, video.mirrored.by),
            ),
          ]
        : []),
    ];
  },
};
