import type { SongSection } from "../../reading/song-keys.js";
import type { ChangedLine } from "../../reading/song-lines.js";

/** What the song desk needs to know, as it stands in its page. */
export interface DeskData {
  /** BCP 47 tag of what it says. */
  readonly language: string;
  /** A header that it sends along and what stands in it, which let it write; absent where nothing may be written. */
  readonly run?: { readonly header: string; readonly token: string };
  /** The routine whose song it is about; absent where none was chosen. */
  readonly routine?: DeskRoutine;
}

export interface DeskRoutine {
  readonly slug: string;
  readonly title: string;
  /** Of the file that this was made from. */
  readonly key: string;
  readonly music: {
    readonly countsPerMinute: number;
    readonly tempoIsEstimate: boolean;
    /** Seconds from the start of the track; absent where the file leads to none. */
    readonly firstCount?: number;
    /** Whether it stands under `music` itself. */
    readonly saysFirstCount: boolean;
    /** Count numbers that land hardest. */
    readonly accents: readonly number[];
  };
  /** In the file's order. */
  readonly written: readonly SongSection[];
  /** In danced order. */
  readonly danced: readonly DeskSection[];
}

/** A section as it is danced. */
export interface DeskSection {
  /** Which section of the file, from 0. */
  readonly written: number;
  /** Which time through, and which of its repeats, from 1. */
  readonly wall: number;
  readonly pass: number;
  /** What is counted in it, one a count; nothing in time without counts, which lasts `seconds`. */
  readonly numbers: readonly number[];
  readonly seconds?: number;
}

/** What is answered to a question about a routine's lines, as JSON. */
export type SongAnswer =
  | {
      /** Of the file that lies there now. */
      readonly key: string;
      /** What is to be written, or was. */
      readonly lines: readonly ChangedLine[];
    }
  | {
      /** Why it is not written, in a sentence that says what to do. */
      readonly refused: string;
      /** What would be wrong in the file. */
      readonly findings?: readonly { readonly line: number; readonly message: string }[];
    };
