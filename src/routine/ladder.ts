import type { Risk } from "./vocabulary.js";
import type { WrittenMove, WrittenOption, WrittenRoutine } from "./written.js";

/** A version to compute: a level, or an adaptation with the level that it falls back to. */
export interface VersionName {
  readonly id: string;
  readonly kind: "level" | "adaptation";
  /** Of an adaptation. */
  readonly from?: string;
}

/** Every version of a routine: levels, easiest first, then adaptations. */
export function versionNames(written: WrittenRoutine): readonly VersionName[] {
  return [
    ...written.levels.map((id): VersionName => ({ id, kind: "level" })),
    ...written.adaptations.map(
      ({ name, from }): VersionName => ({ id: name, kind: "adaptation", from: from ?? written.taught }),
    ),
  ];
}

/**
 * Which of a move's or phrase's options a version dances; none means the plain move. An adaptation dances its own, else what
 * its level dances. On the ladder of levels an option holds from its level on, away from the taught one, until the next
 * option takes over: with 2 taught and options for 1 and 3, level 4 dances the option for 3.
 */
export function optionFor(
  options: readonly WrittenOption[],
  version: VersionName,
  written: Pick<WrittenRoutine, "levels" | "taught">,
): WrittenOption | undefined {
  if (options.length === 0) return undefined;
  const own = options.find((option) => option.version === version.id);
  if (own !== undefined) return own;
  const level = version.from ?? version.id;
  const [taught, here] = [written.levels.indexOf(written.taught), written.levels.indexOf(level)];
  const step = Math.sign(taught - here);
  for (let rung = here; step !== 0 && rung !== taught; rung += step) {
    const option = options.find((candidate) => candidate.version === written.levels[rung]);
    if (option !== undefined) return option;
  }
  return undefined;
}

/**
 * The risks of a plain move that an option for it keeps, unless it has risks of its own: those that the author named, where
 * the option is for a level above the taught one. Who dances more than is taught is not to lose a caution by silence.
 */
export function keptRisks(
  { levels, taught }: Pick<WrittenRoutine, "levels" | "taught">,
  option: WrittenOption,
  plain: WrittenMove,
): readonly Risk[] {
  return levels.indexOf(option.version) > levels.indexOf(taught) ? (plain.risks ?? []) : [];
}
