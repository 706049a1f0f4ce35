import { chapterOf } from "../chapters.js";
import { counts, type Rule } from "./rule.js";

/** Sections named in full; of more, how many there are. */
const most = 5;

export const noChapter: Rule = {
  name: "no-chapter",
  severity: "note",
  why: "A section has a link into the breakdown where a chapter has its name. A section that is danced as another needs none.",
  good: counts("1-8: Walk", "video: { length: 12:40, chapters: [0:00 What you need, 1:03 Chorus, 9:10 Full tempo] }\n"),
  bad: counts(
    "1-8: Walk",
    "video: { length: 12:40, chapters: [0:00 What you need, 1:03 Counts and words, 9:10 Full tempo] }\n",
  ),
  find: ({ written, routine }) => {
    const [first] = written.video.chapters;
    if (first === undefined) return [];
    const own = written.sections
      .filter((one) => one.sameAs === undefined && one.seconds === undefined)
      .map(({ name }) => name);
    const bare = [...new Set(own)].filter((name) => chapterOf(routine, name) === undefined);
    if (bare.length === 0) return [];
    const shown = bare.slice(0, most).map((name) => `\`${name}\``);
    const more = bare.length > most ? ` and ${bare.length - most} more` : "";
    return [
      {
        place: first.place,
        message: `no chapter names ${shown.join(", ")}${more}; write a section's name into the title of the chapter that teaches it, and its page links there`,
      },
    ];
  },
};
