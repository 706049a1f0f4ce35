import type { Routine } from "../../routine/routine.js";
import type { OutFile, Publisher } from "../publisher.js";
import { chapterCaptions } from "./chapter-captions.js";
import { countCaptions } from "./count-captions.js";
import { numberCaptions } from "./number-captions.js";

/** Text tracks for the two videos: counts and cues, plain counts, and (with a video length) the breakdown's chapters. */
export const captions: Publisher<Routine> = {
  name: "captions",
  publish(routine, library) {
    const { slug, video } = routine;
    const file = (name: string, content: string): OutFile => ({ path: `routines/${slug}/${name}`, content });
    return [
      file("counts.vtt", countCaptions(routine, library)),
      file("numbers.vtt", numberCaptions(routine, library)),
      ...(video.length && video.chapters.length > 0
        ? [file("chapters.vtt", chapterCaptions(routine, video.length, library))]
        : []),
    ];
  },
};
