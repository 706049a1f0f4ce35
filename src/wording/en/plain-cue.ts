import { isArticle, isFoot, isPreposition, isSide, isStepping, isWay } from "./call-words.js";

/* A clause of a cue without its small words, before anything of it is left out. */

const fractions: Readonly<Record<string, string>> = {
  half: "½",
  quarter: "¼",
  "three-quarter": "¾",
  "three quarter": "¾",
  "one and a half": "1½",
  "one and a quarter": "1¼",
  "one and three quarter": "1¾",
};
const figures: Readonly<Record<string, string>> = { two: "2", three: "3", four: "4", five: "5", six: "6", eight: "8" };
const size = "(one and a half|one and a quarter|one and three quarter|three[- ]quarter|half|quarter)s?";
const way = "(?:to (?:the )?)?(left|right)";
/** "Quarter turn to the right". */
const turned = new RegExp(`\\b(?:a )?${size} turns? ${way}\\b`, "i");
/** "Pivot a quarter right". */
const pivoted = new RegExp(`\\b(pivot|unwind|spin|swivel|turn) (?:a |an )?${size}(?: turn)? ${way}\\b`, "i");
/** What the weight comes onto at a turn's end. */
const onto = /(¼|½|¾) (?:onto|on) (?:the )?(?:ball of (?:the )?)?(?:left|right)(?: foot)?$/i;
/** A word that is a way elsewhere and a thing here; nobody sees the sign behind it. */
const thing = "\u200b";

/** Whether a clause is a turn by some part of a whole one. */
export const isTurn = (clause: string): boolean => turned.test(clause);

/** What is shown of words. */
export const shown = (words: readonly string[]): string => words.join(" ").replaceAll(thing, "");

/** A clause without small words: turns in figures, a foot by its side alone. */
export function plainWords(clause: string): readonly string[] {
  const figure = (amount: string) => fractions[amount.toLowerCase()] ?? amount;
  const text = clause
    .replace(pivoted, (_, verb: string, amount: string, side: string) => `${verb} ${side} ${figure(amount)}`)
    .replace(turned, (_, amount: string, side: string) => `turn ${side} ${figure(amount)}`)
    .replace(onto, "$1")
    .replace(/\bto the (left|right|side)\b(?! (?!(?:in|and|then|with|over)\b)\p{L})/giu, "$1")
    .replace(/\bin front\b/gi, "front")
    .replace(/\bin a way of your own\b/gi, "your own way")
    .replace(/^(ball|heel|toes?) of the (left|right) foot\b/i, (_, part: string, side: string) => {
      return `${side} ${part.toLowerCase()}`;
    })
    .replace(/\b(two|three|four|five|six|eight)(?= (?:steps|claps|stamps|taps|walks|times)\b)/gi, (word) => {
      return figures[word.toLowerCase()] ?? word;
    })
    .replace(
      /(?<!\bto )\b(the|chair|upper|lower|flat|long|straight|round|rounded|arched) (back|front|side)\b/gi,
      `$1 $2${thing}`,
    )
    .replace(/\bchair back\b/gi, `$&${thing}`)
    .replace(/\bbreath (in|out)\b/gi, `$&${thing}`);
  const all = wordsOf(text);
  const words = all.filter((word, index) => !isArticle(word) || isMeant(all[index + 1], all[index + 2]));
  return ontoSide(words).filter((word, index, all) => !(isFoot(word) && isSide(all[index - 1]) && isTold(all, index)));
}

export function wordsOf(text: string): readonly string[] {
  return text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word));
}

/** Whether words mean something else without the article before them: "a little", "your own", "the other" who dances. */
function isMeant(word = "", next?: string): boolean {
  return /^(little|bit|few|own)$/i.test(word) || (/^other$/i.test(word) && (next === undefined || isPreposition(next)));
}

/** "Step back on left foot" is a step back left; "back onto right foot" is not to the right. */
function ontoSide(words: readonly string[]): readonly string[] {
  return words.filter((word, index) => {
    const end = index + (isFoot(words[index + 2]) ? 3 : 2);
    const last = end >= words.length || /^(and|then|with)$/i.test(words[end] ?? "");
    return !(/^(on|onto)$/i.test(word) && last && isSide(words[index + 1]) && isStep(words, index - 1));
  });
}

const isStep = (words: readonly string[], index: number): boolean =>
  isStepping(words[index]) && !(index === 0 && isWay(words[index]));

/** Whether a side before "foot" says enough: not where something goes through it, or from it. */
function isTold(words: readonly string[], foot: number): boolean {
  const before = words[foot - 2];
  return !isPreposition(before) || /^(on|onto|over|behind)$/i.test(before ?? "");
}
