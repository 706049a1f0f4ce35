import type { Cue, Mark, Range } from "./cue.js";
import { type Exchange, type MirroredText, mirrorWords } from "./mirror-words.js";

/** Word pairs of another language that are exchanged like left and right. */
export type WordPairs = readonly (readonly [string, string])[];

/** What is never exchanged in a cue: words that stood in backticks, and addresses that stand for themselves. */
function kept(cue: Cue): readonly Range[] {
  return cue.marks.filter(
    ({ kind, from, to, href }) => kind === "fixed" || (kind === "link" && cue.text.slice(from, to) === href),
  );
}

/** The exchange of a cue's words, with what was left alone. */
export function mirroredWords(cue: Cue, pairs: WordPairs): MirroredText {
  return mirrorWords(cue.text, { keep: kept(cue), pairs });
}

/** A cue on the other side; its marks move with its words. */
export function mirrorCue(cue: Cue, pairs: WordPairs): Cue {
  const { text, exchanges } = mirroredWords(cue, pairs);
  if (exchanges.length === 0) return cue;
  return { text, marks: cue.marks.map((mark): Mark => ({ ...mark, ...moved(mark, exchanges) })) };
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
