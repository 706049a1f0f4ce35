import type { Routine } from "../../routine/routine.js";
import { type Line, type Span, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { feelTexts } from "../feel-texts.js";
import type { Band } from "./bands.js";
import { smallest } from "./cell.js";
import { theirs } from "./theirs.js";

/** Width of the column of section names and landing words, and of the column of track times. */
export const sideNames = 84;
export const sideTimes = 32;

const width = sideNames - 8;

/** What stands beside a section: its name, its landing words, and how it differs from the rest. */
export function sideLines(band: Band, routine: Routine, wording: Wording): readonly Line[] {
  const { print, time } = wording;
  const { section, again } = band;
  const words: readonly Span[] =
    section.words === undefined ? [] : [theirs(print.quoted(section.words), wording, { style: "italic" })];
  const other = !section.countsPerMinute.equals(routine.music.countsPerMinute);
  const facts = [
    ...(section.mirrored ? [print.otherSide] : []),
    ...(section.improvised ? [print.ownSection] : []),
    ...(other ? [print.tempoHere(time.tempo(section))] : []),
    ...feelTexts(routine, section, wording),
    ...band.canon.map(({ group, after, facing }) => print.canon(group, after, facing)),
    ...(again === "" ? [] : [again]),
  ];
  return [
    ...wrap(
      [{ text: `${band.number} `, style: "bold" }, theirs(section.name, wording, { style: "bold" })],
      smallest + 1.5,
      width,
    ),
    ...wrap(words, smallest, width),
    ...facts.flatMap((text) => wrap([{ text, tone: "soft" }], smallest, width)),
  ];
}

/** What stands beside the rest of a section on the next page. */
export function continuedLines({ number, section }: Band, wording: Wording): readonly Line[] {
  const name = theirs(`${section.name} `, wording, { style: "bold" });
  return wrap([{ text: `${number} `, style: "bold" }, name, { text: wording.print.continued }], smallest + 1, width);
}
