import type { Workshop } from "../routine/routine.js";
import type { DancedName, SectionName } from "../routine/sheet.js";
import type { Risk } from "../routine/vocabulary.js";
import type { LimitOutcome } from "./ease.js";
import type { ActivityKind, FrameKind } from "./kinds.js";
import type { LevelLoads, Load } from "./load.js";
import type { ClassSettings } from "./settings.js";

/** A class, timed: plain data, values and no sentences. Times are whole seconds unless named otherwise. */
export interface ClassPlan {
  readonly slug: string;
  readonly title: string;
  readonly date?: string;
  readonly venue?: string;
  readonly minutes: number;
  /** The level asked for. */
  readonly level: string;
  /** What else its file asks for, as it stands there. */
  readonly asked?: Pick<Workshop, "starts" | "sections" | "known" | "lessons" | "dates">;
  /** From the beginning of the slot to its end, without a gap. */
  readonly activities: readonly Activity[];
  /** The same in fewer lines. */
  readonly blocks: readonly Block[];
  /** The most that a dancer meets. */
  readonly load: LevelLoads;
  /** Of each group, of routines whose groups differ. */
  readonly groups?: readonly PlannedGroup[];
  readonly limits: readonly LimitOutcome[];
  readonly routines: readonly PlannedRoutine[];
  /** Everything there is to teach, in order, whether it fits or not. */
  readonly chunks: readonly PlannedChunk[];
  readonly fit: Fit;
  readonly freePractice: number;
  readonly settings: ClassSettings;
}

export interface Activity {
  readonly kind: ActivityKind;
  /** A slug, and its title; absent of what belongs to no routine. */
  readonly routine?: string;
  readonly title?: string;
  readonly sections: readonly string[];
  /** Ids of the plan's chunks. */
  readonly chunks: readonly string[];
  /** Where it goes from the top of the routine only as far as the end of a section. */
  readonly until?: SectionEnd;
  /** Hard moves that are taken on their own. */
  readonly moves?: readonly { readonly cue: string; readonly on: string; readonly groups?: readonly string[] }[];
  /** Per cent of the tempo. */
  readonly speed?: number;
  /** At that speed; absent where the sections differ in tempo. */
  readonly countsPerMinute?: number;
  /** True of a tempo that nobody has measured; given with `countsPerMinute`. */
  readonly tempoIsEstimate?: boolean;
  /** Times that each dancer dances it; of a show, times that the teacher does. */
  readonly runs?: number;
  /** Runs of these that are danced in the easiest option, for a limit's sake. */
  readonly easier?: { readonly version: string; readonly runs: number };
  readonly start: number;
  readonly seconds: number;
  /** As planned; where groups differ, the most that anybody meets. */
  readonly load: Load;
  /** Of a dancer who stays at the easiest level. */
  readonly easiest: Load;
  /** As planned, of each group, where groups differ. */
  readonly groups?: readonly GroupLoad[];
  readonly cautions: readonly Risk[];
  /** Whose a caution is, where not all groups meet it. */
  readonly cautionGroups?: readonly GroupCaution[];
}

export interface GroupLoad {
  readonly group: string;
  readonly load: Load;
}

export interface GroupCaution {
  readonly risk: Risk;
  readonly groups: readonly string[];
}

/** What the dancers of one group meet in a class. */
export interface PlannedGroup extends LevelLoads {
  /** The routine's slug, and its title. */
  readonly routine: string;
  readonly title: string;
  readonly group: string;
}

/** What a block is about: a chunk to learn (its id), a routine put together or danced, or what stands around the dancing. */
export type BlockTopic =
  | { readonly is: "chunk"; readonly title: string; readonly chunk: string }
  | { readonly is: "top" | "dance"; readonly title: string }
  | { readonly is: FrameKind };

/** Activities that belong together, from `from` up to, not including, `to`. */
export interface Block {
  readonly topic: BlockTopic;
  readonly start: number;
  readonly seconds: number;
  readonly from: number;
  readonly to: number;
}

export interface PlannedRoutine {
  readonly slug: string;
  readonly title: string;
  /** The version that is taught, and the easiest. */
  readonly version: string;
  readonly easiest: string;
  /** Counts of a phrase on which nothing is danced, as a habit. */
  readonly pauses?: readonly number[];
}

export interface PlannedChunk {
  /** "low-tide/1": the routine's slug and the chunk's number in it. */
  readonly id: string;
  readonly routine: string;
  readonly section: string;
  readonly name: DancedName;
  /** Index of its section in the routine's list of danced sections. */
  readonly sectionIndex: number;
  /** Numbers of its first and last phrase in the section. */
  readonly phrases: readonly [from: number, to: number];
  readonly counts: number;
  /** All of it is the dancers' own. */
  readonly improvised?: true;
  /** At full tempo, to the millisecond. */
  readonly seconds: number;
  /** Moves that the class has not met before. */
  readonly newMoves: number;
  /** How hard it is to learn, and that for every eight counts; our own rule of thumb. */
  readonly points: number;
  readonly density: number;
  readonly cautions: readonly Risk[];
  readonly cautionGroups?: readonly GroupCaution[];
  /** Of one run; where groups differ, the most that anybody meets. */
  readonly load: LevelLoads;
  /** Whether this class teaches it. */
  readonly taught: boolean;
  /** Times that a dancer dances it in this class, and how many of those at full tempo. */
  readonly runs: number;
  readonly fullTempoRuns: number;
}

/** Where a class stops: the end of a section of a routine. */
export interface SectionEnd extends SectionName {
  readonly routine: string;
  readonly title: string;
}

export interface Fit {
  readonly fits: boolean;
  /** The least that teaches everything, what there is for it, and what is missing. */
  readonly least: number;
  readonly available: number;
  readonly short: number;
  /** Shortest slot, in whole minutes, that would hold the least with the same frame. */
  readonly minutesNeeded: number;
  /** Absent where not even one section fits. */
  readonly upTo?: SectionEnd;
  /** What this class leaves out. */
  readonly left: readonly SectionEnd[];
  /** Ways to divide it over classes of this length, where it does not fit into one. */
  readonly divisions: readonly Division[];
}

export interface Division {
  readonly classes: readonly DividedClass[];
}

export interface DividedClass {
  readonly sections: readonly SectionEnd[];
  readonly ends: SectionEnd;
  /** The least that it takes, a recap included, and what is left of the time there is for teaching. */
  readonly least: number;
  readonly spare: number;
}
