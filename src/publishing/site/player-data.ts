import { neverSlowed } from "../../routine/vocabulary.js";
import type { Wording } from "../../wording/wording.js";
import type { RoutineJson } from "../routine-json.js";

type Section = RoutineJson["sections"][number];
type Version = RoutineJson["versions"][number];
type Move = Version["moves"][number];
type Click = RoutineJson["clicks"][number];

/** One move as it is practised. */
export interface PlayedMove
  extends Pick<
    Move,
    "section" | "on" | "at" | "length" | "do" | "mirrored" | "improvised" | "say" | "mirroredSay" | "words" | "hit"
  > {
  /** What it asks care for, in short, where it is not danced below full tempo. */
  readonly care?: string;
}

/** What the player reads of a routine: a part of what `routine.json` has. */
export interface Played extends Pick<RoutineJson, "slug" | "taught" | "groups"> {
  readonly music: Pick<
    RoutineJson["music"],
    "countsPerMinute" | "tempoIsEstimate" | "phrase" | "firstCount" | "countIn"
  >;
  readonly sections: readonly Pick<
    Section,
    "name" | "wall" | "pass" | "mirrored" | "counts" | "at" | "start" | "seconds" | "countsPerMinute"
  >[];
  readonly versions: readonly PlayedVersion<readonly PlayedMove[]>[];
  readonly practice: readonly Pick<RoutineJson["practice"][number], "percent">[];
  readonly clicks: readonly Pick<Click, "at" | "number" | "accent" | "section" | "phrase" | "say">[];
}

interface PlayedVersion<Moves> {
  readonly id: string;
  readonly moves: Moves;
  readonly groups?: readonly { readonly name: string; readonly moves: Moves }[] | undefined;
}

/** The same as it stands in a page: versions share most of their moves, so each move stands there once and goes by its place. */
export interface PlayerData extends Omit<Played, "versions"> {
  readonly moves: readonly PlayedMove[];
  readonly versions: readonly PlayedVersion<readonly number[]>[];
}

/** What a page holds of its routine for the player, which so need not ask for anything more. */
export function playerData({ slug, taught, groups, ...record }: RoutineJson, { risks }: Wording): PlayerData {
  const { countsPerMinute, tempoIsEstimate, phrase, firstCount, countIn } = record.music;
  const places = new Map<string, number>();
  const placesOf = (moves: readonly Move[]) =>
    moves.map((move) => {
      const text = JSON.stringify(played(move, risks.label));
      const place = places.get(text) ?? places.size;
      places.set(text, place);
      return place;
    });
  const versions = record.versions.map(({ id, moves, groups }) => ({
    id,
    moves: placesOf(moves),
    groups: groups?.map(({ name, moves }) => ({ name, moves: placesOf(moves) })),
  }));
  return {
    slug,
    taught,
    groups,
    music: { countsPerMinute, tempoIsEstimate, phrase, firstCount, countIn },
    sections: record.sections.map(({ name, wall, pass, mirrored, counts, at, start, seconds, countsPerMinute }) => {
      return { name, wall, pass, mirrored, counts, at, start, seconds, countsPerMinute };
    }),
    moves: [...places.keys()].map((text) => JSON.parse(text) as PlayedMove),
    versions,
    practice: record.practice.map(({ percent }) => ({ percent })),
    clicks: record.clicks.map(({ at, number, accent, section, phrase, say }) => {
      return { at, number, accent, section, phrase, say };
    }),
  };
}

function played(move: Move, labelOf: Wording["risks"]["label"]): PlayedMove {
  const { section, on, at, length, do: cue, mirrored, improvised, say, mirroredSay, words, hit } = move;
  const care = (move.risks ?? []).filter((risk) => neverSlowed.includes(risk)).map(labelOf);
  return {
    ...{ section, on, at, length, do: cue, mirrored, improvised, say, mirroredSay, words, hit },
    ...(care.length === 0 ? {} : { care: care.join(", ") }),
  };
}
