import { type Cell, chart } from "../chart.js";
import type { Move } from "../routine.js";
import { counts, type Rule, type Scene } from "./rule.js";

export const accentWithoutHit: Rule = {
  name: "accent-without-hit",
  severity: "note",
  why: "`accents` names the counts of the phrase that land hardest; a phrase in which nothing hits on one of them may be a count off.",
  good: counts("1-3: Walk\n4: { do: Stamp, hit: true }\n5-8: Walk", "music: { tempo: 100, accents: [4] }\n"),
  bad: counts("1-3: Walk\n4: Look up\n5-8: Walk", "music: { tempo: 100, accents: [4] }\n"),
  find: (scene) => {
    const all = missedPhrases(scene);
    const [first, ...others] = all;
    if (first === undefined) return [];
    const { place, accents, hitting } = first;
    if (others.length > 0) {
      const message = `accents without a hit, in ${all.length} phrases: ${named(all)}; write \`hit: true\` at the moves that land there, or leave it if the accents are let go by on purpose`;
      return [{ place, message }];
    }
    const advice =
      hitting === undefined
        ? "write `hit: true` at the move that lands there, or leave it if the accent is let go by on purpose"
        : `the hit of \`${hitting.on}\` falls on its first count, so give the accent a move of its own`;
    const message = `nothing hits on ${accents.length === 1 ? "accent" : "accents"} ${accents.join(", ")} in this phrase; ${advice}`;
    return [{ place, message }];
  },
};

/** A phrase of the file in which accents go by. */
interface MissedPhrase {
  readonly place: string;
  readonly section: string;
  readonly number: number;
  readonly accents: readonly number[];
  /** A move over one of them that hits on its first count. */
  readonly hitting?: Move;
}

/** Each phrase of the file once, however often it is danced, where its author did not allow it. */
function missedPhrases(scene: Scene): readonly MissedPhrase[] {
  const found = new Map<string, MissedPhrase>();
  for (const { section, phrase, cells, counted } of hitsByPhrase(scene)) {
    if (phrase.echo || found.has(phrase.place)) continue;
    const { accents, pauses } = scene.routine.music;
    const bare = accents.flatMap((accent) => {
      const index = phrase.numbers.indexOf(accent);
      const own = cells.some(
        ({ move, from, to }) => move?.improvised && from.lte(phrase.at + index) && to.gt(phrase.at + index),
      );
      return index < 0 || pauses.includes(accent) || counted.has(accent) || own
        ? []
        : [{ accent, spanning: moveOver(cells, phrase.at + index) }];
    });
    // A move that comes from the phrase before is let go by.
    const missed = bare.filter(
      ({ spanning }) =>
        spanning === undefined || (spanning.at.gte(phrase.at) && !spanning.allow.includes("accent-without-hit")),
    );
    if (missed.length === 0) continue;
    const hitting = missed.find(({ spanning }) => spanning?.hit)?.spanning;
    found.set(phrase.place, {
      place: missed.length === 1 ? (missed[0]?.spanning?.place ?? phrase.place) : phrase.place,
      section: scene.routine.sections[section]?.name ?? "",
      number: phrase.number,
      accents: missed.map(({ accent }) => accent),
      ...(hitting && { hitting }),
    });
  }
  return [...found.values()];
}

/* More places than these nobody reads in a message. */
const mostNamed = 12;

/** "count 8 in phrases 1, 2 of Wall; counts 4, 8 in phrase 1 of Tag" */
function named(phrases: readonly MissedPhrase[]): string {
  const shown = phrases.slice(0, mostNamed);
  const alike = new Map<string, { readonly of: MissedPhrase; readonly numbers: number[] }>();
  for (const one of shown) {
    const key = `${one.accents.join()} ${one.section}`;
    const same = alike.get(key);
    if (same === undefined) alike.set(key, { of: one, numbers: [one.number] });
    else same.numbers.push(one.number);
  }
  const listed = (word: string, numbers: readonly number[]) =>
    `${word}${numbers.length === 1 ? "" : "s"} ${numbers.join(", ")}`;
  const places = [...alike.values()].map(
    ({ of: { accents, section }, numbers }) =>
      `${listed("count", accents)} in ${listed("phrase", numbers)} of ${section}`,
  );
  const more = phrases.length - shown.length;
  return `${places.join("; ")}${more > 0 ? ` and ${more} more` : ""}`;
}

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
        message: `${hits === 1 ? "the one hit does not fall" : `none of the ${hits} hits falls`} on an accent (${accents.join(", ")}); correct \`accents\` or the counts of the hits`,
      },
    ];
  },
};

/** The taught version's phrases as danced, with the count numbers on which a move hits. */
function hitsByPhrase({ routine, versions: [taught] }: Scene) {
  if (taught === undefined) return [];
  return chart(routine, taught).map(({ section, phrase, cells }) => {
    const hits = cells.flatMap(({ move, begins }) =>
      move?.hit && begins && move.at.equals(move.at.floor()) ? [phrase.numbers[move.at.valueOf() - phrase.at]] : [],
    );
    return { section, phrase, cells, counted: new Set(hits) };
  });
}
