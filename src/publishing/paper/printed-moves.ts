import type { DancedSection, Move, Routine, Version } from "../../routine/routine.js";
import { movesIn, sheetSections } from "../../routine/sheet.js";
import type { Wording } from "../../wording/wording.js";
import type { Offered } from "../offered.js";
import { musicSpan } from "./music-span.js";

/** A section that a sheet prints, with its moves. */
export interface PrintedSection {
  readonly section: DancedSection;
  readonly moves: readonly Move[];
  /** Whose a move is, in a section that not all groups dance alike. */
  readonly whose: ReadonlyMap<Move, string>;
}

/** The sections that the sheet prints, each with its moves. */
export function printedSections(routine: Routine, version: Version): readonly PrintedSection[] {
  return sheetSections(routine).flatMap(({ section: index }): readonly PrintedSection[] => {
    const section = routine.sections[index];
    if (section === undefined) return [];
    const groups = version.groups.filter(({ name }) => section.parts.includes(name));
    const dancers = [
      { name: routine.groups[0] ?? "", moves: movesIn(version, index) },
      ...groups.map(({ name, moves }) => ({ name, moves: moves.filter((move) => move.section === index) })),
    ];
    const whose = dancers.flatMap(({ name, moves }) => moves.map((move) => [move, name] as const));
    return [
      { section, moves: dancers.flatMap(({ moves }) => moves), whose: new Map(groups.length === 0 ? [] : whose) },
    ];
  });
}

/** The sections that are danced of those that sheets of several versions print, each once, with the moves of all of these versions in order. */
export function sharedSections({ routine, versions, sections }: Offered): readonly PrintedSection[] {
  const [first = [], ...others] = versions.map((version) => printedSections(routine, version));
  return first.flatMap((printed, index): readonly PrintedSection[] => {
    if (sections?.includes(printed.section.name) === false) return [];
    const moves = [printed, ...others.flatMap((one) => one[index] ?? [])].flatMap((one) => one.moves);
    return [{ ...printed, moves: [...new Set(moves)].sort((one, other) => one.at.compare(other.at)) }];
  });
}

/** Where some moves are: "Harbour wall phrase 1: 7–8, phrase 2: 4; Tag count 1". */
export function placesOf(
  printed: readonly PrintedSection[],
  { counts, print }: Wording,
  holds: (move: Move) => boolean,
): string {
  return printed
    .flatMap(({ section, moves }) => {
      const places = moves.filter(holds).map((move) => placeIn(section, move));
      const phrases = byPhrase(places).map(({ phrase, moves: here }) => {
        return print.inPhrase(section.phrases.length > 1 ? phrase : undefined, [
          ...new Set(here.map(({ on }) => counts.span(on))),
        ]);
      });
      return phrases.length === 0 ? [] : [`${section.name} ${phrases.join(", ")}`];
    })
    .join("; ");
}

/** In which phrase and on which counts a sheet shows a move: of a group that began later the music's. */
export function placeIn({ phrases }: DancedSection, { phrase, on, at, length }: Move): Pick<Move, "phrase" | "on"> {
  const shown = phrases.find((one) => at.gte(one.at) && at.lt(one.at + one.numbers.length));
  if (shown === undefined) return { phrase, on };
  const from = at.sub(shown.at).valueOf();
  const to = from + length.valueOf();
  const extent = { from, to, begins: true, ends: to <= shown.numbers.length };
  return { phrase: shown.number, on: musicSpan(on, shown.numbers, extent) ?? on };
}

/** Moves by the phrase of their section, whose counts begin anew. */
export function byPhrase<Placed extends Pick<Move, "phrase">>(
  moves: readonly Placed[],
): readonly { readonly phrase: number; readonly moves: readonly Placed[] }[] {
  const phrases = [...new Set(moves.map(({ phrase }) => phrase))].sort((a, b) => a - b);
  return phrases.map((phrase) => ({ phrase, moves: moves.filter((move) => move.phrase === phrase) }));
}
