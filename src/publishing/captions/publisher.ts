import type { Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { OutFile, Publisher } from "../publisher.js";
import { chapterCaptions } from "./chapter-captions.js";
import { countCaptions } from "./count-captions.js";
import { numberCaptions } from "./number-captions.js";

/** Text tracks for the two videos: counts and cues, plain counts, and (with a video length) the breakdown's chapters. */
export const captions: Publisher<Routine> = {
  name: "captions",
  publish(routine, { library }) {
    const { slug, video, music } = routine;
    const { outputs } = wordingOf(library.language);
    const file = (name: string, label: string, content: string): OutFile => {
      return { path: `routines/${slug}/${name}`, kind: "captions", mediaType: "text/vtt", label, content };
    };
    return [
      // Captions lie on a track's clock; without a place in it they would be wrong on every video.
      ...(music.firstCount
        ? [
            file("counts.vtt", outputs.cueCaptions, countCaptions(routine, library)),
            file("numbers.vtt", outputs.countCaptions, numberCaptions(routine, library)),
          ]
        : []),
      ...(video.length && video.chapters.length > 0
        ? [file("chapters.vtt", outputs.chapterCaptions, chapterCaptions(routine, video.length, library))]
        : []),
    ];
  },
};
