import {
  isAmount,
  isDoing,
  isLanding,
  isNegation,
  isNoun,
  isPart,
  isPlace,
  isPreposition,
  isPurePreposition,
  isSide,
  isSomebody,
  isWay,
  isWayAlone,
  joins,
  saysHow,
  saysWhere,
} from "./call-words.js";
import { capital } from "./language.js";
import { isTurn, plainWords, shown, wordsOf } from "./plain-cue.js";

/*
 * A cue cut down to what can be called while it is danced. What makes a move known by ear is its verb and where it goes, so these
 * stay longest, with what it is done with where the verb alone says nothing. What a cue forbids, its sides and its half turns are
 * never left out of what is called, and words are left out, never abbreviated.
 */

/** People call about three words on a count (common practice, no source). */
const wordsACount = 3;

/**
 * The cue as it is called: whole where it can be said in its counts, else the longest of its short forms that can.
 *
 * @example shortCall("Step back on the left foot, chin to the chest", 1) // "Step back left"
 */
export function shortCall(cue: string, counts: number): string {
  const most = Math.max(1, Math.floor(counts * wordsACount));
  const forms = [cue, ...shortForms(cue)];
  return forms.find((form) => wordsOf(form).length <= most) ?? forms.at(-1) ?? cue;
}

/**
 * The cue in so many letters, or in as few as it can be said in.
 *
 * @example shortCue("Snap the eyes along the wall", 14) // "Snap eyes"
 */
export function shortCue(cue: string, letters: number): string {
  const forms = shortForms(cue);
  return forms.find((form) => form.length <= letters) ?? forms.at(-1) ?? cue;
}

/**
 * The first words of what no rule makes short, and a sign that more was there; what it forbids is said first of all.
 *
 * @example cutCall("Melt head shoulders ribs hips knees", 14) // "Melt head…"
 */
export function cutCall(form: string, letters: number): string {
  const words = form.split(" ");
  const forbidden = words.findLastIndex(isNegation);
  const least = forbidden < 0 ? 1 : forbidden + 2;
  let count = words.length;
  while (count > least && words.slice(0, count).join(" ").length >= letters) count -= 1;
  return count >= words.length
    ? form
    : `${words
        .slice(0, count)
        .join(" ")
        .replace(/[,;:]$/, "")}…`;
}

type Words = readonly string[];

/** Which feet one steps on, one after the other: "right, left, right". */
const feet = /[,:]? *\b(?:left|right)(?:, *(?:left|right))+(?=$|[,;:.)]| and\b| then\b)/i;

/** The ways of calling a cue, each shorter than the one before it; of what has no words its signs. */
export function shortForms(cue: string): readonly string[] {
  const withFeet = feet.test(cue) ? [shown(plainKeepingCommas(cue)), ...verbWithFeet(cue)] : [];
  const text = acting(cue.replace(feet, ""));
  const plain = keptClauses(text).map(plainWords);
  const next = keptClauses(text, true);
  const inTurn = next.length > plain.length ? next.map(plainWords).map(withoutBoth) : [];
  const actions = plain.flatMap(actionsOf);
  const bare = actions.map((words) => withoutVerb(withoutBoth(words)));
  const lean = bare.map(withoutAsides);
  const texts = [inTurn, inTurn.map(withoutAsides), plain, actions, bare, lean, lean.map(withoutNoun)];
  const said = (one: readonly Words[]) =>
    one
      .map(shown)
      .join(", ")
      .replace(/, (?=(?:onto|into) )/g, " ");
  const forms = [...withFeet, ...texts.map(said)]
    .map(capital)
    .filter((text) => text !== "")
    .filter((text, index, all) => all.slice(0, index).every(({ length }) => length > text.length));
  return forms.length > 0 ? forms : [cue.trim()];
}

/** "Walk along the wall: right, left, right" is a walk right, left, right. */
function verbWithFeet(cue: string): readonly string[] {
  const [list = ""] = cue.match(feet) ?? [];
  const words = plainWords(cue.slice(0, cue.indexOf(list)));
  const end = words.findIndex((word, index) => index > 0 && isPurePreposition(word));
  return end < 0 ? [] : [`${shown(words.slice(0, end))} ${list.replace(/^[,: ]+/, "")}`];
}

/** What hands lean on is no move where one follows: "Hands on the thigh, sink" is a sinking. */
const acting = (cue: string): string => {
  const [, rest = ""] = cue.match(/^hands (?:on|press) [^,]*, (?:then )?(.*)$/i) ?? [];
  return isDoing(wordsOf(rest)[0]) ? rest : cue;
};

const plainKeepingCommas = (cue: string): Words =>
  cue.split(",").flatMap((clause, index, all) => {
    const words = plainWords(clause);
    return index < all.length - 1 ? [...words.slice(0, -1), `${words.at(-1) ?? ""},`] : words;
  });

/**
 * The first clause, and of the others those without which it is another move: what is not to be done, and a turn.
 *
 * @param inTurn keep what is done next as well
 */
function keptClauses(cue: string, inTurn = false): readonly string[] {
  const [first = "", ...others] = cue
    .split(/[,:;.()–—]|\s-\s/)
    .map((clause) => clause.trim())
    .filter((clause) => wordsOf(clause).length > 0);
  const opening = wordsOf(first);
  if (opening.every(isNegation)) return [cue];
  const leads = (clause: string) => opening.length > 1 && clause === others[0] && /^(onto|into) /i.test(clause);
  const isNext = (clause: string) => inTurn && (leads(clause) || isDoneNext(wordsOf(clause), opening));
  const kept = others
    .filter((clause) => wordsOf(clause).some(isNegation) || isTurn(clause) || isNext(clause))
    .map((clause) => (isNext(clause) ? clause.replace(/^(and|then) /i, "") : clause));
  if (opening.length > 1 || saysWhere(opening)) return [first, ...kept];
  // A word that says no way of its own takes the first words that do.
  const way = others.find((clause) => saysWhere(wordsOf(clause)) || (isPart(first) && wordsOf(clause).length === 1));
  if (way === undefined || kept.includes(way)) return [first, ...kept];
  return isPreposition(wordsOf(way)[0])
    ? [`${first} ${way}`, ...kept]
    : [first, way.replace(/^(and|then) /i, ""), ...kept];
}

/** Whether a clause goes on with a move, by its verb or as the first one did: "both heels up, both heels down". */
function isDoneNext(clause: Words, opening: Words): boolean {
  const [word = "", ...rest] = clause.filter((one, index) => index > 0 || !joins(one));
  return (isDoing(word) && rest.length > 0) || (word.toLowerCase() === opening[0]?.toLowerCase() && saysWhere(rest));
}

/** Of two things that are done the first; the other too where it leads somewhere. */
function actionsOf(words: Words): readonly Words[] {
  const end = words.findIndex((word, index) => index > 0 && joins(word));
  if (end < 0) return [words];
  const [before, after] = [words.slice(0, end), words.slice(end + 1)];
  // "Head and shoulders" is one thing.
  if (before.every((word) => isPart(word) || isSide(word) || /^both$/i.test(word))) return [words];
  return saysWhere(after) ? [before, ...actionsOf(after)] : [before];
}

/** "Both palms" are palms. */
function withoutBoth(words: Words): Words {
  return words.filter((word, index) => !(/^both$/i.test(word) && /s$/i.test(words[index + 1] ?? "")));
}

/** "Arms shoot up" is arms up, "Right crosses behind" is right behind. */
function withoutVerb(words: Words): Words {
  const start = isSide(words[0]) ? 1 : 0;
  const verb = isPart(words[start]) ? start + 1 : start;
  if (verb === 0) return words;
  const [done, next] = [words[verb], words[verb + 1]];
  // "Left over" is what remains.
  const isSaid = /^cross/i.test(done ?? "") && /^over$/i.test(next ?? "");
  const drops = done !== undefined && isNoun(done) && !isNegation(done) && !isAmount(done) && isWay(next) && !isSaid;
  return drops ? words.filter((_, index) => index !== verb) : words;
}

/** Without what it is done along, into or onto, where that names no side and no way and where more than a verb is left. */
function withoutAsides(words: Words): Words {
  const direct = withoutPace(words).filter((word, index) => {
    // "Out behind" is behind.
    return index === 0 || !(/^(out|round|around)$/i.test(word) && isWay(words[index + 1]));
  });
  const kept: string[] = [];
  for (let index = 0; index < direct.length; ) {
    const word = direct[index] ?? "";
    const end = asideEnd(direct, index, kept);
    if (end === index) kept.push(word);
    else if (isWayAlone(word) && !kept.some(isWay)) kept.push(word);
    index = Math.max(end, index + 1);
  }
  return kept.filter((word, index) => index === 0 || !isSomebody(word) || !isWay(kept[index - 1]));
}

/** Without "bone by bone". */
function withoutPace(words: Words): Words {
  const by = words.findIndex((word, index) => index > 2 && /^by$/i.test(word) && words[index - 1] === words[index + 1]);
  return by < 0 ? words : [...words.slice(0, by - 1), ...words.slice(by + 2)];
}

/** Where an aside that begins at some word ends; at that word where it has to be said. */
function asideEnd(words: Words, from: number, kept: Words): number {
  const preposition = words[from];
  const next = words[from + 1];
  if (!isPreposition(preposition) || next === undefined || isNegation(words[from - 1])) return from;
  if (kept.length < (saysHow(preposition) ? 1 : 2)) return from;
  const landing = words.slice(from + 1, from + 3).find((word) => !/^both$/i.test(word));
  if (/^to$/i.test(preposition ?? "") && (isPlace(next) || isLanding(landing))) return from;
  if (!isPurePreposition(preposition) && !isNoun(next)) return from;
  // Over or under something is where, unless that is said.
  const where = !isPurePreposition(preposition) && !isWayAlone(preposition) && !/^in$/i.test(preposition ?? "");
  if (where && !kept.some(isWay)) return from;
  const stop = words.findIndex(
    (word, index) => index > from + 1 && [isPreposition, isWay, isNegation, joins].some((ends) => ends(word)),
  );
  const end = stop < 0 ? words.length : stop;
  const said = (word: string) => isSide(word) || isNegation(word) || isAmount(word);
  return words.slice(from, end).some(said) ? from : end;
}

/** "Over right leg" is over right. */
function withoutNoun(words: Words): Words {
  const [way, side, part] = words.slice(-3);
  const drops = isPart(part) && isSide(side) && /^(over|under|behind|across)$/i.test(way ?? "");
  return drops ? words.slice(0, -1) : words;
}
