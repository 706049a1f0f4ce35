import type { Problem } from "./problem.js";
import type { Chapter, Video } from "./written.js";

/** Fewest chapters that a video site makes a list of, and the fewest seconds of each (common practice, no source). */
const fewest = 3;
const shortest = 10;

/**
 * What a video site would refuse in the author's chapters: the first is not at 0:00, times do not rise, there are fewer than
 * three, or one lasts under ten seconds (common practice, no source). Warnings, since the routine itself is none the worse.
 */
export function chapterProblems(video: Video): readonly Problem[] {
  const { chapters } = video;
  const first = chapters[0];
  if (!first) return [];
  return [
    ...firstProblems(first),
    ...chapters.flatMap((chapter, index) => lastingProblems(chapter, chapters[index + 1], video)),
    ...numberProblems(first, chapters.length),
    ...lengthProblems(first, video),
  ];
}

function firstProblems(first: Chapter): readonly Problem[] {
  if (first.at.equals(0)) return [];
  const message = `The first chapter, "${first.title}", starts ${seconds(first.at.valueOf())} into the video. Start the list at 0:00, for instance with "0:00 Welcome".`;
  return [{ severity: "warning", rule: "chapter-times", message, place: first.place }];
}

function lastingProblems(chapter: Chapter, next: Chapter | undefined, video: Video): readonly Problem[] {
  const end = next?.at ?? video.length;
  if (!end) return [];
  const lasts = end.sub(chapter.at).valueOf();
  const problem = (message: string, place: string): readonly Problem[] => [
    { severity: "warning", rule: "chapter-times", message, place },
  ];
  if (lasts >= shortest) return [];
  if (lasts > 0) {
    return problem(
      `The chapter "${chapter.title}" lasts ${seconds(lasts)}; video sites ask for ${shortest} seconds or more. Join it with the one before or after it.`,
      chapter.place,
    );
  }
  return next
    ? problem(
        `The chapter "${next.title}" does not start later than "${chapter.title}" before it. Write the chapters in the order of their times.`,
        next.place,
      )
    : problem(
        `The chapter "${chapter.title}" does not start before the video ends. Correct its time, or the video's length.`,
        chapter.place,
      );
}

function numberProblems(first: Chapter, number: number): readonly Problem[] {
  if (number >= fewest) return [];
  const message = `There ${number === 1 ? "is one chapter" : `are ${number} chapters`}; video sites show none below ${fewest}. Add chapters, or take the list out.`;
  return [{ severity: "warning", rule: "chapter-number", message, place: first.place }];
}

function lengthProblems(first: Chapter, video: Video): readonly Problem[] {
  if (video.length) return [];
  const message =
    'The video has chapters but no length, so there is no chapters.vtt: nothing says where its last chapter ends. Add "length: 12:40" under "video".';
  return [{ severity: "note", rule: "video-length", message, place: first.place }];
}

function seconds(value: number): string {
  const shown = Math.round(value * 10) / 10;
  return shown === 1 ? "1 second" : `${shown} seconds`;
}
