/** What a routine's file says of where its song is. */
export interface SongKeys {
  /** Whether `first-count` stands under `music`. */
  readonly saysFirstCount: boolean;
  /** In the file's order. */
  readonly sections: readonly SongSection[];
}

/** What a section of the file says of its place in the track and its tempo. */
export interface SongSection {
  readonly name: string;
  /** Seconds from the start of the track, each for a time through, or (no `through`) for the first time it is danced. */
  readonly at: readonly { readonly through?: number; readonly seconds: number }[];
  /** Counts a minute, where it has a tempo of its own. */
  readonly countsPerMinute?: number;
  /** Which section of the file, from 0, it takes its tempo from where it has none of its own; the music's where absent. */
  readonly sameAs?: number;
  /** What its tempo is multiplied by: half and double time. */
  readonly factor: number;
}
