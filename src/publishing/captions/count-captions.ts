import Fraction from "fraction.js";
import type { Move, Routine } from "../../routine/routine.js";
import { trackTime } from "../figures.js";
import { earlier } from "./earlier.js";
import { type Caption, cueText, webVtt } from "./web-vtt.js";

/**
 * The taught version on the track's clock, a caption a move: its counts, its cue and the landing words. A caption's
 * identifier is its number and its section. Where groups dance different counts at once, each has captions with its name.
 *
 * @param lead how many counts early each caption is shown and goes again
 */
export function countCaptions(routine: Routine, lead = 0): string {
  const moves = taughtMoves(routine);
  const early = new Fraction(lead);
  const captions = moves.map(({ move, group }, index): Caption => {
    const section = routine.sections[move.section];
    const opens = moves[index - 1]?.move.section !== move.section;
    const words = move.words ?? (opens ? section?.words : undefined);
    const counts = group === undefined ? move.on : `${group} ${move.on}`;
    return {
      id: `${index + 1} ${section?.name ?? ""}`,
      start: trackTime(routine, earlier(routine, move.section, move.start, early)),
      end: trackTime(routine, earlier(routine, lastSection(routine, move), move.end, early)),
      lines: [
        `<b>${cueText(counts)}</b> ${cueText(move.cue.text)}`,
        words === undefined ? "" : `<i>${cueText(words)}</i>`,
      ],
    };
  });
  const ahead = lead === 0 ? "" : `, ${lead} ${lead === 1 ? "count" : "counts"} ahead`;
  return webVtt(`${routine.title}: counts and cues${ahead}`, captions);
}

interface Danced {
  readonly move: Move;
  /** Absent where everybody dances it. */
  readonly group?: string;
}

/** Every group's moves of the taught version in order; what all of them dance at once stands there once. */
function taughtMoves(routine: Routine): readonly Danced[] {
  const version = routine.versions.find(({ id }) => id === routine.taught);
  if (!version) return [];
  const groups = [{ name: routine.groups[0] ?? "", moves: version.moves }, ...version.groups];
  const dancers = new Map<string, number>();
  for (const { moves } of groups) for (const move of moves) dancers.set(key(move), (dancers.get(key(move)) ?? 0) + 1);
  return groups
    .flatMap(({ name, moves }, index) =>
      moves.flatMap((move): Danced[] => {
        if (dancers.get(key(move)) !== groups.length) return [{ move, group: name }];
        return index === 0 ? [{ move }] : [];
      }),
    )
    .sort((a, b) => a.move.at.compare(b.move.at));
}

function key({ at, length, cue }: Move): string {
  return `${at.toFraction()} ${length.toFraction()} ${cue.text}`;
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
