import type { Played, PlayerData } from "../../../src/publishing/site/player-data.js";

/** What the page holds for the player, each version and group with its own moves. */
export function readPlayed(text: string): Played {
  const { moves, versions, ...rest } = JSON.parse(text) as PlayerData;
  const at = (places: readonly number[]) => places.flatMap((place) => moves[place] ?? []);
  return {
    ...rest,
    versions: versions.map((version) => ({
      id: version.id,
      moves: at(version.moves),
      groups: version.groups?.map((group) => ({ name: group.name, moves: at(group.moves) })),
    })),
  };
}
