import { readKeys } from "./read-keys.js";
import { routineSchema, type SectionKeys } from "./schema/routine.js";
import type { SongKeys, SongSection } from "./song-keys.js";
import { split } from "./split.js";

/**
 * The figures of a song as they stand in a routine's file, which a danced routine no longer tells apart from those that follow from them.
 *
 * @param text of a file that can be read
 */
export function songKeys(text: string): SongKeys {
  const yaml = split(text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n")).halves?.yaml;
  const keys = yaml === undefined ? undefined : readKeys(yaml, routineSchema).keys;
  const sections = keys?.sections ?? [];
  return {
    saysFirstCount: keys?.music["first-count"] !== undefined,
    sections: sections.map((section) => songSection(section, sections)),
  };
}

function songSection(section: SectionKeys, all: readonly SectionKeys[]): SongSection {
  const { name, at, tempo } = section;
  const sameAs = sourceOf(section, all);
  return {
    name,
    at: at ? timesOf(at) : [],
    ...(tempo && { countsPerMinute: tempo.countsPerMinute.valueOf() }),
    ...(sameAs >= 0 && { sameAs }),
    factor: factorOf(section, all),
  };
}

function sourceOf(section: SectionKeys, all: readonly SectionKeys[]): number {
  const name = section["same-as"];
  return name === undefined ? -1 : all.findIndex((one) => one !== section && one.name === name);
}

function factorOf(section: SectionKeys, all: readonly SectionKeys[]): number {
  if (section.time !== undefined) return section.time === "half" ? 0.5 : section.time === "double" ? 2 : 1;
  const source = all[sourceOf(section, all)];
  // A file that can be read goes round in no circle.
  return source === undefined ? 1 : factorOf(source, all);
}

function timesOf(at: NonNullable<SectionKeys["at"]>): SongSection["at"] {
  if ("first" in at) return [{ seconds: at.first.valueOf() }];
  return Object.entries(at.times).map(([through, seconds]) => ({
    through: Number(through),
    seconds: seconds.valueOf(),
  }));
}
