import type { MissingKey } from "../cue-language.js";
import type { Move } from "../routine.js";
import type { Height } from "../vocabulary.js";

/** What a cue speaks of in English that its move has no key for. */
export function missingKeys(move: Move): readonly MissingKey[] {
  const { text } = move.cue;
  return hints.flatMap(({ says, unless, has, write }) => {
    if (!says.test(text) || has(move)) return [];
    const word = says.exec(text.replace(unless, " "))?.[0].trim();
    return word === undefined ? [] : [{ word, write }];
  });
}

const low: readonly Height[] = ["kneeling", "seated", "lying"];
const isInverted = (move: Move) =>
  move.after.height === "inverted" || move.through === "inverted" || move.risks.includes("inversion");
const limbs =
  "(?:arms?|elbows?|hands?|wrists?|fingers?|palms?|knees?|legs?|feet|foot|toes?|heels?|hips?|chest|chin|head|gaze|eyes|shoulders?|ribs?|ribcage|tailbone|pelvis|sternum|face|body|weight|hem|skirt|hat|chair|cane|scarf)";
const its = "(?:the |your |both |one |each |left |right |a |an |free |back |front |other |up |in |off |out )*";
const none = /(?!)/g;

/** What a cue may speak of, in which senses it is harmless, and which keys answer for it. Common practice, no source. */
const hints: readonly {
  readonly says: RegExp;
  readonly unless: RegExp;
  readonly has: (move: Move) => boolean;
  readonly write: string;
}[] = [
  {
    says: /\b(?:spin|spins|spinning|pirouettes?|twirls?)\b/i,
    unless: new RegExp(`\\b(?:spin|twirl)s? ${its}${limbs}`, "gi"),
    has: (move) => move.turn !== 0 || move.risks.includes("spin"),
    write: "`turn: 1 right` (or how far it goes) or `risk: [spin]`",
  },
  {
    says: /\b(?:turn|turns|turning|pivot|pivots)\b/i,
    unless: new RegExp(
      `\\bturn(?:s|ing|ed)?[ -](?:out|in|${its}${limbs}|to (?:look|face))\\b|\\bbefore the turn\\b|\\bno turn\\b`,
      "gi",
    ),
    has: (move) => move.turn !== 0 || move.before.facing !== move.after.facing || move.risks.includes("spin"),
    write: "`turn: 1/4 right` (or how far it goes)",
  },
  {
    says: /\b(?:head-?stands?|hand-?stands?|shoulder-?stands?|cart-?wheels?|upside down)\b/i,
    unless: none,
    has: isInverted,
    write: "`height: inverted`, or `through: inverted` where the move only passes it",
  },
  {
    says: /\b(?:drop|drops|dropping)\b/i,
    unless: new RegExp(`\\b${limbs}[ -]drops?\\b|\\bdrop(?:s|ping)? ${its}${limbs}\\b`, "gi"),
    has: (move) =>
      move.risks.includes("floor-drop") || move.before.height !== move.after.height || low.includes(move.after.height),
    write: "`height: lying` (or where it ends), and `risk: [floor-drop]` where it is fast",
  },
  {
    says: /\b(?:kneel(?:s|ing)?|(?:on|onto|to) (?:the |your |both |one |left |right )*knees?)\b/i,
    unless:
      /\b(?:hands?|palms?|elbows?|fingers?|touch\w*|tap\w*|clap\w*|slap\w*|chest|nose|forehead)\b[^,;.]*\b(?:on|onto|to) (?:the |your |both |one |left |right )*knees?\b/gi,
    has: (move) => move.risks.includes("kneework"),
    write: "`height: kneeling` or `contacts: [knees]`",
  },
  {
    says: /\b(?:back-?bends?|bend(?:s|ing)? back(?:wards?)? (?:in)?to|(?:in)?to a bridge)\b/i,
    unless: none,
    has: (move) => move.risks.includes("backbend"),
    write: "`risk: [backbend]`",
  },
  {
    says: /\b(?:jump|jumps|jumping|leap|leaps)\b/i,
    unless: /\bno jump\b|\bdon[’']t jump\b|\bwithout (?:a |the )?jump\w*/gi,
    has: (move) => move.risks.includes("jump"),
    write: "`risk: [jump]`",
  },
  {
    says: /\b(?:split|splits)\b/i,
    unless: /\bsplit(?:s|ting)? (?:the|your|between|into|second|weight)\b/gi,
    has: (move) => move.risks.includes("split"),
    write: "`risk: [split]`",
  },
  {
    says: /\b(?:lift|lifts|lifted|lifting)\b/i,
    unless: new RegExp(
      `\\b${limbs}[ -]lift(?:s|ed)?\\b|\\blift(?:s|ed|ing)? (?:and |up|through|tall|from|out|${its}${limbs})`,
      "gi",
    ),
    has: (move) => move.risks.includes("lift"),
    write: "`risk: [lift]`",
  },
];
