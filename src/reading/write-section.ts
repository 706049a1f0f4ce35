import type { WrittenOption, WrittenPhrase, WrittenSection } from "../routine/written.js";
import { given } from "./given.js";
import { type Path, placeOf, rest } from "./place.js";
import type { PhraseKeys } from "./schema/move.js";
import type { SectionKeys } from "./schema/routine.js";
import { type UnsafeLink, writeCounts, writePlainMove } from "./write-move.js";

/** A section as the model reads it. */
export function writeSection(section: SectionKeys, path: Path, unsafe: UnsafeLink): WrittenSection {
  const { name, words, counts, tempo, time, feel } = section;
  return {
    place: placeOf(path),
    name,
    ...given({ words, tempo, time, feel, sameAs: section["same-as"], onWalls: section["on-walls"] }),
    ...(counts
      ? { counts: counts.map((phrase, index) => writePhrase(phrase, [...path, "counts", index], unsafe)) }
      : {}),
    change: Object.entries(section.change ?? {}).map(([number, phrase]) => {
      const here = [...path, "change", number];
      return { phrase: Number(number), place: placeOf(here), by: writePhrase(phrase, here, unsafe) };
    }),
    ...given({ canon: section.canon && writeCanon(section.canon, [...path, "canon"]) }),
    ...given({ parts: section.parts && writeParts(section.parts, [...path, "parts"], unsafe) }),
    mirrored: section.mirrored ?? "never",
    repeat: section.repeat ?? 1,
    at: writeTimes(section.at, [...path, "at"]),
  };
}

function writeCanon(canon: NonNullable<SectionKeys["canon"]>, path: Path): WrittenSection["canon"] {
  return Object.entries(canon).map(([group, after]) => ({ place: placeOf([...path, group]), group, after }));
}

function writeParts(parts: NonNullable<SectionKeys["parts"]>, path: Path, unsafe: UnsafeLink): WrittenSection["parts"] {
  return Object.entries(parts).map(([group, phrases]) => {
    const here = [...path, group];
    const counts = phrases.map((phrase, index) => writePhrase(phrase, [...here, index], unsafe));
    return { place: placeOf(here), group, counts };
  });
}

function writeTimes(at: SectionKeys["at"], path: Path): WrittenSection["at"] {
  if (!at) return [];
  if ("first" in at) return [{ place: placeOf(path), seconds: at.first }];
  return Object.entries(at.times).map(([time, seconds]) => ({
    place: placeOf([...path, time]),
    time: Number(time),
    seconds,
  }));
}

function writePhrase(phrase: PhraseKeys, path: Path, unsafe: UnsafeLink): WrittenPhrase {
  const { length, from, say, options = {}, [rest]: moves } = phrase;
  return {
    place: placeOf(path),
    ...given({ length, from, say }),
    moves: Object.entries(moves).map(([on, move]) => ({ on, ...writePlainMove(move, [...path, on], unsafe) })),
    options: Object.entries(options).map(([version, option]): WrittenOption => {
      const here = [...path, "options", version];
      return { place: placeOf(here), version, moves: writeCounts(option, here, unsafe) };
    }),
  };
}
