import type Fraction from "fraction.js";
import type { Library, Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import { cueText, webVtt } from "./web-vtt.js";

/**
 * The breakdown's chapters, each until the next one and the last until the video ends. Titles are plain text: a chapter
 * list shows no markup.
 */
export function chapterCaptions(
  { title, video: { chapters } }: Pick<Routine, "title" | "video">,
  length: Fraction,
  library: Library,
): string {
  const inOrder = [...chapters].sort((a, b) => a.at.compare(b.at));
  const captions = inOrder.map((chapter, index) => ({
    start: chapter.at,
    end: inOrder[index + 1]?.at ?? length,
    lines: [cueText(chapter.title)],
  }));
  return webVtt(wordingOf(library.language).captions.chapters(title), captions);
}
