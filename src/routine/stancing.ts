import type { WordPairs } from "./cue-language.js";
import type { VersionName } from "./ladder.js";
import { otherWords } from "./mirror-cue.js";
import type { Pass, PassPhrase } from "./order.js";
import type { PlacedMove, Run } from "./placing.js";
import type { Problems } from "./problems.js";
import type { Stance } from "./routine.js";
import { eighths, facingAt, otherFoot, otherTravel, otherWeight, turned, turnText } from "./stance.js";
import type { Facing } from "./vocabulary.js";
import type { PartialStance, WrittenGroup, WrittenMove, WrittenRoutine } from "./written.js";

/** A placed move with its stances, exchanged where its section is danced on the other side. */
export interface StancedMove {
  readonly placed: PlacedMove;
  /** The written move as danced: on the other side in a mirrored section. `facing` is left as written. */
  readonly danced: WrittenMove;
  readonly before: Stance;
  readonly after: Stance;
}

/** How a version starts: its own start, on its level's (of an adaptation), on the group's, on the routine's, on facing front, both feet, standing. */
export function startOf(routine: WrittenRoutine, version: VersionName, group?: WrittenGroup): Stance {
  const own = routine.start.versions.find((one) => one.version === version.id);
  const level = routine.start.versions.find((one) => one.version === version.from);
  const layers: readonly (PartialStance | undefined)[] = [own, level, group, routine.start];
  return {
    facing: layers.find((layer) => layer?.facing)?.facing ?? "front",
    weight: layers.find((layer) => layer?.weight)?.weight ?? "both",
    height: layers.find((layer) => layer?.height)?.height ?? "standing",
  };
}

/** Who dances: a version, of one group or of all. */
export interface Dancer {
  readonly version: VersionName;
  readonly group?: WrittenGroup;
  /** The facings that the first group's moves are meant from, by origin; another group's turn by the difference. */
  readonly meant: Map<string, Facing>;
}

/**
 * Carries facing, weight and height through a version's moves. A facing is meant as on the first time that its section is
 * danced: from another facing it is turned by the difference, mirrored it is reflected about the facing at the section's
 * first count. A group on the other side dances its own counts as they are written and all others mirrored.
 */
export function stanceMoves(
  run: Run,
  dancer: Dancer,
  moves: readonly PlacedMove[],
  pairs: WordPairs,
  problems: Problems,
): readonly StancedMove[] {
  const { routine, passes } = run;
  const { version, group, meant } = dancer;
  let stance = startOf(routine, version, group);
  let section = -1;
  let opening = stance.facing;
  return moves.map((placed) => {
    while (section < placed.phrase.section) {
      section++;
      opening = stance.facing;
      for (const { origin } of originsOf(passes[section], group?.name))
        if (!meant.has(origin)) meant.set(origin, opening);
    }
    const { written, phrase } = placed;
    const mirrored = onOtherSide(run, phrase, group);
    const danced = mirrored ? otherSide(written, pairs) : written;
    const named =
      written.facing && facingDanced(written.facing, meant.get(phrase.origin) ?? opening, opening, mirrored);
    const before = stance;
    const after = stanceAfter(before, danced, named);
    checkTurn(placed, version, routine, before, danced, named, problems);
    stance = after;
    return { placed, danced, before, after };
  });
}

/** Whether a phrase is danced on the other side: in a mirrored section, or by a mirrored group, but not where both meet. */
export function onOtherSide({ passes }: Run, { section, own }: PassPhrase, group?: WrittenGroup): boolean {
  return (passes[section]?.mirrored === true) !== (group?.mirrored === true && !own);
}

function originsOf(pass: Pass | undefined, group: string | undefined): readonly { readonly origin: string }[] {
  if (pass === undefined) return [];
  return [...pass.material.phrases, ...((group && pass.material.parts.get(group)) || [])];
}

function facingDanced(written: Facing, meant: Facing, opening: Facing, mirrored: boolean): Facing {
  const turn = eighths(written) - eighths(meant);
  return facingAt(eighths(opening) + (mirrored ? -turn : turn));
}

function stanceAfter(before: Stance, move: WrittenMove, named: Facing | undefined): Stance {
  return {
    facing: named ?? turned(before.facing, move.turn ?? 0),
    weight: move.weight ?? (move.improvised ? undefined : (move.steps.at(-1) ?? before.weight)),
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
  else if (!problems.has("turn-against-facing", place))
    problems.warning(
      "turn-against-facing",
      place,
      `version ${version.id} arrives here otherwise: ${message}; give version ${version.id} an option here or where its facing went another way`,
    );
}

/** A written move on the other side, its facing aside (that depends on where the section starts). */
export function otherSide(move: WrittenMove, pairs: WordPairs): WrittenMove {
  const flip = otherWords(move, pairs);
  return {
    ...move,
    cue: flip(move.cue),
    ...(move.say === undefined ? {} : { say: { ...move.say, calls: move.say.calls.map(flip) } }),
    ...(move.note === undefined ? {} : { note: flip(move.note) }),
    choose: move.choose.map(flip),
    steps: move.steps.map(otherFoot),
    ...(move.weight === undefined ? {} : { weight: otherWeight(move.weight) }),
    ...(move.turn === undefined ? {} : { turn: -move.turn }),
    travel: move.travel.map(otherTravel),
  };
}
