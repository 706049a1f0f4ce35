import type { WrittenMove, WrittenPhrase, WrittenRoutine } from "./written.js";

/** Every phrase of the file, in the order of the file. */
export function everyPhrase(written: WrittenRoutine): readonly WrittenPhrase[] {
  return written.sections.flatMap((section) => [
    ...(section.counts ?? []),
    ...section.change.map(({ by }) => by),
    ...(section.parts ?? []).flatMap(({ counts }) => counts),
  ]);
}

/** Every move of the file, options included, in the order of the file. */
export function everyMove(written: WrittenRoutine): readonly WrittenMove[] {
  const inMove = (move: WrittenMove): readonly WrittenMove[] => [
    move,
    ...move.options.flatMap((option) => option.moves.flatMap(inMove)),
  ];
  return everyPhrase(written)
    .flatMap((phrase) => [...phrase.moves, ...phrase.options.flatMap((option) => option.moves)])
    .flatMap(inMove);
}
