import { capital } from "./language.js";

/*
 * A cue cut down to what can be called while it is danced. People call about three words on a count (common practice, no
 * source); what makes a move known by ear is its verb and where it goes, so these stay longest.
 */
const wordsACount = 3;

const articles = words("a an the your my his her their its own both");
const prepositions = words("to on onto into of at for with from");
const small = words("to on onto into of at for with from it them foot feet leg legs hand hands one two three steps");
/* Where a move goes, and on which side. */
const directions = words(
  "left right forward forwards back backward backwards up down in out behind across over under round around through side sideways overhead front",
);

function words(text: string): ReadonlySet<string> {
  return new Set(text.split(" "));
}

/**
 * The cue as it is called: whole where it can be said in its counts; else its first clause, then that without its small words,
 * and last its verb with the directions.
 *
 * @example shortCall("Step back on the left foot, chin to the chest", 1) // "Step back left"
 */
export function shortCall(cue: string, counts: number): string {
  const most = Math.max(1, Math.floor(counts * wordsACount));
  const fits = (text: readonly string[]) => text.length <= most;
  const whole = wordsOf(cue);
  if (fits(whole)) return cue;
  const clause = wordsOf((cue.split(/[,:;.(–—]| - /)[0] ?? cue).replace(/\bin (?=front\b)/i, ""));
  const first = without(firstDone(clause), articles);
  const tries = [clause, without(clause, articles), first, beforeWhere(first)];
  const shorter = without(first, small);
  const said = [...tries, shorter].find(fits) ?? verbAndDirections(shorter, verbOf(first), most);
  return capital(said.join(" "));
}

function wordsOf(text: string): readonly string[] {
  return text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word));
}

/** Of two things that are done the first. */
function firstDone(clause: readonly string[]): readonly string[] {
  const end = clause.findIndex((word, index) => index > 0 && /^(and|then|while|as)$/i.test(word));
  return end < 0 ? clause : clause.slice(0, end);
}

/** Without what it is done onto, where that names no side or direction that is not named before it. */
function beforeWhere(clause: readonly string[]): readonly string[] {
  const end = clause.findIndex((word, index) => index > 1 && prepositions.has(word.toLowerCase()));
  const head = clause.slice(0, end);
  const isTold = (word: string) => !directions.has(word.toLowerCase()) || head.includes(word);
  return end >= 0 && clause.slice(end).every(isTold) ? head : clause;
}

/** The first word stays, whatever it is. */
function without(clause: readonly string[], left: ReadonlySet<string>): readonly string[] {
  const [first, ...others] = clause;
  const rest = others.filter((word) => !left.has(word.toLowerCase()));
  if (first === undefined) return [];
  return articles.has(first.toLowerCase()) && left === articles ? rest : [first, ...rest];
}

/** The first word; where that is a side, what the part of the body that it names does: "Left knee swings". */
function verbOf(clause: readonly string[]): string | undefined {
  return /^(left|right)$/i.test(clause[0] ?? "") ? clause[2] : clause[0];
}

/** The first word and the verb, then as many directions as there is time for, then what else there is, in the order of the cue. */
function verbAndDirections(clause: readonly string[], verb: string | undefined, most: number): readonly string[] {
  const rank = (word: string, index: number) =>
    index === 0 || word === verb ? 0 : directions.has(word.toLowerCase()) ? 1 : 2;
  const kept = clause
    .map((word, index) => ({ index, rank: rank(word, index) }))
    .sort((one, other) => one.rank - other.rank || one.index - other.index)
    .slice(0, most)
    .map(({ index }) => index);
  return clause.filter((_, index) => kept.includes(index));
}
