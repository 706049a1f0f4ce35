import type { Cue, Mark, Range } from "./cue.js";
import type { Exchange, MirroredText, WordPairs } from "./cue-language.js";
import { english } from "./english/english.js";

/** What is never exchanged in a cue: words that stood in backticks, and addresses that stand for themselves. */
function unexchanged(cue: Cue): readonly Range[] {
  return cue.marks.filter(
    ({ kind, from, to, href }) => kind === "fixed" || (kind === "link" && cue.text.slice(from, to) === href),
  );
}

interface Mirrored {
  readonly pairs: WordPairs;
  readonly words: MirroredText;
  readonly cue: Cue;
}

/* A routine dances over its cues again and again, in every version; each is looked at once. */
const known = new WeakMap<Cue, Mirrored>();

function mirrored(cue: Cue, pairs: WordPairs): Mirrored {
  const before = known.get(cue);
  if (before?.pairs === pairs) return before;
  const words = english.mirror(cue.text, { keep: unexchanged(cue), pairs });
  const { text, exchanges } = words;
  const marks = cue.marks.map((mark): Mark => ({ ...mark, ...moved(mark, exchanges) }));
  const found = { pairs, words, cue: exchanges.length === 0 ? cue : { text, marks } };
  known.set(cue, found);
  return found;
}

/** The exchange of a cue's words, with what was left alone. */
export function mirroredWords(cue: Cue, pairs: WordPairs): MirroredText {
  return mirrored(cue, pairs).words;
}

/** A cue on the other side; its marks move with its words. */
export function mirrorCue(cue: Cue, pairs: WordPairs): Cue {
  return mirrored(cue, pairs).cue;
}

/** How a move's words are put on the other side: what dancers improvise has none, so its words stay. */
export function otherWords({ improvised }: { readonly improvised: boolean }, pairs: WordPairs): (cue: Cue) => Cue {
  return improvised ? (cue) => cue : (cue) => mirrorCue(cue, pairs);
}

/** A range after the exchanges; an edge inside an exchanged word goes to that word's edge. */
function moved(range: Range, exchanges: readonly Exchange[]): Range {
  return { from: movedEdge(range.from, exchanges, "from"), to: movedEdge(range.to, exchanges, "to") };
}

function movedEdge(edge: number, exchanges: readonly Exchange[], side: "from" | "to"): number {
  let shift = 0;
  for (const { from, to, text } of exchanges) {
    if (to <= edge) shift += text.length - (to - from);
    else if (from < edge) return side === "from" ? from + shift : from + shift + text.length;
  }
  return edge + shift;
}
