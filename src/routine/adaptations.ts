import type { VersionName } from "./ladder.js";
import type { PlacedMove } from "./placing.js";
import type { Problems } from "./problems.js";
import type { StancedMove } from "./stancing.js";

/**
 * Where an adaptation is at another height than the level it falls back to, it may not borrow that level's steps, travel,
 * heights, contacts or risks: nobody on a chair is sent to the floor by silence. Each missing option is an error.
 */
export function adaptationGaps(
  version: VersionName,
  stanced: ReadonlyMap<string, readonly StancedMove[]>,
  problems: Problems,
): void {
  if (version.from === undefined) return;
  const level = new Map((stanced.get(version.from) ?? []).map((move) => [momentOf(move), move]));
  for (const own of stanced.get(version.id) ?? []) {
    const theirs = level.get(momentOf(own));
    if (theirs === undefined || own.placed.option?.version === version.id || own.before.height === theirs.before.height)
      continue;
    const key = bodily(own.placed);
    if (key === undefined) continue;
    const { place, cue } = own.placed.plain ?? own.placed.written;
    problems.error(
      "adaptation",
      place,
      `version ${version.id} is ${own.before.height} here and level ${version.from} is ${theirs.before.height}, so it can't borrow "${cue.text}" (it has \`${key}\`); add \`options: { ${version.id}: … }\` to this move`,
    );
  }
}

function momentOf({ placed }: StancedMove): string {
  return `${placed.at.toFraction()} ${placed.written.place}`;
}

/** The first key of a move that a body at another height can't do. */
function bodily({ written: move, kept }: PlacedMove): string | undefined {
  if (move.steps.length > 0) return "step";
  if (move.travel.length > 0) return "travel";
  if (move.height !== undefined) return "height";
  if (move.through !== undefined) return "through";
  if (move.contacts.length > 0) return "contacts";
  return (move.risks ?? kept).length > 0 ? "risk" : undefined;
}
