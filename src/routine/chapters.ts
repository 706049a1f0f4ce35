import { isRunThrough } from "./english/run-through.js";
import type { Problem } from "./problem.js";
import type { Routine } from "./routine.js";
import type { Chapter, Video } from "./written.js";

/**
 * The chapter that teaches a section: one whose title has the section's name as words of its own, one that teaches rather than
 * runs through it, of those the one that names fewest others. A name within a longer one that is a section's too is that section's.
 *
 * @example chapterOf(routine, "Verse")?.title // "Verse, counts and words"
 */
export function chapterOf({ video, sections }: Pick<Routine, "video" | "sections">, name: string): Chapter | undefined {
  const names = [...new Set(sections.map((section) => section.name.toLowerCase()))];
  const naming = video.chapters
    .map((chapter) => ({ chapter, named: namedIn(chapter.title.toLowerCase(), names) }))
    .filter(({ named }) => named.has(name.toLowerCase()));
  const teaching = naming.filter(({ chapter }) => !isRunThrough(chapter.title));
  const [best] = (teaching.length > 0 ? teaching : naming).sort((a, b) => a.named.size - b.named.size);
  return best?.chapter;
}

/** Which names stand in a title, each as words of their own; the longest first, and what it takes is taken. */
function namedIn(title: string, names: readonly string[]): ReadonlySet<string> {
  let left = title;
  const found = new Set<string>();
  for (const name of [...names].sort((a, b) => b.length - a.length))
    for (let at = wordsAt(left, name); at >= 0; at = wordsAt(left, name)) {
      found.add(name);
      left = `${left.slice(0, at)}\n${left.slice(at + name.length)}`;
    }
  return found;
}

/** Where a text has some words, neither end of them within a word. */
function wordsAt(text: string, words: string): number {
  const isInWord = (at: number) => /[\p{L}\p{M}\p{N}]{2}/u.test(text.slice(Math.max(at - 1, 0), at + 1));
  for (let at = text.indexOf(words); at >= 0; at = text.indexOf(words, at + 1))
    if (!(at > 0 && isInWord(at)) && !isInWord(at + words.length)) return at;
  return -1;
}

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
