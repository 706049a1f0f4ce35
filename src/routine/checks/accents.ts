import { type Cell, chart } from "../chart.js";
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
    for (const { phrase, cells, counted } of hitsByPhrase(scene)) {
      if (phrase.echo) continue;
      const bare = scene.routine.music.accents.flatMap((accent) => {
        const index = phrase.numbers.indexOf(accent);
        return index < 0 || counted.has(accent) ? [] : [{ accent, spanning: moveOver(cells, phrase.at + index) }];
      });
      // A move that comes from the phrase before is let go by.
      const missed = bare.filter(({ spanning }) => spanning === undefined || spanning.at.gte(phrase.at));
      const hitting = missed.find(({ spanning }) => spanning?.hit)?.spanning;
      const place = missed.length === 1 ? (missed[0]?.spanning?.place ?? phrase.place) : phrase.place;
      if (missed.length > 0 && !found.has(phrase.place))
        found.set(phrase.place, {
          place,
          message: `nothing hits on ${missed.length === 1 ? "accent" : "accents"} ${missed.map(({ accent }) => accent).join(", ")} in this phrase; ${
            hitting === undefined
              ? "write `hit: true` at the move that lands there, or leave it if the accent is let go by on purpose"
              : `the hit of \`${hitting.on}\` falls on its first count, so give the accent a move of its own`
          }`,
        });
    }
    return [...found.values()];
  },
};

/** The move that lasts over a count but begins before it. */
function moveOver(cells: readonly Cell[], at: number): Move | undefined {
  return cells.find(({ move, to }) => move?.at.lt(at) && to.gt(at))?.move;
}

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

/** The taught version's phrases as danced, with the count numbers on which a move hits. */
function hitsByPhrase({ routine, versions: [taught] }: Scene) {
  if (taught === undefined) return [];
  return chart(routine, taught).map(({ phrase, cells }) => {
    const hits = cells.flatMap(({ move, begins }) =>
      move?.hit && begins && move.at.equals(move.at.floor()) ? [phrase.numbers[move.at.valueOf() - phrase.at]] : [],
    );
    return { phrase, cells, counted: new Set(hits) };
  });
}
