import { chart } from "../routine/chart.js";
import type { DancedPhrase, Move, Routine } from "../routine/routine.js";
import type { Foot } from "../routine/vocabulary.js";
import { cueWords, sidesIn } from "./shared-words.js";

/** A move of the file, as it can be recognised by what is called. */
export interface FileMove {
  /** Counts as the file writes them. */
  readonly on: string;
  readonly cue: string;
  /** By the numbers of the phrase, the end not included. */
  readonly from: number;
  readonly to: number;
  /** Of the cue and of what is called, as they are compared. */
  readonly words: readonly string[];
  readonly sides: readonly Foot[];
}

export interface FilePhrase {
  readonly section: string;
  /** In its section, from 1. */
  readonly number: number;
  readonly moves: readonly FileMove[];
}

/** The phrases of a routine in the order in which they are danced the first time through, as its taught version dances them. */
export function filePhrases(routine: Routine): readonly FilePhrase[] {
  const taught = routine.versions.find(({ id }) => id === routine.taught) ?? routine.versions[0];
  if (taught === undefined) return [];
  return chart(routine, taught).flatMap(({ section, phrase, cells }) => {
    const danced = routine.sections[section];
    if (danced === undefined || danced.wall > 1 || danced.pass > 1) return [];
    const moves = cells.flatMap(({ move, from, to, begins }) =>
      move === undefined || move.hold || !begins
        ? []
        : [{ ...moveOf(move), from: numberAt(phrase, from.valueOf()), to: numberAt(phrase, to.valueOf()) }],
    );
    return [{ section: danced.name, number: phrase.number, moves }];
  });
}

function moveOf({ on, cue, say = [], steps }: Move): Omit<FileMove, "from" | "to"> {
  const texts = [cue.text, ...say.map((call) => call.cue.text)];
  const sides = [...new Set([...steps, ...texts.flatMap(sidesIn)])];
  return { on, cue: cue.text, words: texts.flatMap(cueWords), sides };
}

/** A place in the run by the numbers that the phrase counts from its first on. */
function numberAt({ at, numbers }: DancedPhrase, position: number): number {
  return position - at + (numbers[0] ?? 1);
}
