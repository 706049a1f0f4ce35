import type Fraction from "fraction.js";
import type { Cue } from "./cue.js";
import type { Doubt } from "./doubts.js";
import type { Place } from "./problem.js";
import type { TeachingSettings } from "./teaching-settings.js";
import type { Contact, Facing, Feel, Foot, HandoutKind, Height, Risk, Weight } from "./vocabulary.js";
import type { About, Prose, Travel, Video } from "./written.js";

/**
 * A whole routine, computed: everything that is published is drawn from this and from nothing else. Counts and seconds are
 * exact fractions; they are rounded only where they are written.
 */
export interface Routine extends About {
  readonly music: Music;
  readonly video: Video;
  /** True of the routine reflected about the room's front-back line. */
  readonly mirrored: boolean;
  /** Word pairs, beside the English ones, that change places when it is reflected. */
  readonly mirrorWords: readonly (readonly [string, string])[];
  readonly levels: readonly string[];
  readonly taught: string;
  /** Names of the groups that dance different counts at once, the first first; empty where all dance the same. */
  readonly groups: readonly string[];
  /** Number of directions it starts in. */
  readonly walls: number;
  /** Times it is danced through in one run. */
  readonly times: number;
  /** Times through that break off after so many counts. */
  readonly restarts: readonly { readonly wall: number; readonly after: number }[];
  /** Counts in one run. */
  readonly counts: number;
  /** From the first count to the end of the last, on the track's clock. */
  readonly seconds: Fraction;
  /** True where that follows from a tempo that nobody has measured. */
  readonly secondsAreEstimate: boolean;
  /** As danced: wall by wall, section by section, pass by pass. They tile the counts. */
  readonly sections: readonly DancedSection[];
  /** Levels, easiest first, then adaptations. */
  readonly versions: readonly Version[];
  readonly practice: readonly PracticeSpeed[];
  readonly prose: Prose;
  /** What its author is not sure of yet; nothing that is published speaks of it. */
  readonly doubts: readonly Doubt[];
}

export interface Music {
  readonly title?: string;
  readonly artist?: string;
  readonly link?: string;
  readonly countsPerMinute: Fraction;
  /** True of a tempo that nobody has measured. */
  readonly tempoIsEstimate: boolean;
  /** Counts in a phrase. */
  readonly phrase: number;
  /** Count numbers that land hardest. */
  readonly accents: readonly number[];
  /** Count numbers on which nothing is danced, as a habit. */
  readonly pauses: readonly number[];
  /** Where the routine's first count falls, in seconds from the start of the track; absent where nobody said it. */
  readonly firstCount?: Fraction;
  readonly countIn: number;
  readonly feel: Feel;
}

/** One pass of a section, as danced. */
export interface DancedSection {
  readonly name: string;
  readonly words?: string;
  /** The section whose counts it dances, where it says so. */
  readonly sameAs?: string;
  readonly place: Place;
  /** Which section of the file, from 0. */
  readonly written: number;
  /** Which time through, from 1. */
  readonly wall: number;
  /** Which of its repeats, from 1. */
  readonly pass: number;
  readonly mirrored: boolean;
  /** Danced on some times through only. */
  readonly tag: boolean;
  /** Of time without counts: how long it lasts. Then it has no counts and no phrases. */
  readonly seconds?: Fraction;
  readonly counts: number;
  /** First count, in counts from the routine's first. */
  readonly at: number;
  /** Seconds from the routine's first count; negative of time without counts before that. */
  readonly start: Fraction;
  /** Where its last count ends on the clock; before the next section's start where the dancers wait for the track. */
  readonly end: Fraction;
  /** True where its start follows from a tempo that nobody has measured. */
  readonly startIsEstimate: boolean;
  readonly countsPerMinute: Fraction;
  readonly tempoIsEstimate: boolean;
  readonly feel: Feel;
  /** All of it is the dancers' own. */
  readonly improvised: boolean;
  readonly phrases: readonly DancedPhrase[];
  /** Groups that dance the same counts later, and by how many counts. */
  readonly canon: readonly { readonly group: string; readonly after: number }[];
  /** Groups that dance counts of their own. */
  readonly parts: readonly string[];
}

export interface DancedPhrase {
  readonly place: Place;
  /** From 1 within the section. */
  readonly number: number;
  /** First count, in counts from the routine's first. */
  readonly at: number;
  /** The numbers that are counted, one a count: [1, 2, … 8], or [7, 8] for a pick-up. */
  readonly numbers: readonly number[];
  /** How its counts are divided. */
  readonly feel: Feel;
  /** What is called in place of the numbers, one a count as far as it goes; an empty text where nothing is. */
  readonly say?: readonly string[];
  /** Only groups in canon still dance here, while the others stand. */
  readonly echo: boolean;
}

export interface Stance {
  readonly facing: Facing;
  /** Not known after what the dancers improvise, until a move says where it is. */
  readonly weight: Weight | undefined;
  readonly height: Height;
}

export interface Version {
  readonly id: string;
  readonly kind: "level" | "adaptation";
  /** Of an adaptation: the level whose moves it dances where it has none of its own. */
  readonly from?: string;
  readonly gear: readonly GearItem[];
  readonly cautions: readonly Risk[];
  /** Contacts in one run, by part of the body. */
  readonly load: Readonly<Partial<Record<Contact, number>>>;
  /** Metres travelled over; absent where no move travels, so that nothing is known. */
  readonly space: { readonly width: number; readonly depth: number } | undefined;
  readonly start: Stance;
  readonly end: Stance;
  /** In order; written holds included, holds that nobody wrote left out. Where there are groups: of the first. */
  readonly moves: readonly Move[];
  /** The groups after the first. */
  readonly groups: readonly Group[];
}

/** What one group dances in a version. */
export interface Group {
  readonly name: string;
  readonly load: Version["load"];
  readonly space: Version["space"];
  readonly start: Stance;
  readonly end: Stance;
  readonly moves: readonly Move[];
}

export interface GearItem {
  readonly item: string;
  readonly need: "required" | "optional";
  readonly why?: string;
}

export interface Move {
  /** Where it was written. */
  readonly place: Place;
  /** Index of its section in the routine's list. */
  readonly section: number;
  /** From 1 within the section. */
  readonly phrase: number;
  /** The counts as written: "1-3", "7-2". */
  readonly on: string;
  /** In counts from the routine's first count. */
  readonly at: Fraction;
  /** In counts. */
  readonly length: Fraction;
  /** Seconds from the routine's first count. */
  readonly start: Fraction;
  /** Where it ends on the clock, same origin. */
  readonly end: Fraction;
  /** As danced: exchanged in a mirrored section. */
  readonly cue: Cue;
  /** The same on the other side. */
  readonly mirroredCue: Cue;
  /** What is called on it in place of the counts, in order; empty where nothing is called, absent where the counts are. */
  readonly say?: readonly Call[];
  readonly words?: string;
  readonly hold: boolean;
  readonly hit: boolean;
  /** The dancers' own. */
  readonly improvised: boolean;
  readonly before: Stance;
  readonly after: Stance;
  readonly through?: Height;
  readonly steps: readonly Foot[];
  /** Eighths of a turn, to the right positive; 0 without a turn. */
  readonly turn: number;
  readonly travel: readonly Travel[];
  readonly contacts: readonly Contact[];
  /** Named by the author and following from the move, in the order of the caution list (heels excepted: they are worn throughout). */
  readonly risks: readonly Risk[];
  /** Of its risks those that are said beside it: the named ones, and the others but where they only hold on from the move before. */
  readonly cautions: readonly Risk[];
  readonly gear: readonly string[];
  readonly choose: readonly Cue[];
  readonly note?: Cue;
  /** The version whose option this is; absent for a plain move. */
  readonly option?: string;
  /** What other versions dance on these counts (the taught level's own move included where this is an option). */
  readonly alternatives: readonly Alternative[];
  readonly allow: readonly string[];
}

export interface Call {
  /** In counts from the routine's first count. */
  readonly at: Fraction;
  /** Of no text where nothing is called. */
  readonly cue: Cue;
}

export interface Alternative {
  readonly version: string;
  /** In order. `on` is the span that was written; of a whole move, the plain move's. */
  readonly moves: readonly {
    /** Where it was written. */
    readonly place: Place;
    readonly on: string;
    readonly cue: Cue;
    readonly improvised: boolean;
    /** What its version says beside it, and what the move itself tells: weight on the knees, a full turn or upside down. */
    readonly risks: readonly Risk[];
  }[];
}

export interface PracticeSpeed {
  readonly percent: number;
  readonly countsPerMinute: Fraction;
  readonly tempoIsEstimate: boolean;
  /** One run, waits included. */
  readonly seconds: Fraction;
  readonly secondsAreEstimate: boolean;
}

/** What `library.yaml` says, with every default filled in. */
export interface Library {
  readonly name: string;
  readonly teacher?: string;
  /** Where the site is published, without a slash at the end. */
  readonly url?: string;
  /** BCP 47 language tag. */
  readonly language: string;
  readonly paper: "A4" | "Letter";
  readonly handouts: readonly HandoutKind[];
  readonly credit?: string;
  /** Per cent of the tempo. */
  readonly practiceSpeeds: readonly number[];
  /** Longest landing words, in words. */
  readonly wordsLimit: number;
  /** Metres a travelled step. */
  readonly stepLength: number;
  /** Characters in a video description. */
  readonly outlineLimit: number;
  readonly mirrorWords: readonly (readonly [string, string])[];
  /** House rules, Markdown. */
  readonly cautions?: string;
  readonly teaching: TeachingSettings;
}

/** A class or workshop, its routines looked up. */
export interface Workshop {
  readonly slug: string;
  readonly title: string;
  /** ISO 8601 calendar date. */
  readonly date?: string;
  readonly venue?: string;
  readonly minutes: number;
  /** A level, or an adaptation that the whole class dances. */
  readonly level: string;
  readonly routines: readonly Routine[];
  /** The time of day at which it begins, "18:30". */
  readonly starts?: string;
  /** Of these routines only these sections, by slug. */
  readonly sections?: Readonly<Record<string, readonly string[]>>;
  /** Sections that were danced before, by slug. */
  readonly known?: Readonly<Record<string, readonly string[]>>;
  /** Of a course: how many times it takes place. */
  readonly lessons?: number;
  /** ISO 8601 calendar dates, one a lesson. */
  readonly dates?: readonly string[];
  /** Minutes. */
  readonly warmUp: number;
  readonly coolDown: number;
  readonly breaks: number;
  /** Markdown. */
  readonly prose: string;
}
