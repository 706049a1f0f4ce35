import type Fraction from "fraction.js";
import type { Cue } from "./cue.js";
import type { Place } from "./problem.js";
import type {
  Audience,
  Contact,
  Facing,
  Feel,
  Foot,
  Height,
  MirroredBy,
  Risk,
  TempoTime,
  TravelWay,
  Weight,
} from "./vocabulary.js";

/** What a routine is called, who made it and for whom. */
export interface About {
  /** The file's name, without its ending. */
  readonly slug: string;
  readonly title: string;
  readonly choreographer: string;
  /** ISO 8601 calendar date. */
  readonly date?: string;
  readonly styles: readonly string[];
  readonly audience: Audience;
  readonly summary?: string;
  readonly credit?: string;
  /** Not to be published yet. */
  readonly draft: boolean;
  /** Slugs that it had before. */
  readonly formerly: readonly string[];
}

/**
 * A routine as its author wrote it, each value checked on its own, nothing computed yet. Counts are still the texts that
 * stand in the file ("1-3", "3&"), since what they mean depends on the phrase and the feel around them.
 */
export interface WrittenRoutine extends About {
  readonly place: Place;
  /** What the author is not sure of yet. */
  readonly doubt?: string;
  readonly music: WrittenMusic;
  readonly video: Video;
  readonly start: WrittenStart;
  /** Easiest first, at least one. */
  readonly levels: readonly string[];
  readonly taught: string;
  readonly adaptations: readonly WrittenAdaptation[];
  readonly gear: readonly WrittenGear[];
  /** Dancers who dance different counts at once, the first first; empty where all dance the same. */
  readonly groups: readonly WrittenGroup[];
  /** Number of directions that the routine starts in. */
  readonly walls: number;
  /** How many times it is danced through. */
  readonly times: number;
  readonly restarts: readonly WrittenRestart[];
  readonly sections: readonly WrittenSection[];
  readonly prose: Prose;
}

/** Body texts, as Markdown. */
export interface Prose {
  readonly introduction: string;
  /** Teaching notes by section name. */
  readonly notes: readonly { readonly section: string; readonly markdown: string }[];
  /** Everything under other headings, headings included, in the order of the file. */
  readonly after: string;
}

export interface WrittenMusic {
  readonly place: Place;
  readonly title?: string;
  readonly artist?: string;
  readonly link?: string;
  /** Counts a minute. */
  readonly tempo: Fraction;
  /** True of a tempo that nobody has measured. */
  readonly tempoIsEstimate: boolean;
  /** Seconds into the track; absent where the author gave none. */
  readonly firstCount?: Fraction;
  readonly phrase: number;
  readonly accents: readonly number[];
  /** Counts of a phrase on which nothing is danced, as a habit. */
  readonly pauses: readonly number[];
  /** Counts before the first; absent where the author gave none. */
  readonly countIn?: number;
  readonly feel: Feel;
}

export interface Chapter {
  readonly place: Place;
  /** Seconds into the video. */
  readonly at: Fraction;
  readonly title: string;
}

export interface Video {
  readonly performance?: string;
  readonly breakdown?: string;
  /** The breakdown's mirrored film. */
  readonly mirrored?: { readonly address: string; readonly by: MirroredBy };
  /** Seconds. */
  readonly length?: Fraction;
  readonly chapters: readonly Chapter[];
}

/** Part of a stance; what is absent is taken from what it stands on. */
export interface PartialStance {
  readonly facing?: Facing;
  readonly weight?: Weight;
  readonly height?: Height;
}

export interface WrittenStart extends PartialStance {
  readonly place: Place;
  readonly versions: readonly (PartialStance & { readonly version: string; readonly place: Place })[];
}

export interface WrittenAdaptation {
  readonly place: Place;
  readonly name: string;
  /** The level it falls back to; absent: the taught one. */
  readonly from?: string;
}

export interface WrittenGear {
  readonly place: Place;
  readonly item: string;
  readonly need: "required" | "optional";
  readonly why?: string;
  /** Only these versions need it; absent: all. */
  readonly for?: readonly string[];
}

/** Dancers who dance together: half the room, a partner. */
export interface WrittenGroup extends PartialStance {
  readonly place: Place;
  readonly name: string;
  /** Dances everything on the other side. */
  readonly mirrored: boolean;
}

export interface WrittenRestart {
  readonly place: Place;
  /** Which time through is broken off, from 1. */
  readonly wall: number;
  /** After how many counts of it. */
  readonly after: number;
}

export interface WrittenSection {
  readonly place: Place;
  readonly name: string;
  readonly words?: string;
  /** Absent where `sameAs` or `seconds` is given. */
  readonly counts?: readonly WrittenPhrase[];
  /** In place of counts: how long it lasts. */
  readonly seconds?: Fraction;
  readonly sameAs?: string;
  /** Phrases of the other section that are replaced, by their number from 1. */
  readonly change: readonly { readonly phrase: number; readonly place: Place; readonly by: WrittenPhrase }[];
  /** Groups that dance the same counts, this many counts later; absent: as the section that it is the same as. */
  readonly canon?: readonly { readonly place: Place; readonly group: string; readonly after: number }[];
  /** Groups with counts of their own; absent: as the section that it is the same as. */
  readonly parts?: readonly {
    readonly place: Place;
    readonly group: string;
    readonly counts: readonly WrittenPhrase[];
  }[];
  readonly mirrored: "never" | "always" | "alternate";
  readonly repeat: number;
  /** All of it is the dancers' own. */
  readonly improvised: boolean;
  /** Only on these times through; absent: on all. */
  readonly onWalls?: readonly number[];
  /** Track times, in seconds, of its first count: for a time through, or (no `time`) the first time it is danced. */
  readonly at: readonly { readonly place: Place; readonly time?: number; readonly seconds: Fraction }[];
  /** Counts a minute; absent: as the section that it is the same as, or the music. */
  readonly tempo?: Fraction;
  /** Given with `tempo`. */
  readonly tempoIsEstimate?: boolean;
  /** What is done to the tempo; absent: as the section that it is the same as. */
  readonly time?: TempoTime;
  readonly feel?: Feel;
  /** What the author is not sure of yet. */
  readonly doubt?: string;
}

export interface WrittenPhrase {
  readonly place: Place;
  readonly length?: number;
  /** The number of its first count. */
  readonly from?: number;
  /** How its counts are divided; absent: as its section. */
  readonly feel?: Feel;
  /** What is called on its counts. */
  readonly say?: readonly string[];
  readonly moves: readonly WrittenMove[];
  /** A version's whole other phrase. */
  readonly options: readonly WrittenOption[];
}

/** Another way to fill the same counts, for a version (and, on the ladder of levels, those beyond it). */
export interface WrittenOption {
  readonly place: Place;
  readonly version: string;
  /** One move without `on` takes the place of the plain one; moves with `on` divide the counts between them. */
  readonly moves: readonly WrittenMove[];
}

export interface Travel {
  readonly way: TravelWay;
  readonly steps: number;
}

/** What is called on a move in place of its counts; no calls at all: nothing is. */
export interface WrittenSay {
  readonly calls: readonly Cue[];
  /** One a point of its counts, else one in all. */
  readonly each: boolean;
}

export interface WrittenMove {
  readonly place: Place;
  /** The counts as written, "1-3" or "1,3,5"; absent where an option fills the counts of the plain move. */
  readonly on?: string;
  readonly cue: Cue;
  readonly hold: boolean;
  readonly say?: WrittenSay;
  /** What the author is not sure of yet. */
  readonly doubt?: string;
  /** Feet in the order in which they take the weight. */
  readonly steps: readonly Foot[];
  readonly weight?: Weight;
  /** Eighths of a turn, to the right (clockwise from above) positive. */
  readonly turn?: number;
  readonly facing?: Facing;
  readonly height?: Height;
  readonly through?: Height;
  /** In the order written. */
  readonly travel: readonly Travel[];
  readonly hit: boolean;
  /** The dancers' own: nobody checks its feet or mirrors its words, and where its weight ends is open. */
  readonly improvised: boolean;
  readonly contacts: readonly Contact[];
  /** Absent where the author says nothing of them; an empty list says that there are none. */
  readonly risks?: readonly Risk[];
  readonly gear: readonly string[];
  readonly words?: string;
  readonly choose: readonly Cue[];
  readonly note?: Cue;
  /** Length in counts, in place of the span's end. */
  readonly lasts?: Fraction;
  readonly options: readonly WrittenOption[];
  /** Rules that the author silenced for this move. */
  readonly allow: readonly string[];
}
