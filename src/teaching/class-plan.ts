import type { Workshop } from "../routine/routine.js";
import type { DancedName, SectionName } from "../routine/sheet.js";
import type { TimesThrough } from "../routine/times-through.js";
import type { Risk } from "../routine/vocabulary.js";
import type { LimitOutcome } from "./ease.js";
import type { ActivityKind, DancedKind } from "./kinds.js";
import type { LevelLoads, Load } from "./load.js";
import type { DancedBefore, PieceEntry, SongCue } from "./material.js";
import type { ClassSettings } from "./settings.js";

/** A class, timed: plain data, values and no sentences. Times are whole seconds unless named otherwise, and go by whole minutes. */
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
  /** Seconds for questions. */
  readonly questions: number;
  readonly settings: ClassSettings;
}

/** Some minutes of a class, whole ones unless the library plans in smaller units. */
export interface Activity {
  readonly kind: ActivityKind;
  /** A slug, and its title; absent of what belongs to no routine. */
  readonly routine?: string;
  readonly title?: string;
  /** Of teaching: the id of the chunk that it is about. */
  readonly chunk?: string;
  readonly sections: readonly string[];
  /** Ids of the plan's chunks. */
  readonly chunks: readonly string[];
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
  /** What is done in it, one after the other. */
  readonly steps: readonly ActivityStep[];
}

export interface ActivityStep {
  readonly kind: DancedKind;
  readonly sections: readonly string[];
  /** Ids of the plan's chunks; empty of a show of the whole dance. */
  readonly chunks: readonly string[];
  /** Where it goes from the top of the routine only as far as the end of a section. */
  readonly until?: SectionEnd;
  /** With the song, where something between is left out: how many pieces of it are danced. */
  readonly pieces?: number;
  /** Which times through it dances, of a routine that has several. */
  readonly times?: readonly number[];
  /** With the song: where in it a piece begins that does not begin with the dance. */
  readonly cues?: readonly SongCue[];
  /** Of a recap: where it does not go on from what is danced before, and how its dancers stand there. */
  readonly entries?: readonly PieceEntry[];
  /** Explained before the song: how the times through differ. */
  readonly form?: TimesThrough;
  /** Hard moves that are taken on their own. */
  readonly moves?: readonly HardMove[];
  /** What is shown to those who dance another version. */
  readonly options?: readonly OptionCues[];
  /** Below full tempo: moves that are never slowed, and so are left out. */
  readonly without?: readonly UnslowedCue[];
  /** Per cent of the tempo. */
  readonly speed: number;
  /** At that speed; absent where the sections differ in tempo, or are without counts. */
  readonly countsPerMinute?: number;
  /** True of a tempo that nobody has measured; given with `countsPerMinute`. */
  readonly tempoIsEstimate?: boolean;
  /** Times that each dancer dances it; of a show, times that the teacher does. */
  readonly runs: number;
  /** Runs of these that are danced in the easiest option, for a limit's sake. */
  readonly easier?: { readonly version: string; readonly runs: number };
  /** Runs of these that leave out what is never slowed, for a limit's sake. */
  readonly spared?: number;
  /** Runs of these in which those who take a level above the class's dance as the class does, for a limit's sake. */
  readonly asTaught?: { readonly version: string; readonly runs: number };
  /** Of all its runs, as in its activity. */
  readonly load: Load;
  readonly easiest: Load;
  readonly groups?: readonly GroupLoad[];
  readonly cautions: readonly Risk[];
  readonly cautionGroups?: readonly GroupCaution[];
}

/** A move's cue and its counts. */
export interface CountedCue {
  readonly cue: string;
  /** Of its section, from 1. */
  readonly phrase: number;
  readonly on: string;
}

/** A move that is taken on its own, and whose it is where not everybody dances it. */
export interface HardMove extends CountedCue {
  readonly groups?: readonly string[];
  /** The level whose option it is. */
  readonly version?: string;
}

/** What the dancers of other versions dance in place of the class's moves. */
export interface OptionCues {
  /** Those who dance the same. */
  readonly versions: readonly string[];
  readonly groups?: readonly string[];
  /** Absent where so much is another that it is danced as a whole. */
  readonly moves?: readonly CountedCue[];
  readonly cautions: readonly Risk[];
}

/** A move that is never slowed, and what is danced in its place: its easier option, or the way in and the way out. */
export interface UnslowedCue extends HardMove {
  readonly instead: readonly string[];
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

export interface PlannedRoutine {
  readonly slug: string;
  readonly title: string;
  /** The version that is taught, and the easiest. */
  readonly version: string;
  readonly easiest: string;
  /** Counts of a phrase on which nothing is danced, as a habit. */
  readonly pauses?: readonly number[];
  /** True where it is an adaptation: the whole class dances that. */
  readonly adaptation?: true;
  /** Sections that are recalled, and those that are no part of this class. */
  readonly recalled?: readonly string[];
  readonly leftOut?: readonly string[];
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
  /** The section that it was danced in before, where the class knows it already, on this side or the other. */
  readonly before?: DancedBefore;
  /** What is called in it, in order: the moves, with their own calls where they have some. */
  readonly calls: readonly CalledMove[];
  /** Of time without counts 0 counts; at full tempo, to the millisecond. */
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
  /** Danced before, and gone through again. */
  readonly recalled?: true;
  /** Times that a dancer dances it in this class, and how many of those at full tempo. */
  readonly runs: number;
  readonly fullTempoRuns: number;
}

/** A move as it is called: on its counts, its cue, or in place of that what its author calls. */
export interface CalledMove extends CountedCue {
  /** How many counts it lasts, to the thousandth. */
  readonly length: number;
  readonly say?: readonly string[];
  readonly groups?: readonly string[];
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
