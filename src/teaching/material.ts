import type Fraction from "fraction.js";
import { countSeconds } from "../routine/clock.js";
import type { DancedSection, Routine, Stance } from "../routine/routine.js";
import { type DancedName, type SectionName, sectionName } from "../routine/sheet.js";
import type { GroupMoves } from "./dancers.js";
import type { RatedMove } from "./difficulty.js";
import { type GroupLoads, plusAll } from "./load.js";
import type { UnslowedMove } from "./never-slowed.js";
import type { ShownOption } from "./options.js";
import type { Versions } from "./versions.js";

/** Dancing that can be asked for at any speed. */
export interface Passage {
  /** Seconds at full tempo, without count-in. */
  readonly seconds: Fraction;
  /** Of those, seconds without counts, which last as long at any speed. */
  readonly uncounted: Fraction;
  /** Seconds that the count-in takes at full tempo. */
  readonly countIn: Fraction;
  /** At full tempo. */
  readonly loads: GroupLoads;
  /** Below full tempo, without what is never slowed. */
  readonly slowLoads: GroupLoads;
}

/** What is taught in one go: some phrases of a section. */
export interface Chunk extends Passage {
  readonly routine: Routine;
  readonly section: DancedSection;
  /** Index of that section in the routine's list. */
  readonly sectionIndex: number;
  /** Numbers of the first and the last phrase, from 1 within the section. */
  readonly phrases: readonly [from: number, to: number];
  readonly counts: number;
  /** What there is to learn at the taught level, and what each group dances. */
  readonly moves: readonly RatedMove[];
  readonly dancers: readonly GroupMoves[];
  /** What is danced in other versions than the class's. */
  readonly options: readonly ShownOption[];
  /** Some of it is danced on the floor. */
  readonly floor: boolean;
  /** What is left out of it below full tempo. */
  readonly unslowed: readonly UnslowedMove[];
  /** How hard it is to learn. */
  readonly points: number;
  /** The section, a pick-up and no more, that leads into it and is taught along with it. */
  readonly pickUp?: DancedSection;
  /** Where the class has danced it before: there is nothing to teach. */
  readonly before?: DancedBefore;
  /** All of it is the dancers' own: explained, and danced with the rest. */
  readonly improvised: boolean;
}

/** A section that was danced before just so, or on the other side. */
export interface DancedBefore {
  readonly section: string;
  readonly otherSide: boolean;
  /** Numbers of its phrases, where it is not all of that section. */
  readonly phrases?: readonly number[];
  /** Where its tempo is another now. */
  readonly pace?: "slower" | "faster";
}

/** Time without counts, which has nothing to dance in time. */
export function isUncounted({ counts }: Chunk): boolean {
  return counts === 0;
}

/** The names of the sections that a chunk dances. */
export function sectionsIn({ pickUp, section }: Chunk): readonly string[] {
  return [...(pickUp ? [pickUp.name] : []), section.name];
}

/** A section as it is taught: once for all the times that it is danced alike. */
export interface RoutinePart {
  readonly routine: Routine;
  readonly section: DancedSection;
  readonly versions: Versions;
  /** True of the routine's first part. */
  readonly first: boolean;
  /** Some of the routine was danced before this class. */
  readonly known: boolean;
  /** True of the routine's last part. */
  readonly last: boolean;
  /** Indexes into the material's chunks. */
  readonly chunks: readonly number[];
  /** The chunk that is danced just before this part's first, and stands earlier in the material. */
  readonly after?: number;
  /** From the top of that time through to the end of this part, over parts that are taught by then. */
  readonly fromTheTop: Passage & {
    readonly chunks: readonly number[];
    readonly times: readonly number[];
    /** How many of its chunks have counts. */
    readonly counted: number;
  };
  /** The routine from its first count, as far as it is taught after this part, on the track's clock; in pieces where something is left out. */
  readonly withSong: Passage & {
    readonly chunks: readonly number[];
    readonly pieces: number;
    /** Where in the song its pieces begin that do not begin with the dance. */
    readonly cues: readonly SongCue[];
    /** Which times through it dances, as the other has it too. */
    readonly times: readonly number[];
  };
}

/** What a class goes through again of a routine, in one go. */
export interface Recap extends Passage {
  readonly routine: Routine;
  readonly versions: Versions;
  readonly chunks: readonly number[];
  /** Where it does not go on from what is danced before it: the first piece is not among them. */
  readonly entries: readonly PieceEntry[];
}

/** Where in the song a section begins, in seconds of the track; without these where nobody has said when the first count comes. */
export interface SongCue extends SectionName {
  readonly at?: number;
}

/** Where a piece of a routine begins that does not follow from the one before, and how its dancers stand there. */
export interface PieceEntry extends SectionName {
  readonly stance: Stance;
}

/** Everything that a class teaches, in its order. */
export interface Material {
  readonly parts: readonly RoutinePart[];
  readonly chunks: readonly Chunk[];
  /** What is recalled, one a routine. */
  readonly recaps: readonly Recap[];
  /** Whether it is to end in a run of every routine in it. */
  readonly endsInRun: boolean;
}

/** Two chunks without a stop. */
export function joined(before: Chunk, chunk: Chunk): Passage {
  return {
    seconds: before.seconds.add(chunk.seconds),
    uncounted: before.uncounted.add(chunk.uncounted),
    countIn: before.countIn,
    loads: plusAll(before.loads, chunk.loads),
    slowLoads: plusAll(before.slowLoads, chunk.slowLoads),
  };
}

/** What a chunk is called. */
export function nameOf({ routine, section, phrases, pickUp }: Chunk): DancedName {
  const [from, to] = phrases;
  const whole = from === 1 && to === section.phrases.length;
  return {
    ...sectionName(routine, section),
    ...(pickUp && { pickUp: pickUp.name }),
    ...(!whole && { phrases }),
    last: section.phrases.length,
    phrase: routine.music.phrase,
  };
}

/** Seconds that some counts take at the section's tempo. */
export function countsTake(counts: number | Fraction, section: DancedSection): Fraction {
  return countSeconds(section.countsPerMinute).mul(counts);
}
