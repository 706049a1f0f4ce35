import { chapterProblems } from "../chapters.js";
import type { Severity } from "../problem.js";
import { counts, type Rule } from "./rule.js";

function chapterRule(name: string, severity: Severity, why: string, bad: string): Rule {
  return {
    name,
    severity,
    why,
    good: counts(
      "1-8: Walk",
      "video: { length: 12:40, chapters: [0:00 What you need, 1:03 Counts and words, 9:10 Full tempo] }\n",
    ),
    bad: counts("1-8: Walk", bad),
    find: ({ written }) =>
      chapterProblems(written.video).flatMap(({ rule, place, message }) => (rule === name ? [{ place, message }] : [])),
  };
}

/** What a video site would make of the chapters. Common practice of such sites, no source. */
export const chapterRules: readonly Rule[] = [
  chapterRule(
    "chapter-times",
    "warning",
    "Video sites show chapters only where the first is at 0:00, the times rise, and each lasts ten seconds or more.",
    "video: { length: 12:40, chapters: [0:05 What you need, 1:03 Counts and words, 9:10 Full tempo] }\n",
  ),
  chapterRule(
    "chapter-number",
    "warning",
    "Video sites show chapters only where there are at least three.",
    "video: { length: 12:40, chapters: [0:00 What you need, 1:03 Counts and words] }\n",
  ),
  chapterRule(
    "video-length",
    "note",
    "The video's length closes its last chapter; without it there is no chapters.vtt.",
    "video: { chapters: [0:00 What you need, 1:03 Counts and words, 9:10 Full tempo] }\n",
  ),
];
