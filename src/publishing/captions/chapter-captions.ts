import type Fraction from "fraction.js";
import type { Chapter } from "../../routine/written.js";
import type { Wording } from "../../wording/wording.js";
import { cueText, webVtt } from "./web-vtt.js";

/**
 * The breakdown's chapters, each until the next one and the last until the video ends. Titles are plain text: a chapter
 * list shows no markup.
 */
export function chapterCaptions(
  title: string,
  chapters: readonly Chapter[],
  length: Fraction,
  { captions: said }: Wording,
): string {
  const inOrder = [...chapters].sort((a, b) => a.at.compare(b.at));
  const captions = inOrder.map((chapter, index) => ({
    start: chapter.at,
    end: inOrder[index + 1]?.at ?? length,
    lines: [cueText(chapter.title)],
  }));
  return webVtt(said.chapters(title), captions);
}
