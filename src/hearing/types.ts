import type { Facing, Foot, Height, Risk, Weight } from "../routine/vocabulary.js";

/** A word that was said. Times are in seconds from the start of the recording. */
export interface Word {
  /** As the captions have it, without what stands around it. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
  /** A sentence, or a line of the captions, begins with it. */
  readonly begins: boolean;
}

/** How closely the captions say when a word was said. */
export type Timing = "words" | "lines" | "none";

/** What was said, in order. */
export interface Recording {
  readonly timing: Timing;
  readonly words: readonly Word[];
  /** Seconds; where the last word ends. */
  readonly length: number;
}

/** Why captions can't be listened to; where in them, from 1. */
export interface NotHeard {
  readonly why: "empty" | "too-big" | "too-long" | "binary" | "encoding" | "no-captions" | "backwards" | "no-counts";
  readonly line: number;
  readonly column: number;
}

/** How far something is to be believed: most runs agree or a sentence says so; likely; heard once, or only told. */
export type Trust = "sure" | "likely" | "once";

/** A place in the recording, with what was said there. */
export interface Said {
  readonly at: number;
  readonly text: string;
}

/** One counting through some of the routine, however short. */
export interface Run {
  readonly start: number;
  readonly end: number;
  /** What it dances, in order: phrases of the draft, from 0 across all sections. */
  readonly phrases: readonly number[];
  /** Counts a minute, where it can be told. */
  readonly countsPerMinute?: number;
}

/** Where one run has a cue: the count as a routine file writes it. */
export interface Landing {
  readonly run: number;
  readonly on: string;
  readonly at: number;
}

export interface DraftMove {
  /** As a routine file writes it: "3", "5-6", "7&". */
  readonly on: string;
  /** What is done, in her words. */
  readonly cue: string;
  /** What is called on it, where that is another word than what is done. */
  readonly say?: string;
  readonly trust: Trust;
  /** Runs that have it on these counts, of those that dance the phrase. */
  readonly runs: number;
  readonly of: number;
  /** Where else it was heard, the most frequent first. */
  readonly elsewhere: readonly Landing[];
  /** She said herself that she is not sure of it. */
  readonly unsure: readonly Said[];
  /** A sentence says that this count lands hard. */
  readonly hit?: Said;
}

/** Something told in a sentence and tied to counts, which no run shows. */
export interface Told {
  readonly kind: "easier" | "harder" | "side" | "turn" | "risk" | "facing" | "weight" | "styling" | "other";
  readonly said: Said;
  /** The count that it was tied to, where it was. */
  readonly on?: string;
  readonly risks?: readonly Risk[];
}

/** What one run called on the counts of a phrase. */
export interface DraftRow {
  readonly run: number;
  /** When its first count in the phrase was called. */
  readonly at: number;
  /** Its cues in order, each with the count that it was laid on and when it was called. */
  readonly cells: readonly { readonly on: string; readonly text: string; readonly at: number }[];
}

export interface DraftPhrase {
  /** Counts, where they are not those of every phrase. */
  readonly length?: number;
  /** When it was called, a run each. */
  readonly calledAt: readonly number[];
  /** In the order of their counts. */
  readonly moves: readonly DraftMove[];
  readonly told: readonly Told[];
  /** The runs that dance it, in the order of the recording. */
  readonly rows?: readonly DraftRow[];
  /** The dancers' own. */
  readonly improvised?: boolean;
}

export interface DraftSection {
  /** In her words, where she names it. */
  readonly name?: string;
  /** Where it begins to be taught. */
  readonly taughtAt: number;
  readonly phrases: readonly DraftPhrase[];
}

export interface DraftGear {
  readonly item: string;
  readonly need: "required" | "optional";
  readonly said: Said;
}

/** What listening makes of a recording: facts, guesses and what was only told, apart. */
export interface Draft {
  /** Counts in a phrase. */
  readonly phrase: number;
  /** Counts called before the first one. */
  readonly countIn?: number;
  /** Of the fastest run of the whole, or of the longest one. */
  readonly tempo?: { readonly countsPerMinute: number; readonly at: number };
  readonly start: {
    readonly facing?: { readonly value: Facing; readonly said: Said };
    readonly weight?: { readonly value: Weight | Foot; readonly said: Said };
    readonly height?: { readonly value: Height; readonly said: Said };
  };
  readonly gear: readonly DraftGear[];
  /** Counts of the phrase that land hardest, as a sentence says. */
  readonly accents: { readonly counts: readonly number[]; readonly said?: Said };
  /** In the order danced, that of the longest run. */
  readonly sections: readonly DraftSection[];
  readonly runs: readonly Run[];
  /** What was told and could be tied to no phrase: where the song is, that a video is mirrored, credit. */
  readonly told: readonly Told[];
  /** Why nothing in it is to be taken as sure; absent where something is. */
  readonly distrust?: "few-counts" | "no-word-times";
  /** Length of the recording in seconds. */
  readonly length: number;
}
