import { definedOnly } from "../routine/defined-only.js";
import type { WrittenOption, WrittenPhrase, WrittenSection } from "../routine/written.js";
import type { NothingLeft } from "./nothing-left.js";
import { type Path, placeOf, rest } from "./place.js";
import type { PhraseKeys } from "./schema/move.js";
import type { SectionKeys } from "./schema/routine.js";
import { type UnsafeLink, writeMoves } from "./write-move.js";

/** A section as the model reads it. */
export function writeSection(section: SectionKeys, path: Path, unsafe: UnsafeLink): WrittenSection {
  const { name, words, counts, canon, parts, "same-as": sameAs, change, mirrored, repeat, ...more } = section;
  const { "on-walls": onWalls, at, tempo, time, feel, seconds, doubt, improvised, ...left } = more;
  left satisfies NothingLeft;
  return {
    place: placeOf(path),
    name,
    ...definedOnly<WrittenSection>({
      ...{ words, sameAs, onWalls, time, feel, seconds, doubt },
      tempo: tempo?.countsPerMinute,
      tempoIsEstimate: tempo?.isEstimate,
      counts: counts && writePhrases(counts, [...path, "counts"], unsafe),
      canon: canon && writeCanon(canon, [...path, "canon"]),
      parts: parts && writeParts(parts, [...path, "parts"], unsafe),
    }),
    change: Object.entries(change).map(([number, phrase]) => {
      const here = [...path, "change", number];
      return { phrase: Number(number), place: placeOf(here), by: writePhrase(phrase, here, unsafe) };
    }),
    mirrored,
    repeat,
    improvised,
    at: writeTimes(at, [...path, "at"]),
  };
}

function writeCanon(canon: NonNullable<SectionKeys["canon"]>, path: Path): WrittenSection["canon"] {
  return Object.entries(canon).map(([group, after]) => ({ place: placeOf([...path, group]), group, after }));
}

function writeParts(parts: NonNullable<SectionKeys["parts"]>, path: Path, unsafe: UnsafeLink): WrittenSection["parts"] {
  return Object.entries(parts).map(([group, phrases]) => {
    const here = [...path, group];
    return { place: placeOf(here), group, counts: writePhrases(phrases, here, unsafe) };
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

function writePhrases(phrases: readonly PhraseKeys[], path: Path, unsafe: UnsafeLink): WrittenPhrase[] {
  return phrases.map((phrase, index) => writePhrase(phrase, [...path, index], unsafe));
}

function writePhrase(phrase: PhraseKeys, path: Path, unsafe: UnsafeLink): WrittenPhrase {
  const { length, from, feel, say, options, [rest]: moves, ...left } = phrase;
  left satisfies NothingLeft;
  return {
    place: placeOf(path),
    ...definedOnly<WrittenPhrase>({ length, from, feel, say }),
    moves: writeMoves(moves, path, unsafe),
    options: Object.entries(options).map(([version, option]): WrittenOption => {
      const here = [...path, "options", version];
      return { place: placeOf(here), version, moves: writeMoves(option, here, unsafe) };
    }),
  };
}
