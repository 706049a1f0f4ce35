import type { VersionName } from "./ladder.js";
import { mirrorCue, type WordPairs } from "./mirror-cue.js";
import type { PlacedMove, Run } from "./placing.js";
import type { Problems } from "./problems.js";
import type { Stance } from "./routine.js";
import { eighths, facingAt, otherFoot, otherTravel, otherWeight, reflected, turned, turnText } from "./stance.js";
import type { Facing } from "./words.js";
import type { PartialStance, WrittenGroup, WrittenMove, WrittenRoutine } from "./written.js";

/** A placed move with its stances, exchanged where its section is danced on the other side. */
export interface StancedMove {
  readonly placed: PlacedMove;
  /** The written move as danced: on the other side in a mirrored section. `facing` is left as written. */
  readonly danced: WrittenMove;
  readonly before: Stance;
  readonly after: Stance;
}

/** How a version starts: its own start, on its level's (of an adaptation), on the routine's, on facing front, both feet, standing. */
export function startOf(routine: WrittenRoutine, version: VersionName, group?: WrittenGroup): Stance {
  const start = { ...routine.start, ...(group === undefined ? {} : onOneSide(group)) };
  const own = start.versions.find((one) => one.version === version.id);
  const level = start.versions.find((one) => one.version === version.from);
  return {
    facing: own?.facing ?? level?.facing ?? start.facing ?? "front",
    weight: own?.weight ?? level?.weight ?? start.weight ?? "both",
    height: own?.height ?? level?.height ?? start.height ?? "standing",
  };
}

/** A group's own start. One that dances on the other side is computed on this one and reflected in the end. */
function onOneSide({ facing, weight, height, mirrored }: WrittenGroup): PartialStance {
  return {
    ...(facing === undefined ? {} : { facing: mirrored ? reflected(facing) : facing }),
    ...(weight === undefined ? {} : { weight: mirrored ? otherWeight(weight) : weight }),
    ...(height === undefined ? {} : { height }),
  };
}

/**
 * Carries facing, weight and height through a version's moves. A facing is meant as on the first time that its section is
 * danced: from another facing it is turned by the difference, mirrored it is reflected about the facing at the section's
 * first count.
 */
export function stanceMoves(
  run: Run,
  version: VersionName,
  start: Stance,
  moves: readonly PlacedMove[],
  pairs: WordPairs,
  problems: Problems,
): readonly StancedMove[] {
  const { routine, passes } = run;
  const meant = new Map<number, Facing>();
  let stance = start;
  let section = -1;
  let opening = stance.facing;
  return moves.map((placed) => {
    while (section < placed.phrase.section) {
      section++;
      opening = stance.facing;
      for (const { origin } of passes[section]?.material.phrases ?? [])
        if (!meant.has(origin)) meant.set(origin, opening);
    }
    const mirrored = passes[section]?.mirrored === true;
    const written = placed.written;
    const danced = mirrored ? otherSide(written, pairs) : written;
    const named =
      written.facing && facingDanced(written.facing, meant.get(placed.phrase.origin) ?? opening, opening, mirrored);
    const before = stance;
    const after = stanceAfter(before, danced, named);
    checkTurn(placed, version, routine, before, danced, named, problems);
    stance = after;
    return { placed, danced, before, after };
  });
}

function facingDanced(written: Facing, meant: Facing, opening: Facing, mirrored: boolean): Facing {
  const turn = eighths(written) - eighths(meant);
  return facingAt(eighths(opening) + (mirrored ? -turn : turn));
}

function stanceAfter(before: Stance, move: WrittenMove, named: Facing | undefined): Stance {
  return {
    facing: named ?? turned(before.facing, move.turn ?? 0),
    weight: move.weight ?? move.steps.at(-1) ?? before.weight,
    height: move.height ?? before.height,
  };
}

/** A turn and a facing on one move must agree; another version that arrives facing elsewhere is only warned about. */
function checkTurn(
  placed: PlacedMove,
  version: VersionName,
  routine: WrittenRoutine,
  before: Stance,
  move: WrittenMove,
  named: Facing | undefined,
  problems: Problems,
): void {
  if (named === undefined || move.turn === undefined) return;
  const reached = turned(before.facing, move.turn);
  if (reached === named) return;
  const message = `from facing ${before.facing}, \`turn: ${turnText(move.turn)}\` ends facing ${reached}, but \`facing\` says ${named}`;
  const place = `${placed.written.place}/facing`;
  if (version.id === routine.taught || placed.option?.version === version.id)
    problems.error("turn-against-facing", place, `${message}; correct one of them, or leave one out`);
  else
    problems.warning(
      "turn-against-facing",
      place,
      `version ${version.id} arrives here otherwise: ${message}; give version ${version.id} an option here or where its facing went another way`,
    );
}

/** A written move on the other side, its facing aside (that depends on where the section starts). */
export function otherSide(move: WrittenMove, pairs: WordPairs): WrittenMove {
  return {
    ...move,
    cue: mirrorCue(move.cue, pairs),
    ...(move.say === undefined ? {} : { say: mirrorCue(move.say, pairs) }),
    ...(move.note === undefined ? {} : { note: mirrorCue(move.note, pairs) }),
    choose: move.choose.map((cue) => mirrorCue(cue, pairs)),
    steps: move.steps.map(otherFoot),
    ...(move.weight === undefined ? {} : { weight: otherWeight(move.weight) }),
    ...(move.turn === undefined ? {} : { turn: -move.turn }),
    travel: move.travel.map(otherTravel),
  };
}
