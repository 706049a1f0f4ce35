import { everyPhrase } from "../every-move.js";
import { keptRisks } from "../ladder.js";
import type { Place } from "../problem.js";
import type { Risk } from "../vocabulary.js";
import type { WrittenMove, WrittenOption, WrittenRoutine } from "../written.js";

/** What a move's author says of its risks. */
export interface NamedRisks {
  /** `risk: none`. */
  readonly none: boolean;
  /** Those that it names, or that an option keeps of the plain moves: what a `risk` that is written now must not lose. */
  readonly risks: readonly Risk[];
}

/** The risks that stand in the file, by the move's place. */
export function namedRisks(written: WrittenRoutine): ReadonlyMap<Place, NamedRisks> {
  const found = new Map<Place, NamedRisks>();
  const add = ({ place, risks }: WrittenMove, kept: readonly Risk[] = []) =>
    found.set(place, { none: risks?.length === 0, risks: risks ?? kept });
  const addOptions = (options: readonly WrittenOption[], plain: readonly WrittenMove[]) => {
    for (const option of options)
      for (const move of option.moves)
        add(
          move,
          plain.flatMap((one) => keptRisks(written, option, one)),
        );
  };
  for (const { moves, options } of everyPhrase(written)) {
    addOptions(options, moves);
    for (const move of moves) {
      add(move);
      addOptions(move.options, [move]);
    }
  }
  return found;
}
