import type { DancedName } from "../routine/sheet.js";
import { type Risk, risks } from "../routine/vocabulary.js";
import type { Calls, ShownOption } from "./call-lines.js";
import type { UnslowedCue } from "./class-plan.js";
import type { Load } from "./load.js";
import { type Chunk, type DancedBefore, nameOf } from "./material.js";

/** Where the teacher stands, all of her in the picture: facing the camera, or with her back to it. */
export type CameraPlace = "front" | "behind";

export type TakeKind =
  | "welcome"
  | "show"
  | "explain"
  | "uncounted"
  | "own"
  | "known"
  | "options"
  | "hard"
  | "follow"
  | "link"
  | "times"
  | "from-the-top"
  | "mirrored"
  | "goodbye";

/** What is said into the camera, each once. */
export type Mention =
  | "title"
  | "music"
  | "bring"
  | "versions"
  | "start"
  | "hits"
  | "pauses"
  | "cautions"
  | "times"
  | "where"
  | "credit";

export interface Take {
  /** From 1. */
  readonly number: number;
  readonly kind: TakeKind;
  /** What it dances, in order; nothing where it is the whole routine, or talk. */
  readonly names: readonly DancedName[];
  /** Index of the section that begins to be taught with it. */
  readonly opens?: number;
  /** The section that leads into that one and is taught with it. */
  readonly pickUp?: string;
  /** What the section that it begins was danced as before. */
  readonly before?: DancedBefore;
  /** What is called in it, to be read off. */
  readonly calls: readonly Calls[];
  /** What the other versions dance in its place, where it shows that. */
  readonly options: readonly ShownOption[];
  /** What is said, where it is talk. */
  readonly say: readonly Mention[];
  readonly camera: CameraPlace;
  readonly sections: readonly string[];
  /** Per cent of the tempo; absent of talk. */
  readonly speed?: number;
  /** What it leaves out since that is never slowed, and what is danced in its place. */
  readonly without?: readonly UnslowedCue[];
  /** Times through that it dances, of a routine that has several. */
  readonly times?: number;
  /** Times that it is danced; 0 of talk. */
  readonly runs: number;
  /** In the finished video. */
  readonly start: number;
  readonly seconds: number;
  readonly load: Load;
  readonly cautions: readonly Risk[];
}

/** A take whose place in the video is still open. Seconds are those of a recording in one go. */
export type Draft = Omit<Take, "number" | "start" | "seconds"> & {
  readonly exact: number;
  /** Of those, what a cut takes out: getting ready, and back to the place. */
  readonly around: number;
};

/** A take of nothing yet, of some chunks. */
export function plainTake(kind: TakeKind, chunks: readonly Chunk[]): Draft {
  return {
    ...{ kind, camera: "behind", runs: 0, exact: 0, around: 0 },
    names: chunks.map(nameOf),
    ...{ calls: [], options: [], say: [], load: {} },
    sections: [...new Set(chunks.map(({ section }) => section.name))],
    cautions: cautionsOf(chunks),
  };
}

function cautionsOf(chunks: readonly Chunk[]): readonly Risk[] {
  const moves = chunks.flatMap(({ dancers }) => dancers.flatMap((group) => group.taught));
  return risks.filter((risk) => moves.some((move) => move.risks.includes(risk)));
}
