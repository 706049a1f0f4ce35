import type { Move } from "../routine.js";
import { counts, type Remark, type Rule, type Scene } from "./rule.js";

export const accentWithoutHit: Rule = {
  name: "accent-without-hit",
  severity: "note",
  why: "`accents` names the counts of the phrase that land hardest; a phrase in which nothing hits on one of them may be a count off.",
  good: counts("1-3: Walk\n4: { do: Stamp, hit: true }\n5-8: Walk", "music: { tempo: 100, accents: [4] }\n"),
  bad: counts("1-3: Walk\n4: Look up\n5-8: Walk", "music: { tempo: 100, accents: [4] }\n"),
  find: (scene) => {
    const found = new Map<string, Remark>();
    for (const { phrase, counted } of hitsByPhrase(scene)) {
      const bare = scene.routine.music.accents.filter(
        (accent) => phrase.numbers.includes(accent) && !counted.has(accent),
      );
      if (bare.length > 0 && !found.has(phrase.place))
        found.set(phrase.place, {
          place: phrase.place,
          message: `nothing hits on ${bare.length === 1 ? "accent" : "accents"} ${bare.join(", ")} in this phrase; write \`hit: true\` at the move that lands there, or leave it if the accent is let go by on purpose`,
        });
    }
    return [...found.values()];
  },
};

export const hitsOffAccents: Rule = {
  name: "hits-off-accents",
  severity: "note",
  why: "Where hits never fall on an accent, either the accents in `music` or the counts of the hits are off.",
  good: counts("1-3: Walk\n4: { do: Stamp, hit: true }\n5-8: Walk", "music: { tempo: 100, accents: [4] }\n"),
  bad: counts("1-2: Walk\n3: { do: Stamp, hit: true }\n4-8: Walk", "music: { tempo: 100, accents: [4] }\n"),
  find: (scene) => {
    const { accents } = scene.routine.music;
    const phrases = hitsByPhrase(scene);
    const hits = phrases.reduce((sum, { counted }) => sum + counted.size, 0);
    const landed = phrases.some(({ counted }) => accents.some((accent) => counted.has(accent)));
    if (accents.length === 0 || hits === 0 || landed) return [];
    return [
      {
        place: `${scene.written.music.place}/accents`,
        message: `none of the ${hits} hits falls on an accent (${accents.join(", ")}); correct \`accents\` or the counts of the hits`,
      },
    ];
  },
};

/** The count numbers on which the taught version hits, phrase by phrase as danced. */
function hitsByPhrase({ routine, versions }: Scene) {
  const hits = new Map<number, Map<number, Move[]>>();
  for (const move of versions[0]?.moves ?? []) {
    if (!move.hit) continue;
    const section = hits.get(move.section) ?? new Map<number, Move[]>();
    hits.set(move.section, section);
    section.set(move.phrase, [...(section.get(move.phrase) ?? []), move]);
  }
  return routine.sections.flatMap((section, index) =>
    section.phrases.map((phrase) => {
      const moves = hits.get(index)?.get(phrase.number) ?? [];
      const whole = moves.filter(({ at }) => at.equals(at.floor()));
      return { phrase, counted: new Set(whole.map(({ at }) => phrase.numbers[at.valueOf() - phrase.at])) };
    }),
  );
}
