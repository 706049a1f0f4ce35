import { mirroredWords } from "../mirror-cue.js";
import type { Move } from "../routine.js";
import { turnText } from "../stance.js";
import type { Foot } from "../words.js";
import { counts, perMove, type Rule } from "./rule.js";

export const leftRight: Rule = {
  name: "left-right",
  severity: "warning",
  why: "A cue that says left where `step`, `turn` or `travel` says right teaches one side and computes the other: the weight, the facing and the mirrored version then come out wrong.",
  good: counts("1-4: { do: Step left and sink, step: left }\n5-8: { do: Quarter turn to the right, turn: 1/4 right }"),
  bad: counts("1-4: { do: Step left and sink, step: right }\n5-8: { do: Quarter turn to the right, turn: 1/4 right }"),
  find: (scene) =>
    perMove(scene, (move) => {
      for (const { text, side } of sidedClauses(move, scene.library.mirrorWords)) {
        const clash = against(text, side, move);
        if (clash !== undefined)
          return `the cue says "${text.trim()}", but ${clash}; correct whichever of the two is wrong`;
      }
      return undefined;
    }),
};

const turning = /\b(turn\w*|spin\w*|pivot\w*|rotat\w*|swivel\w*|spiral\w*)\b/i;
const stepping = /\b(step(?!-)\w*|walk\w*|march\w*|stomp\w*|lunge\w*|onto)\b/i;
const travelling = /\b(travel\w*|slid\w*|walk\w*|run\w*|shuffle\w*|grapevine|chass\w*)\b/i;

/** What in the move speaks against a clause that names one side, in words. */
function against(text: string, side: Foot, move: Move): string | undefined {
  const turns = turning.test(text);
  if (turns && move.turn !== 0 && (move.turn < 0 ? "left" : "right") !== side)
    return `\`turn\` is ${turnText(move.turn)}`;
  if (!turns && stepping.test(text) && move.steps.length > 0 && !move.steps.includes(side))
    return `\`step\` is ${[...new Set(move.steps)].join(", ")}`;
  const sideways = move.travel.filter(({ way }) => way === "left" || way === "right");
  if (!turns && travelling.test(text) && sideways.length > 0 && !sideways.some(({ way }) => way === side))
    return `\`travel\` goes ${sideways.map(({ way }) => way).join(", ")}`;
  return undefined;
}

/**
 * The clauses of a cue that name exactly one of the two sides. Which words are sides is what the mirror says: only what it
 * exchanges, never a "right away".
 */
function sidedClauses(move: Move, pairs: Parameters<typeof mirroredWords>[1]) {
  const { text } = move.cue;
  const { exchanges, leftAlone } = mirroredWords(move.cue, pairs);
  const sure = exchanges.filter(({ from }) => !leftAlone.some((word) => word.from === from));
  let from = 0;
  return text.split(/(?<=[,;:.!?—–]|\band\b|\bthen\b|\bwhile\b|\bwith\b)/i).flatMap((clause) => {
    const [start, end] = [from, from + clause.length];
    from = end;
    const sides = sure.flatMap((word) =>
      word.from >= start && word.to <= end ? sideOf(text.slice(word.from, word.to)) : [],
    );
    const [side] = sides;
    return side !== undefined && new Set(sides).size === 1 ? [{ text: clause, side }] : [];
  });
}

function sideOf(word: string): readonly Foot[] {
  if (/^left/i.test(word)) return ["left"];
  return /^right/i.test(word) ? ["right"] : [];
}
