import type { Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { OutFile, Publisher } from "../publisher.js";
import { chapterCaptions } from "./chapter-captions.js";
import { countCaptions } from "./count-captions.js";
import { numberCaptions } from "./number-captions.js";

/** Text tracks for the two videos: counts and cues, plain counts, and (with a video length) the breakdown's chapters. */
export const captions: Publisher<Routine> = {
  name: "captions",
  publish(routine, library) {
    const wording = wordingOf(library.language);
    const { slug, title, video } = routine;
    const file = (name: string, content: string): OutFile => ({ path: `routines/${slug}/${name}`, content });
    return [
      file("counts.vtt", countCaptions(routine, wording)),
      file("numbers.vtt", numberCaptions(routine, wording)),
      ...(video.length && video.chapters.length > 0
        ? [file("chapters.vtt", chapterCaptions(title, video.chapters, video.length, wording))]
        : []),
    ];
  },
};
