import { wholeRun } from "../../routine/clock.js";
import { definedOnly } from "../../routine/defined-only.js";
import type { Move, Routine, Version } from "../../routine/routine.js";
import { type TimesThrough, timesThrough } from "../../routine/times-through.js";
import { type Height, risks } from "../../routine/vocabulary.js";
import { writtenSeconds } from "../format.js";

/** What a learner chooses a routine by: a card of the library page, and an entry of `library.json`. */
export interface RoutineFacts {
  readonly slug: string;
  readonly title: string;
  readonly choreographer: string;
  /** ISO 8601 calendar date. */
  readonly date?: string;
  readonly summary?: string;
  readonly styles: readonly string[];
  readonly audience: Routine["audience"];
  readonly song?: { readonly title?: string; readonly artist?: string };
  /** Easiest first. */
  readonly levels: readonly string[];
  readonly taught: string;
  readonly adaptations: readonly string[];
  /** Dancers who dance different counts at once; empty where all dance the same. */
  readonly groups: readonly string[];
  readonly sections: readonly string[];
  /** Counts in one run. */
  readonly counts: number;
  /** Seconds of one run, to the millisecond. */
  readonly seconds: number;
  readonly secondsAreEstimate: boolean;
  readonly countsPerMinute: number;
  readonly tempoIsEstimate: boolean;
  /** Counts in a phrase. */
  readonly phrase: number;
  /** Counts of a phrase that land hardest. */
  readonly accents: readonly number[];
  /** Directions that it starts in. */
  readonly walls: number;
  /** Times it is danced through in one run. */
  readonly times: number;
  /** How a dance that goes several times through is built. */
  readonly timesThrough?: TimesThrough;
  /** What at least one version must have. */
  readonly gear: readonly string[];
  /** Versions that kneel, sit or lie on the floor, or are upside down on it. */
  readonly floorWork: readonly string[];
  /** Versions that are danced on a chair from the start to the end. */
  readonly onChair: readonly string[];
  /** Read and served, but not published. */
  readonly draft?: true;
  /** Everything that its versions meet, in the order in which cautions are listed. */
  readonly cautions: readonly string[];
}

const down: ReadonlySet<Height> = new Set(["kneeling", "seated", "lying", "inverted"]);

function reachesFloor({ before, after, through }: Move): boolean {
  return down.has(before.height) || down.has(after.height) || (through !== undefined && down.has(through));
}

function staysOnChair({ start, moves }: Pick<Version, "start" | "moves">): boolean {
  return start.height === "chair" && moves.every(({ after }) => after.height === "chair");
}

/** The facts of a routine. */
export function routineFacts(routine: Routine): RoutineFacts {
  const { versions, music } = routine;
  const named = (of: (version: Version) => boolean) => versions.filter(of).map(({ id }) => id);
  const required = versions.flatMap(({ gear }) =>
    gear.filter(({ need }) => need === "required").map(({ item }) => item),
  );
  return {
    slug: routine.slug,
    title: routine.title,
    choreographer: routine.choreographer,
    ...(routine.date === undefined ? {} : { date: routine.date }),
    ...(routine.summary === undefined ? {} : { summary: routine.summary }),
    styles: routine.styles,
    audience: routine.audience,
    ...(music.title === undefined && music.artist === undefined
      ? {}
      : {
          song: {
            ...(music.title === undefined ? {} : { title: music.title }),
            ...(music.artist === undefined ? {} : { artist: music.artist }),
          },
        }),
    levels: routine.levels,
    taught: routine.taught,
    adaptations: named(({ kind }) => kind === "adaptation"),
    groups: routine.groups,
    sections: [...new Set(routine.sections.map(({ name }) => name))],
    counts: routine.counts,
    seconds: writtenSeconds(wholeRun(routine).seconds),
    secondsAreEstimate: routine.secondsAreEstimate,
    countsPerMinute: Math.round(music.countsPerMinute.valueOf() * 10) / 10,
    tempoIsEstimate: music.tempoIsEstimate,
    phrase: music.phrase,
    accents: music.accents,
    walls: routine.walls,
    times: routine.times,
    ...definedOnly<Pick<RoutineFacts, "timesThrough">>({ timesThrough: timesThrough(routine) }),
    gear: [...new Set(required)],
    floorWork: named(({ moves, groups }) => [moves, ...groups.map((one) => one.moves)].flat().some(reachesFloor)),
    onChair: named((version) => [version, ...version.groups].every(staysOnChair)),
    ...(routine.draft ? { draft: true } : {}),
    cautions: risks.filter((risk) => versions.some(({ cautions }) => cautions.includes(risk))),
  };
}
