import Fraction from "fraction.js";
import { calledOn, isSilent } from "../../routine/calls.js";
import { dancersOf, type GroupMove, movesOfAll } from "../../routine/chart.js";
import type { Library, Move, Routine } from "../../routine/routine.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { captionTime } from "./caption-time.js";
import { earlier } from "./earlier.js";
import { joinShort, type Run, type Shown } from "./join-short.js";
import { readable } from "./readable.js";
import { type Caption, cueText, webVtt } from "./web-vtt.js";

/** A move to be shown. */
interface ShownMove extends Shown, GroupMove {
  /** The landing words that it has, or that its section opens with. */
  readonly words: string | undefined;
}

/**
 * The taught version on the track's clock, a caption a move: its counts, what is called, its cue as far as it can be read, and the
 * landing words where there is time for them. Moves too short to be read share a caption with the next of the phrase; where nothing
 * is called there is none. A caption's identifier is its number and its section. Where groups dance different counts at once,
 * each has captions with its name.
 *
 * @param lead how many counts early each caption is shown and goes again
 * @returns the text of a WebVTT file
 * @example
 * countCaptions(routine, library).includes("00:00:03.000 --> 00:00:04.000\n<b>4</b> Stamp left") // true
 */
export function countCaptions(routine: Routine, library: Library, lead = 0): string {
  const wording = wordingOf(library.language);
  const shown = shownMoves(routine, new Fraction(lead));
  const dancers = new Set(shown.map(({ group }) => group));
  const runs = [...dancers].flatMap((name) => joinShort(shown.filter(({ group }) => group === name)));
  const moves = runs.map((run): Caption => {
    const section = routine.sections[run.parts[0].move.section];
    return { id: section?.name ?? "", start: run.start, end: run.end, lines: linesOf(routine, run, wording) };
  });
  const inOrder = [...moves, ...uncounted(routine, new Fraction(lead), wording)].sort((a, b) =>
    a.start.compare(b.start),
  );
  const captions = inOrder.map((caption, index) => ({ ...caption, id: `${index + 1} ${caption.id}` }));
  return webVtt(wording.captions.counts(routine.title, lead), captions);
}

/** A caption for each time without counts, with its name and landing words. */
function uncounted(routine: Routine, early: Fraction, { captions }: Wording): readonly Caption[] {
  return routine.sections.flatMap(({ name, words, seconds, start, end }, index): readonly Caption[] => {
    if (seconds === undefined) return [];
    const moved = (moment: Fraction) => captionTime(routine, earlier(routine, index, moment, early));
    const lines = [cueText(captions.uncounted(name)), words === undefined ? "" : `<i>${cueText(words)}</i>`];
    return [{ id: name, start: moved(start), end: moved(end), lines }];
  });
}

function shownMoves(routine: Routine, early: Fraction): readonly ShownMove[] {
  const taught = routine.versions.find(({ id }) => id === routine.taught);
  const moves = taught === undefined ? [] : movesOfAll(dancersOf(routine, taught));
  // Whether the last move of each group so far was silent.
  const silent = new Map<string | undefined, boolean>();
  const all = moves.map(({ move, ...who }, index): ShownMove => {
    const afterSilence = silent.get(who.group) === true;
    silent.set(who.group, isSilent(routine, move));
    const opens = moves[index - 1]?.move.section !== move.section;
    return {
      ...who,
      move,
      afterSilence,
      phrase: `${move.section} ${move.phrase}`,
      start: captionTime(routine, earlier(routine, move.section, move.start, early)),
      end: captionTime(routine, earlier(routine, lastSection(routine, move), move.end, early)),
      words: move.words ?? (opens ? routine.sections[move.section]?.words : undefined),
    };
  });
  return all.filter(({ move }) => !isSilent(routine, move));
}

/** A line a move: count and call whole, since they are what is danced to; of the rest, what there is time to read. */
function linesOf(routine: Routine, { start, end, parts }: Run<ShownMove>, { captions }: Wording): readonly string[] {
  const heads = parts.map(({ move, group }) => {
    const called = calledOn(routine, move);
    const own = move.improvised ? [captions.own] : [];
    return {
      on: group === undefined ? move.on : `${group} ${move.on}`,
      call: [...own, ...(called.length === 0 ? [] : [captions.called(called.map(({ text }) => text))])].join(" "),
    };
  });
  // The cues of all come before the landing words of any: those are for what time is left. A hit is what must be seen.
  const inTurn = [...parts.keys()].sort((a, b) => Number(parts[b]?.move.hit) - Number(parts[a]?.move.hit));
  const texts = [...inTurn.map((index) => parts[index]?.move.cue.text ?? ""), ...parts.map(({ words = "" }) => words)];
  const spoken = heads.reduce((sum, { on, call }) => sum + on.length + call.length, 0);
  const rest = readable(texts, end.sub(start), spoken);
  return parts.flatMap((_, index) => {
    const { on = "", call = "" } = heads[index] ?? {};
    const cue = rest[inTurn.indexOf(index)] ?? "";
    const landing = rest[parts.length + index] ?? "";
    return [
      [`<b>${cueText(on)}</b>`, cueText(call), cueText(cue)].filter(Boolean).join(" "),
      landing === "" ? "" : `<i>${cueText(landing)}</i>`,
    ];
  });
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
