import type { MissingKey } from "../cue-language.js";
import type { Move } from "../routine.js";
import type { Height, Risk } from "../vocabulary.js";

/** What a cue speaks of in English that its move has no key for. */
export function missingKeys(move: Move): readonly MissingKey[] {
  const { text } = move.cue;
  return hints.flatMap(({ says, unless, has, write, risk }) => {
    if (!says.test(text) || has(move)) return [];
    const rest = text.replace(unless, " ");
    const word = [...rest.matchAll(new RegExp(says, "gi"))].find(
      ({ index }) => !negated.test(rest.slice(0, index)),
    )?.[0];
    return word === undefined ? [] : [{ word: word.trim(), write, ...(risk && { risk }) }];
  });
}

/** A text after which something is named only to say that it is not done: "no lift", "without a jump or lift". */
const negated =
  /\b(?:no|not|never|nor|without|don[’']t|do not|instead of|rather than)(?: (?:a|an|the|any|your|yet|to|full|real|big|more|need to|even))*(?: [\w-]+,? (?:or|nor|and)(?: (?:a|an|the|any))?)? $/i;

const low: readonly Height[] = ["kneeling", "seated", "lying"];
const isInverted = (move: Move) =>
  move.after.height === "inverted" || move.through === "inverted" || move.risks.includes("inversion");
const limbs =
  "(?:arms?|elbows?|hands?|wrists?|fingers?|palms?|knees?|legs?|feet|foot|toes?|heels?|hips?|chest|chin|head|gaze|eyes|shoulders?|ribs?|ribcage|tailbone|pelvis|sternum|face|body|weight|hem|skirt|hat|chair|cane|scarf)";
const its = "(?:the |your |both |one |each |left |right |a |an |free |back |front |other |up |in |off |out )*";
const props =
  "(?:hats?|canes?|scarf|scarves|umbrellas?|balls?|fans?|chairs?|stools?|sticks?|staffs?|hoops?|coats?|jackets?|bags?|props?|batons?|clubs?|roses?|flowers?|veils?|swords?|bottles?|gloves?|shoes?|books?|cups?)";
const none = /(?!)/g;

/** What a cue may speak of, in which senses it is harmless, and which keys answer for it. Common practice, no source. */
const hints: readonly {
  readonly says: RegExp;
  readonly unless: RegExp;
  readonly has: (move: Move) => boolean;
  readonly write: string;
  readonly risk?: Risk;
}[] = [
  {
    says: /\b(?:spin|spins|spinning|pirouettes?|twirls?)\b/i,
    unless: new RegExp(
      `\\b(?:spin|twirl)s? ${its}${limbs}|\\bhead[ -]?spin(?:s|ning)?\\b|\\bspin(?:s|ning)? on ${its}head`,
      "gi",
    ),
    has: (move) => move.turn !== 0 || move.risks.includes("spin"),
    write: "`turn: 1 right` (or how far it goes) or `risk: [spin]`",
    risk: "spin",
  },
  {
    says: /\b(?:turn|turns|turning|pivot|pivots)\b/i,
    unless: new RegExp(
      `\\bturn(?:s|ing|ed)?[ -](?:out|in|${its}${limbs}|to (?:look|face))\\b|\\bbefore the turn\\b`,
      "gi",
    ),
    // How dancers turn in what is theirs is theirs.
    has: (move) =>
      move.improvised || move.turn !== 0 || move.before.facing !== move.after.facing || move.risks.includes("spin"),
    write: "`turn: 1/4 right` (or how far it goes)",
    risk: "spin",
  },
  {
    says: /\b(?:head-?stands?|hand-?stands?|shoulder-?stands?|cart-?wheels?|upside down)\b/i,
    unless: none,
    has: isInverted,
    write: "`height: inverted`, or `through: inverted` where the move only passes it",
    risk: "inversion",
  },
  {
    says: /\b(?:drop|drops|dropping)\b/i,
    unless: new RegExp(`\\b${limbs}[ -]drops?\\b|\\bdrop(?:s|ping)? ${its}${limbs}\\b`, "gi"),
    has: (move) =>
      move.risks.includes("floor-drop") || move.before.height !== move.after.height || low.includes(move.after.height),
    write: "`height: lying` (or where it ends), and `risk: [floor-drop]` where it is fast",
    risk: "floor-drop",
  },
  {
    says: /\b(?:kneel(?:s|ing)?|(?:on|onto|to) (?:the |your |both |one |left |right )*knees?)\b/i,
    unless:
      /\b(?:hands?|palms?|elbows?|fingers?|touch\w*|tap\w*|clap\w*|slap\w*|chest|nose|forehead)\b[^,;.]*\b(?:on|onto|to) (?:the |your |both |one |left |right )*knees?\b/gi,
    has: (move) => move.risks.includes("kneework"),
    write: "`height: kneeling` or `contacts: [knees]`",
    risk: "kneework",
  },
  {
    says: /\b(?:back-?bends?|bend(?:s|ing)? back(?:wards?)? (?:in)?to|(?:in)?to a bridge)\b/i,
    unless: none,
    has: (move) => move.risks.includes("backbend"),
    write: "`risk: [backbend]`",
    risk: "backbend",
  },
  {
    says: /\b(?:jump|jumps|jumping|leap|leaps)\b/i,
    unless: none,
    has: (move) => move.risks.includes("jump"),
    write: "`risk: [jump]`",
    risk: "jump",
  },
  {
    says: /\b(?:split|splits)\b/i,
    unless: /\bsplit(?:s|ting)? (?:the|your|between|into|second|weight)\b/gi,
    has: (move) => move.risks.includes("split"),
    write: "`risk: [split]`",
    risk: "split",
  },
  {
    says: /\b(?:lift|lifts|lifted|lifting)\b/i,
    unless: new RegExp(
      `\\b${limbs}[ -]lift(?:s|ed)?\\b|\\blift(?:s|ed|ing)? (?:and |up|through|tall|from|out|${its}${limbs})`,
      "gi",
    ),
    has: (move) => move.risks.includes("lift"),
    write: "`risk: [lift]`",
    risk: "lift",
  },
  {
    says: /\b(?:(?:back|front)[ -]?(?:flip|tuck|hand-?spring|walk-?over)s?|hand-?springs?|walk-?overs?)\b/i,
    unless: /\bflips? (?:of|the|your)\b/gi,
    has: isInverted,
    write: "`through: inverted`, and `risk: [jump]` where both feet leave the floor",
    risk: "inversion",
  },
  {
    says: new RegExp(`\\bhead[ -]?spin(?:s|ning)?\\b|\\bspin(?:s|ning)? on ${its}head\\b`, "i"),
    unless: none,
    has: (move) => isInverted(move) && (move.contacts.includes("head") || move.after.weight === "head"),
    write: "`height: inverted` and `contacts: [head]`",
    risk: "inversion",
  },
  {
    says: /\bwindmill(?:s|ing)?\b/i,
    unless: new RegExp(`\\b(?:arms?|hands?)[ -]windmill\\w*|\\bwindmill\\w* (?:of |with )?${its}${limbs}`, "gi"),
    has: (move) => move.contacts.includes("shoulders") || move.contacts.includes("spine") || isInverted(move),
    write: "`contacts: [shoulders, hands]`, and `through: inverted` where the hips go over the head",
    risk: "inversion",
  },
  {
    says: new RegExp(
      `\\b(?:head|neck)[ -]?(?:roll|circle)s?\\b|\\b(?:roll|circl)(?:es?|s|ing)? ${its}(?:head|neck)\\b`,
      "i",
    ),
    unless: none,
    has: (move) => move.risks.includes("neck"),
    write: "`risk: [neck]`",
    risk: "neck",
  },
  {
    says: new RegExp(
      `\\b(?:stand|step|climb|jump|hop|get)(?:s|ing|ping)?\\b[^,;.]*\\b(?:on|onto|on top of) ${its}(?:chair|stool|table|box|bench|crate|partner)\\b`,
      "i",
    ),
    unless: new RegExp(
      `\\b${limbs}\\b[^,;.]*\\b(?:on|onto) ${its}(?:chair|stool|table|box|bench|crate|partner)\\b`,
      "gi",
    ),
    has: (move) => move.risks.includes("climb"),
    write: "`risk: [climb]`",
    risk: "climb",
  },
  {
    says: new RegExp(`\\b(?:throw|toss|fling|hurl)(?:s|es|ing)? ${its}${props}\\b|\\bjuggl(?:e|es|ing)\\b`, "i"),
    unless: none,
    has: (move) => move.risks.includes("throw"),
    write: "`risk: [throw]`",
    risk: "throw",
  },
  {
    says: new RegExp(`\\b(?:round|around|about|over|on|onto) ${its}(?:partner[’']s |her |his |their )?necks?\\b`, "i"),
    unless: /\b(?:arms?|hands?|palms?|fingers?|elbows?)\b[^,;.]*\bnecks?\b/gi,
    has: (move) => move.risks.includes("neck"),
    write: "`risk: [neck]`",
    risk: "neck",
  },
];
