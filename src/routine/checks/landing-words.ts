import type { Place } from "../problem.js";
import { counts, type Remark, type Rule } from "./rule.js";

export const landingWords: Rule = {
  name: "landing-words",
  severity: "warning",
  why: "Landing words say where in the song a move lands. Quote the landing, not the lyric: lyrics usually need a licence. `words-limit` in library.yaml says how many words are a landing.",
  good: counts("1-8: { do: Walk in, words: down by the wall }"),
  bad: counts("1-8: { do: Walk in, words: one two three four five six seven eight nine ten }"),
  find: ({ written, versions, library }) => {
    const found = new Map<Place, Remark>();
    const look = (place: Place, words: string | undefined) => {
      const size = words?.trim().split(/\s+/).length ?? 0;
      if (size > library.wordsLimit && !found.has(place))
        found.set(place, {
          place: `${place}/words`,
          message: `these landing words have ${size} words, the library's limit is ${library.wordsLimit}; quote the landing, not the lyric: keep the word that the move lands on and a few before it`,
        });
    };
    for (const section of written.sections) look(section.place, section.words);
    for (const version of versions)
      for (const move of version.moves) if (move.option === undefined) look(move.place, move.words);
    return [...found.values()];
  },
};
