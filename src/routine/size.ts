import type { VersionName } from "./ladder.js";
import type { Pass, PassPhrase } from "./order.js";
import type { Problems } from "./problems.js";
import type { WrittenMove, WrittenPhrase, WrittenRoutine } from "./written.js";

/** The most moves that are computed, over all versions and groups: a long evening of dancing, or a short one many times over. */
export const mostMoves = 60_000;

/** Makes a problem of a run that is short enough in counts, but has more moves than can be computed while somebody waits. */
export function checkSize(
  written: WrittenRoutine,
  passes: readonly Pass[],
  versions: readonly VersionName[],
  problems: Problems,
  most = mostMoves,
): void {
  const sizes = new Map<WrittenPhrase, number>();
  const sizeOf = ({ written: phrase }: PassPhrase) => {
    const size = sizes.get(phrase) ?? phraseSize(phrase);
    sizes.set(phrase, size);
    return size;
  };
  let moves = 0;
  for (const pass of passes) {
    const danced = written.groups.map(({ name }) => pass.groups.get(name) ?? pass.phrases);
    for (const phrases of danced.length === 0 ? [pass.phrases] : danced)
      for (const phrase of phrases) moves += sizeOf(phrase) * versions.length;
    if (moves > most) {
      const message = `all versions together dance more than ${most} moves up to here; lower \`repeat\`, \`times\` or \`walls\`, or name fewer versions and groups`;
      problems.error("too-long", written.sections[pass.written]?.place ?? written.place, message);
      return;
    }
  }
}

/** Moves of a phrase, as the version dances it that has most of them. */
function phraseSize({ moves, options }: WrittenPhrase): number {
  return Math.max(1, size(moves), ...options.map((option) => size(option.moves)));
}

function size(moves: readonly WrittenMove[]): number {
  const each = moves.map(({ on = "", options }) =>
    Math.max(on.split(",").length, ...options.map((option) => size(option.moves))),
  );
  return each.reduce((sum, one) => sum + one, 0);
}
