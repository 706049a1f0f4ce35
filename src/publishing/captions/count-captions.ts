import Fraction from "fraction.js";
import { dancersOf, movesOfAll } from "../../routine/chart.js";
import type { Library, Move, Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import { captionTime } from "./caption-time.js";
import { earlier } from "./earlier.js";
import { type Caption, cueText, webVtt } from "./web-vtt.js";

/**
 * The taught version on the track's clock, a caption a move: its counts, its cue and the landing words. A caption's
 * identifier is its number and its section. Where groups dance different counts at once, each has captions with its name.
 *
 * @param lead how many counts early each caption is shown and goes again
 * @returns the text of a WebVTT file
 * @example
 * countCaptions(routine, library).includes("00:00:03.000 --> 00:00:04.000\n<b>4</b> Stamp left") // true
 */
export function countCaptions(routine: Routine, library: Library, lead = 0): string {
  const taught = routine.versions.find(({ id }) => id === routine.taught);
  const moves = taught === undefined ? [] : movesOfAll(dancersOf(routine, taught));
  const early = new Fraction(lead);
  const captions = moves.map(({ move, group }, index): Caption => {
    const section = routine.sections[move.section];
    const opens = moves[index - 1]?.move.section !== move.section;
    const words = move.words ?? (opens ? section?.words : undefined);
    const counts = group === undefined ? move.on : `${group} ${move.on}`;
    return {
      id: `${index + 1} ${section?.name ?? ""}`,
      start: captionTime(routine, earlier(routine, move.section, move.start, early)),
      end: captionTime(routine, earlier(routine, lastSection(routine, move), move.end, early)),
      lines: [
        `<b>${cueText(counts)}</b> ${cueText(move.cue.text)}`,
        words === undefined ? "" : `<i>${cueText(words)}</i>`,
      ],
    };
  });
  return webVtt(wordingOf(library.language).captions.counts(routine.title, lead), captions);
}

/** The section that a move ends in: another than its own where it runs on into the next. */
function lastSection(routine: Routine, move: Move): number {
  let index = move.section;
  for (;;) {
    const next = routine.sections[index + 1];
    if (!next || next.start.compare(move.end) >= 0) return index;
    index++;
  }
}
