/**
 * Which "left" and "right" name a side, and which mean something else.
 *
 * A rule never sees the word itself, only its neighbours, in which every left and right reads SIDE: so a text and its
 * mirror are decided alike ("left after" stays because "right after" does), and mirroring twice gives the original.
 *
 * The neighbours come as keys in lower case, a space before each: words as they are, `num` for a number in words, `#`
 * in figures, `frac` for a fraction, `hour` for a clock direction, `turning` for clockwise; and for punctuation `,`
 * (a pause), `.` (an end, that of the text too), `dot` (a full stop within a word), `:`, `?`, `-`, `/`, `&`, `+`.
 */

import {
  ASKED,
  AT_THE_FOOT,
  BE,
  CORRECT,
  COUNTED,
  EXACTLY,
  FACING,
  FOOTWORK,
  HAVE,
  LEANING,
  LIMB,
  NUMBER,
  ONWARD,
  OVER_THE_FLOOR,
  OWNER,
  oneOf,
  PART,
  PAUSE,
  PLACE,
  POSITION,
  QUANTITY,
  SIDEWAYS,
  SOFTLY,
  SOMEBODY,
  SOMETHING,
  SOUND,
  TALK,
  THE_CORRECT,
  WORD,
} from "./patterns.js";

const meanings = {
  exactly: { right: '"exactly", "straight" or "all the way"', left: undefined },
  correct: { right: '"correct"', left: undefined },
  correctOrRemains: { right: '"correct" or "exactly"', left: "what remains" },
  agreed: { right: 'agreement or attention, as in "all right"', left: undefined },
  angle: { right: 'a right angle, or "the way it should be"', left: undefined },
  claim: { right: "what somebody may do", left: undefined },
  remains: { right: undefined, left: "what remains" },
  leave: { right: undefined, left: 'a form of "leave"' },
  name: { right: "a name, a size or a shape", left: "a name, a size or a shape" },
  time: { right: "a time", left: "a time" },
  sung: { right: "something sung, or a place", left: "something sung, or a place" },
} as const;

/** What a left or a right may mean, other than a side. */
type Meaning = keyof typeof meanings;

/** A side for certain, probably a side, or something else. */
export type Sense = { readonly is: "side" } | { readonly is: "unsure" | "other"; readonly meaning: Meaning };

/** The neighbours of a word, up to seven keys on each side. */
export interface Neighbours {
  readonly before: string;
  readonly after: string;
}

/** The sense of a left, a right, or a word of another language that names a side. */
export function senseOfWord(neighbours: Neighbours): Sense {
  return senseBy(wordRules, neighbours);
}

/** The sense of a plural, as in "three lefts". */
export function senseOfPlural(neighbours: Neighbours): Sense {
  return senseBy(pluralRules, neighbours);
}

/** The sense of "1:30": the way that somebody faces, as on the face of a clock, or else a time. */
export function senseOfBearing(neighbours: Neighbours): Sense {
  return senseBy(bearingRules, neighbours);
}

/** The sense of L, R, RF and the like. */
export function senseOfLetters(neighbours: Neighbours): Sense {
  return senseBy(letterRules, neighbours);
}

/**
 * Tells a teacher why a word stayed or is doubtful. Nothing where it is a side for certain, nor where only its mirror
 * could be doubted ("step left behind").
 */
export function reasonOf(sense: Sense, word: string): string | undefined {
  if (sense.is === "side") return undefined;
  if (sense.meaning === "time")
    return `stays: it is read as a time; write "${Number.parseInt(word, 10)} o'clock" where a direction is meant`;
  const [own, opposite] = /l/i.test(word) ? (["left", "right"] as const) : (["right", "left"] as const);
  const { [own]: ofItself, [opposite]: ofItsMirror } = meanings[sense.meaning];
  if (sense.is === "unsure") {
    return ofItself && `unsure: exchanged as a side, but it may mean ${ofItself}; if it must stay, put it in backticks`;
  }
  const why = ofItself ? `it means ${ofItself} here` : `"${opposite}" in its place would mean ${ofItsMirror}`;
  const clearer = word.length < "left".length ? `"${own}" in full` : `"to the ${own}" or "${own}-hand"`;
  return `stays, as ${why}; where a side is meant, write ${clearer}`;
}

interface Rule {
  readonly sense: Sense;
  /** The neighbours before, after, and both with HERE between them: all that are given must fit. */
  readonly before?: RegExp;
  readonly after?: RegExp;
  readonly both?: RegExp;
}

/** The first rule that fits decides; where none fits it is a side. */
function senseBy(rules: readonly Rule[], { before, after }: Neighbours): Sense {
  const both = `${before} HERE${after}`;
  const fits = (rule: Rule) =>
    (rule.before?.test(before) ?? true) && (rule.after?.test(after) ?? true) && (rule.both?.test(both) ?? true);
  return rules.find(fits)?.sense ?? side;
}

const side: Sense = { is: "side" };
const unsure = (meaning: Meaning): Sense => ({ is: "unsure", meaning });
const other = (meaning: Meaning): Sense => ({ is: "other", meaning });

const ends = (keys: string) => new RegExp(` (?:${keys})$`);
const starts = (keys: string) => new RegExp(`^ (?:${keys})(?![^ ])`);

/** Not before "right here" or "right on the …", where the next word shows that no side is meant. */
const NOT_EXACTLY = `(?! (?:now|here|there|away|${EXACTLY} ${WORD})(?: |$))`;
const NOT_A_PART = `(?! ${PART}(?: |$))`;
/** Between two sides that are told apart: "left, then right"; and where the second may begin something new: "…, left arm". */
const AND = `(?: [,/&+-])?(?: ${oneOf("and then or not but")})*(?: (?:the|your))?`;
/** From one foot or hand to the other: "right over left", "drag left in towards right", "right behind the left". */
const OVER = `(?:(?: ${oneOf("in out up down back over across together to towards toward into onto meet join and behind beside under on with by for before after next front of")}){1,3}| ${oneOf("over behind beside across under")} (?:the|your))`;

/** The same between hyphens: "left-over-right". */
const FROM_ONE = oneOf("over under behind across to by into beside before after and then");
const PLACED = `(?:${PLACE}|in front|on top|high|low|first|last)`;

const wordRules: readonly Rule[] = [
  // Sayings, whatever stands around them.
  { after: starts("(?:- )?(?:angles?|angled|minded)|side up|way (?:up|round|around)"), sense: other("angle") },
  { after: starts("(?:or|and|from|nor) wrong|first time"), sense: other("correct") },
  { after: starts("(?:- )?of (?:- )?way"), sense: other("claim") },
  { after: starts("the way|round [,.]"), sense: other("exactly") },
  { after: new RegExp(`^ - ${FROM_ONE} - SIDE`), sense: side },
  { before: new RegExp(` SIDE - ${FROM_ONE} -$`), sense: side },
  { after: starts("- over"), sense: other("remains") },
  // "Right? Left!" asks which.
  { before: ends("\\."), after: starts("\\? SIDE [,.?]"), sense: side },
  { before: ends("SIDE or|SIDE , not|not SIDE ,|SIDE , SIDE ,"), sense: side },
  { before: ends("SIDE or SIDE \\?"), after: starts(PAUSE), sense: side },
  { before: ends("(?:say|says|call|calls|shout|yell)"), after: starts(`as|when|and|then|${PAUSE}`), sense: side },
  { before: ends("\\. SIDE \\?"), after: starts("[,.?]"), sense: side },
  { before: ends(`in ${OWNER} own`), after: starts(PAUSE), sense: other("agreed") },

  // A part of the body; the correct one; a side that is named as a thing.
  { before: ends(OWNER), after: starts("shoes|boots|gloves"), sense: unsure("correct") },
  { after: starts(PART), sense: side },
  { before: ends(OWNER), after: starts(THE_CORRECT), sense: other("correct") },
  { before: ends(OWNER), after: starts(ONWARD), sense: side },
  { before: ends(OWNER), sense: unsure("correct") },

  // Agreement, correctness and remainders, even where the other side follows.
  { before: ends(`(?:that's|that is|you're|you are|we're|they're)(?: ${SOFTLY})?`), sense: other("correctOrRemains") },
  { before: ends("all"), sense: other("agreed") },
  { before: ends(","), after: starts("\\?"), sense: other("agreed") },
  { before: ends(`${ASKED} \\?`), after: starts(PAUSE), sense: other("agreed") },
  { before: ends(`(?:feels?|felt|feeling|sounds?|seems?)(?: ${SOFTLY})?`), sense: other("correct") },
  { before: ends(`(?:it|that|this|everything|they)(?: ${SOFTLY})? looks?(?: ${SOFTLY})?`), sense: other("correct") },
  {
    before: ends(`(?:get|gets|got|getting) (?:it|this|that|them|these|those|things)(?: ${SOFTLY})?`),
    sense: other("correct"),
  },
  { before: ends(`(?:get|gets|getting|got) ${OWNER} SIDE ${PART}`), after: starts(PAUSE), sense: other("correct") },
  { before: ends(`(?:get|gets|getting|got) ${OWNER}(?: ${WORD})? ${PART}`), sense: unsure("correct") },
  { before: ends(`(?:get|gets|getting|got) ${OWNER}(?: ${WORD}){1,3}`), sense: other("correct") },
  {
    before: ends(
      `${QUANTITY}(?: (?:is|are|was|were|has|have|had|been|still|there|that|else)| ${WORD} (?:is|are|was))*`,
    ),
    sense: other("remains"),
  },
  { before: ends(`no(?: ${WORD}){0,2} (?:${SIDEWAYS}|${PART})`), sense: unsure("remains") },
  { before: ends(`no(?: ${WORD}){0,2} (?!(?:on|in|to|from|with|over|onto|and) )${WORD}`), sense: other("remains") },
  { before: ends("(?:only|last) (?:things?|ones?|parts?|bits?|people|person)"), sense: other("remains") },
  { before: ends("(?:you've|we've|they've|i've|she's|he's) got"), after: starts(PAUSE), sense: other("remains") },
  { before: ends("(?:and|then)"), after: starts("back (?:to|into|where|in|until)"), sense: other("exactly") },

  // Two sides told apart: by a link, by the same word before each, by the counts or the places after each.
  { after: new RegExp(`^${AND} SIDE${NOT_A_PART}${NOT_EXACTLY}`), sense: side },
  { after: new RegExp(`^${OVER} SIDE${NOT_A_PART}`), sense: side },
  { before: new RegExp(` SIDE${OVER}$`), sense: side },
  { both: new RegExp(` (${WORD}) HERE${NOT_EXACTLY}(?: [^ ]+){1,4} \\1 SIDE${NOT_EXACTLY}(?: |$)`), sense: side },
  { both: new RegExp(` (${WORD}) SIDE${NOT_EXACTLY}(?: [^ ]+){1,4} \\1 HERE${NOT_EXACTLY}(?: |$)`), sense: side },
  { both: new RegExp(` HERE (${EXACTLY})(?: ${WORD}){1,3} ,(?: and| then)* SIDE \\1(?: |$)`), sense: side },
  { both: new RegExp(` SIDE (${EXACTLY})(?: ${WORD}){1,3} ,(?: and| then)* HERE \\1(?: |$)`), sense: side },
  { both: new RegExp(` HERE on ${NUMBER}(?: [^ ]+){0,3} SIDE on ${NUMBER}`), sense: side },
  { both: new RegExp(` SIDE on ${NUMBER}(?: [^ ]+){0,3} HERE on ${NUMBER}`), sense: side },
  { both: new RegExp(` HERE(?: ${PART})? ${PLACED} ,(?: and| then)* SIDE(?: ${PART})? ${PLACED}(?: |$)`), sense: side },
  { both: new RegExp(` SIDE(?: ${PART})? ${PLACED} ,(?: and| then)* HERE(?: ${PART})? ${PLACED}(?: |$)`), sense: side },

  // Part of a direction: stage right, a quarter left, front-right, left-hand.
  { before: ends("on|onto|of|beside|towards?|across"), sense: side },
  { before: ends("to|from|until|till|up"), after: starts(`(?!to )${EXACTLY}`), sense: other("exactly") },
  {
    before: ends(
      "stage|house|camera|audience|screen|downstage|upstage|centre|center|half|quarter|eighth|frac|slightly|diagonally|far|to|from|-",
    ),
    sense: side,
  },
  { after: starts("-"), sense: side },

  // What remains, and forms of leave.
  { before: ends(`${SIDEWAYS}(?: ${WORD}){0,3} ${COUNTED}`), sense: unsure("remains") },
  { before: ends(COUNTED), sense: other("remains") },
  {
    before: ends(`${NUMBER} (?:steps?|moves|turns?|walks|kicks|jumps|hops)`),
    after: starts(PAUSE),
    sense: unsure("remains"),
  },
  { before: ends(`${SIDEWAYS} num`), sense: unsure("remains") },
  { before: ends("num"), after: starts(`${PAUSE}|to|over|in|until|before|for`), sense: other("remains") },
  { before: ends(`(?:with|only|just|${HAVE}|${BE}) #`), sense: other("remains") },
  { before: ends(`${HAVE}(?: ${SOFTLY})?`), sense: other("leave") },
  { before: ends(`(?:after|before|when|since|until|once|as|that|what|where) ${SOMEBODY}`), sense: other("leave") },
  { before: ends(SOMEBODY), after: starts(`${SOMETHING}|that|this|these|those|too|early|late`), sense: other("leave") },
  { before: ends(SOMEBODY), after: starts(PAUSE), sense: unsure("leave") },
  { before: ends(`(?:${SIDEWAYS}|${LIMB})`), after: starts(SOMETHING), sense: unsure("leave") },
  { after: starts(SOMETHING), sense: other("leave") },
  {
    after: starts(
      "hanging|alone|undone|unsaid|lying|empty|unfinished|unmarked|to (?:do|go|count|dance|give|say|spare|fill)",
    ),
    sense: other("remains"),
  },

  // Correct or remaining, after a form of be or do.
  {
    before: ends(`(?:${PART}|weight) ${BE}(?: ${SOFTLY})?`),
    after: starts(`${PAUSE}|and`),
    sense: unsure("correctOrRemains"),
  },
  { before: ends(`(?:${BE}|not|just)(?: ${SOFTLY})?`), after: starts("of"), sense: side },
  { before: ends(`(?:${BE}|not|just)(?: ${SOFTLY})?`), sense: other("correctOrRemains") },
  { before: ends(`(?:is|are|was|were)(?: ${WORD}){1,4}`), after: starts("\\?"), sense: other("correctOrRemains") },
  { before: ends(`(?:do|does|did|doing|done) (?:it|this|that|them)(?: ${SOFTLY})?|done`), sense: other("correct") },
  { after: starts(CORRECT), sense: other("correct") },

  // A link again, where nothing above made a remainder of it.
  { after: new RegExp(`^${AND} SIDE${NOT_EXACTLY}`), sense: side },
  { both: new RegExp(` SIDE${AND} HERE${NOT_EXACTLY}`), sense: side },

  // Exactly, or all the way.
  {
    after: starts("to (?:the )?(?:SIDE )?(?:side|front|back|diagonal)|in place|forward"),
    before: ends(`${SIDEWAYS}|${LIMB}|${PAUSE}`),
    sense: side,
  },
  {
    before: ends(`${SIDEWAYS}(?: (?:it|him|them|me|us|you))?`),
    after: starts(`${EXACTLY}|back`),
    sense: unsure("exactly"),
  },
  { before: ends(LIMB), after: starts(AT_THE_FOOT), sense: unsure("exactly") },
  { before: ends(OVER_THE_FLOOR), after: starts("to|past|across|along|around|round"), sense: unsure("exactly") },
  { before: ends(LEANING), after: starts("as|when|until|till"), sense: unsure("exactly") },
  { before: ends(PART), after: starts(`on ${NUMBER}`), sense: unsure("exactly") },
  { before: ends(`${PAUSE}|${FOOTWORK}`), after: starts(`${PLACE} ${PAUSE}`), sense: unsure("exactly") },
  { before: ends(POSITION), after: starts("in front|behind|front|back"), sense: side },
  {
    before: ends(PAUSE),
    after: starts(`(?:behind|beside) (?:and|side|${SIDEWAYS}|${LIMB})`),
    sense: unsure("exactly"),
  },
  { after: starts("back (?:to|into|where|until|in|on|at|from|up|down|through)"), sense: other("exactly") },
  { after: starts("back"), sense: unsure("exactly") },

  // Agreement or attention: "Right, from the top".
  { before: ends(PAUSE), after: starts(`[,:] ${TALK}|then ,`), sense: other("agreed") },
  { before: ends("SIDE \\?"), after: starts("\\."), sense: other("agreed") },
  { after: starts("\\?"), sense: unsure("agreed") },

  { after: starts(`${EXACTLY}|with the ${SOUND}`), sense: other("exactly") },
];

const pluralRules: readonly Rule[] = [
  { before: ends(`${NUMBER}|SIDE and|few|some|more`), sense: side },
  { after: starts("reserved|to|for|of|holders?|owners?"), sense: other("claim") },
];

/** Before these a letter names a side even where a full stop follows it. */
const LEADS_TO_A_SIDE = `${OWNER}|${SIDEWAYS}|${LIMB}|${PART}|on|weight|SIDE`;

const letterRules: readonly Rule[] = [
  // R&B, size L, an L-shape, LA style.
  { after: starts("(?:&|and|n|'n') b"), sense: other("name") },
  { before: / [a-z] &$/, sense: other("name") },
  {
    before: ends(oneOf("size sizes vitamin letter studio room row door gate plan type class model grade")),
    sense: other("name"),
  },
  { before: ends("an"), after: starts(`(?!${PART})[^ ]+`), sense: other("name") },
  { before: / (?:s|m|xl|xs)(?: [,/-])?(?: or| and| to)?$/, sense: other("name") },
  { before: ends("#"), after: starts("of"), sense: other("name") },
  { after: starts("(?:- )?(?:shaped?|shapes|sits?|bend|style)"), sense: other("name") },
  { before: ends("SIDEarm"), sense: other("sung") },
  { after: starts("SIDEarm"), sense: other("sung") },

  // Initials: R.I.P., J. R. Tern; but the foot and the hand (R.F.) and the end of a sentence.
  { after: starts("dot (?:[fhksat]|SIDE)"), sense: unsure("name") },
  { before: ends("SIDE dot"), sense: unsure("name") },
  { after: starts("dot"), sense: other("name") },
  { after: starts(`\\. ${PART}`), sense: side },
  { before: / [a-z] (?:dot|\.)$/, sense: other("name") },
  { before: ends(LEADS_TO_A_SIDE), after: starts(`\\. ${WORD}`), sense: unsure("name") },
  { after: starts(`\\. (?:${SIDEWAYS}|${LIMB}|SIDE|then|and|now|hold)`), sense: unsure("name") },
  { after: starts(`\\. ${WORD}`), sense: other("name") },
];

/** A time before, and what links it with the next: "12:00, then 3:00". */
const LINKED = "(?: time(?: [,/&-])?(?: (?:and|or|then|to))*)*";
const bearingRules: readonly Rule[] = [
  {
    before: ends(`(?:${FACING}|(?:${SIDEWAYS}|SIDE) to)(?: (?:to|at|towards?|the|is|now|your|,|:))*${LINKED}`),
    sense: side,
  },
  {
    before: ends("(?:square|squared|squaring) up(?: to)?|(?:open|opening|opened|angle|angled|angling)(?: to)?"),
    sense: side,
  },
  { after: starts("walls?|diagonal|corner"), sense: side },
  // A step sheet notes in brackets where a turn ends.
  {
    before: new RegExp(` (?:frac|turning|SIDE|walls?|${SIDEWAYS})(?: [^.]+)* ,${LINKED}$`),
    after: starts("[,.]"),
    sense: side,
  },
  { sense: other("time") },
];
