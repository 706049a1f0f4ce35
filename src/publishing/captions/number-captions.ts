import { clicks } from "../../routine/clicks.js";
import type { Library, Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import { captionTime } from "./caption-time.js";
import { type Caption, cueText, webVtt } from "./web-vtt.js";

/**
 * The plain count track: a caption a whole count with what is called on it, as far as the track reaches the count-in too.
 * An accent is bold and has an exclamation mark, since some players show no bold.
 */
export function numberCaptions(routine: Routine, library: Library): string {
  const said = wordingOf(library.language).captions;
  const captions: Caption[] = [];
  for (const click of clicks(routine)) {
    const start = captionTime(routine, click.start);
    if (start.compare(0) < 0) continue;
    const call = cueText(click.call);
    captions.push({ start, end: captionTime(routine, click.end), lines: [click.accent ? `<b>${call}!</b>` : call] });
  }
  const note = routine.music.accents.length > 0 ? said.accents : undefined;
  return webVtt(said.numbers(routine.title), captions, note);
}
