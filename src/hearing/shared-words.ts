import type { Foot } from "../routine/vocabulary.js";
import { alike, isCueWord, stem } from "./words.js";

const sides: readonly Foot[] = ["left", "right"];

/** The words of a text that can be a cue, as they are compared: without joining words and without sides. */
export function cueWords(text: string): readonly string[] {
  return [...new Set(lettersOf(text).filter((word) => isCueWord(word) && !isSide(word)))].map(stem);
}

/** Whether some word of a cue is one of these, however it was heard. */
export function sharesWord(cue: string, words: readonly string[]): boolean {
  return cueWords(cue).some((word) => words.some((other) => alike(word, other)));
}

/** The sides that a text names, each once. */
export function sidesIn(text: string): readonly Foot[] {
  const words = lettersOf(text);
  return sides.filter((side) => words.includes(side));
}

const isSide = (word: string): boolean => sides.some((side) => side === word);

function lettersOf(text: string): readonly string[] {
  return text.toLowerCase().match(/\p{L}[\p{L}\p{M}’']*/gu) ?? [];
}
