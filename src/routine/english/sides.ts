import type { Contradiction, MirroredText } from "../cue-language.js";
import type { Move } from "../routine.js";
import { turnText } from "../stance.js";
import type { Foot } from "../vocabulary.js";

/** The first clause of an English cue whose side the move's `step`, `turn` or `travel` contradicts. */
export function contradiction(move: Move, mirrored: MirroredText): Contradiction | undefined {
  for (const clause of clausesOf(move.cue.text, mirrored)) {
    const clash = against(clause, move);
    if (clash !== undefined) return { clause: clause.text.trim(), against: clash };
  }
  return undefined;
}

const turning = /\b(turn\w*|spin\w*|pivot\w*|rotat\w*|swivel\w*|spiral\w*)\b/i;
const stepping = /\b(step(?!-)\w*|walk\w*|march\w*|stomp\w*|lunge\w*|onto)\b/i;
const travelling = /\b(travel\w*|slid\w*|walk\w*|run\w*|shuffle\w*|grapevine|chass\w*)\b/i;
/** "turn onto the right foot" names a foot, not the way of the turn. */
const otherThing = /\b(on|onto|over|off|with|foot|hand|step\w*)\b/i;

interface Sided {
  readonly side: Foot;
  /** Where the word stands in the clause. */
  readonly at: number;
}

interface Clause {
  readonly text: string;
  readonly sides: readonly Sided[];
}

/** What in the move speaks against a clause, in words. */
function against({ text, sides }: Clause, move: Move): string | undefined {
  const turn = turning.exec(text);
  if (turn !== null) {
    const way = wayOf(text, turn.index, sides);
    const clash = way !== undefined && move.turn !== 0 && (move.turn < 0 ? "left" : "right") !== way;
    return clash ? `\`turn\` is ${turnText(move.turn)}` : undefined;
  }
  const [{ side } = { side: undefined }] = sides;
  if (side === undefined || sides.some((other) => other.side !== side)) return undefined;
  if (stepping.test(text) && move.steps.length > 0 && !move.steps.includes(side))
    return `\`step\` is ${[...new Set(move.steps)].join(", ")}`;
  const sideways = move.travel.filter(({ way }) => way === "left" || way === "right");
  if (travelling.test(text) && sideways.length > 0 && !sideways.some(({ way }) => way === side))
    return `\`travel\` goes ${sideways.map(({ way }) => way).join(", ")}`;
  return undefined;
}

/** The way of a turn that a clause speaks of at `turn`: the first side after it, or the one just before ("a left turn"). */
function wayOf(text: string, turn: number, sides: readonly Sided[]): Foot | undefined {
  const after = sides.find(({ at }) => at > turn);
  if (after !== undefined && !otherThing.test(text.slice(turn, after.at))) return after.side;
  const before = sides.findLast(({ at }) => at < turn);
  return before !== undefined && /^\S+(\s+[\w/½¼¾]+)?\s+$/.test(text.slice(before.at, turn)) ? before.side : undefined;
}

/**
 * The clauses of a cue with the sides that they name. Which words are sides is what the mirror says: only what it exchanges
 * for certain, never a "right away".
 */
function clausesOf(text: string, { exchanges, leftAlone }: MirroredText): readonly Clause[] {
  const sure = exchanges.filter(({ from }) => !leftAlone.some((word) => word.from === from));
  let from = 0;
  return text.split(/(?<=[,;:.!?—–]|\band\b|\bthen\b|\bwhile\b|\bwith\b)/i).map((clause) => {
    const [start, end] = [from, from + clause.length];
    from = end;
    const sides = sure.flatMap((word) =>
      word.from >= start && word.to <= end
        ? sideOf(text.slice(word.from, word.to)).map((side) => ({ side, at: word.from - start }))
        : [],
    );
    return { text: clause, sides };
  });
}

function sideOf(word: string): readonly Foot[] {
  if (/^left/i.test(word)) return ["left"];
  return /^right/i.test(word) ? ["right"] : [];
}
