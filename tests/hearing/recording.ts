import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** What a phrase dances: counts as a routine file writes them, with the words most used for what is done on them. */
export interface TruthPhrase {
  /** Counts, where they are not those of every phrase. */
  readonly length?: number;
  /** The dancers' own. */
  readonly improvised?: boolean;
  readonly [count: string]: string | number | boolean | undefined;
}

export interface TruthSection {
  readonly name: string | null;
  /** Seconds. */
  readonly taughtAt: number;
  readonly phrases: readonly TruthPhrase[];
}

/** A cue that was heard on several counts of a phrase, which counts from 0 in its section. */
export interface Dispute {
  readonly section: number;
  readonly phrase: number;
  readonly cue: string;
  readonly counts: readonly string[];
}

/** What a recording of an invented class shows, written before it was said. */
export interface Truth {
  readonly title: string;
  readonly phrase: number;
  /** In the order danced. */
  readonly sections: readonly TruthSection[];
  /** Counted stretches, however long. */
  readonly runs: number;
  /** Counts a minute of the fastest whole run. */
  readonly tempo: number | null;
  readonly gear: readonly { readonly item: string; readonly need: "required" | "optional" }[];
  readonly accents: readonly number[];
  /** What she says of it, and no more. */
  readonly start: { readonly facing?: string; readonly weight?: string };
  /** Other words for a cue, those called by sound or by the song among them. */
  readonly synonyms?: { readonly [cue: string]: readonly string[] };
  /** Where her runs disagree, or she doubts aloud. */
  readonly disputed: readonly Dispute[];
  /** Where a single run says otherwise than all the others: a doubt may be had of it, none is asked for. */
  readonly slips?: readonly Dispute[];
  /** Told in a sentence, shown by no run. */
  readonly told: readonly {
    readonly section: number;
    readonly phrase: number;
    readonly count: string;
    readonly kind: string;
    readonly text: string;
  }[];
}

/** Caption files of four kinds. */
export type Kind = "vtt-lines" | "vtt-words" | "srt" | "text";

/**
 * Start, end (seconds), and the words as a recogniser has them. They are spread between start and end by their letters; a word
 * may carry its own time ("clap@101.2"), and those after it are spread from there.
 */
export type Utterance = readonly [number, number, string];

export interface Taught {
  readonly name: string;
  readonly style: string;
  readonly captions: Kind;
  readonly truth: Truth;
  readonly said: readonly Utterance[];
}

/** Every recording of a folder, by name. */
export function recordingsIn(folder: string): readonly Taught[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith(".json"))
    .sort()
    .map((file) => JSON.parse(readFileSync(join(folder, file), "utf8")) as Taught);
}
