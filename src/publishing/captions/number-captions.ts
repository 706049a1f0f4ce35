import { dancersOf, moveEnd, movesOfAll } from "../../routine/chart.js";
import { type Click, clicks } from "../../routine/clicks.js";
import type { Library, Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import { captionTime } from "./caption-time.js";
import { type Caption, cueText, webVtt } from "./web-vtt.js";

/**
 * The plain count track: a caption a whole count with what is called on it, as far as the track reaches the count-in too.
 * An accent is bold and has an exclamation mark, since some players show no bold. What a move calls comes before its phrase's and before the number; where it has
 * nothing called, there is no caption.
 */
export function numberCaptions(routine: Routine, library: Library): string {
  const said = wordingOf(library.language).captions;
  const captions: Caption[] = [];
  const calls = callsByCount(routine);
  for (const click of clicks(routine)) {
    const start = captionTime(routine, click.start);
    if (start.compare(0) < 0) continue;
    const called = calls(click);
    if (called === undefined) continue;
    const call = cueText(called);
    captions.push({ start, end: captionTime(routine, click.end), lines: [click.accent ? `<b>${call}!</b>` : call] });
  }
  const note = routine.music.accents.length > 0 ? said.accents : undefined;
  return webVtt(said.numbers(routine.title), captions, note);
}

/** What the taught version's moves call on a count, calls between it and the next included; nothing where they call nothing. */
function callsByCount(routine: Routine): (click: Click) => string | undefined {
  const onCount = new Map<number, string>();
  const between = new Map<number, readonly string[]>();
  const silent = new Set<number>();
  const taught = routine.versions.find(({ id }) => id === routine.taught);
  for (const { move } of taught === undefined ? [] : movesOfAll(dancersOf(routine, taught))) {
    for (const { at, cue } of move.say ?? []) {
      const count = at.floor().valueOf();
      if (cue.text === "") {
        if (at.equals(count)) silent.add(count);
      } else if (!at.equals(count)) between.set(count, [...(between.get(count) ?? []), cue.text]);
      else if (!onCount.has(count)) onCount.set(count, cue.text);
    }
    if (move.say?.length === 0)
      for (let count = move.at.ceil().valueOf(); moveEnd(move).gt(count); count++) silent.add(count);
  }
  return ({ at, call }) => {
    const own = onCount.get(at) ?? (silent.has(at) || call === "" ? undefined : call);
    const all = [...(own === undefined ? [] : [own]), ...(between.get(at) ?? [])];
    return all.length === 0 ? undefined : all.join(" ");
  };
}
