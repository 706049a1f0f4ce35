import type { Range } from "./cue.js";
import type { Move } from "./routine.js";
import type { Risk } from "./vocabulary.js";

/** Word pairs of another language that are exchanged like left and right. */
export type WordPairs = readonly (readonly [string, string])[];

/** A word that was replaced, and by what. */
export interface Exchange extends Range {
  readonly text: string;
}

/** A left or right that stayed, or about which the rule is unsure, with a plain reason. */
export interface LeftAlone extends Range {
  readonly word: string;
  readonly reason: string;
}

export interface MirroredText {
  readonly text: string;
  /** In the order of the text. */
  readonly exchanges: readonly Exchange[];
  /** In the order of the text. Where the reason starts with "unsure:" the word was exchanged all the same. */
  readonly leftAlone: readonly LeftAlone[];
}

/** Something that a cue speaks of and that needs a key, which its move does not have. */
export interface MissingKey {
  /** As the cue has it. */
  readonly word: string;
  /** The key to write, in Markdown: "`risk: [jump]`". */
  readonly write: string;
  /** The risk that it asks about. */
  readonly risk?: Risk;
}

/** A clause of a cue that names a side which the move's keys contradict. */
export interface Contradiction {
  readonly clause: string;
  /** What speaks against it, in Markdown: "`step` is right". */
  readonly against: string;
}

/** What can be told from the words of a cue alone. Each language in which cues are written has its own. */
export interface CueLanguage {
  /**
   * A text on the other side.
   *
   * @param options.keep stretches in which nothing is exchanged and nothing reported
   * @param options.pairs words of further languages, exchanged both ways
   */
  readonly mirror: (
    text: string,
    options?: { readonly keep?: readonly Range[]; readonly pairs?: WordPairs },
  ) => MirroredText;
  readonly missingKeys: (move: Move) => readonly MissingKey[];
  /** Where a cue speaks of coming from a risk as from something that was just done, the words that do: "from the floor". */
  readonly afterRisk: (text: string, risk: Risk) => string | undefined;
  /** @param mirrored the cue on the other side, which tells the words that name a side for certain */
  readonly contradiction: (move: Move, mirrored: MirroredText) => Contradiction | undefined;
}
