import type { Alternative, Group, Move, Version } from "./routine.js";
import { type Risk, risks } from "./vocabulary.js";

/**
 * Versions whose alternatives have the cautions that their own version says beside them: what follows from where the dancers come from (a
 * drop to the floor, a spin of several moves) is known there alone. Where that version dances something else, only what the
 * alternative itself tells is said.
 */
export function withDancedRisks(versions: readonly Version[]): readonly Version[] {
  const said = new Map(versions.map((version) => [version.id, [version, ...version.groups].map(cautionsByPlace)]));
  const completed = (moves: readonly Move[], group: number) =>
    moves.map((move) => {
      if (move.alternatives.length === 0) return move;
      const alternatives = move.alternatives.map((other): Alternative => {
        const there = said.get(other.version)?.[group];
        const those = other.moves.map((one) => {
          const met = new Set([...one.risks, ...(there?.get(placeKey(move, one.place)) ?? [])]);
          return { ...one, risks: risks.filter((risk) => met.has(risk)) };
        });
        return { ...other, moves: those };
      });
      return { ...move, alternatives };
    });
  return versions.map((version) => ({
    ...version,
    moves: completed(version.moves, 0),
    groups: version.groups.map((group, index): Group => ({ ...group, moves: completed(group.moves, index + 1) })),
  }));
}

function cautionsByPlace({ moves }: Pick<Group, "moves">): ReadonlyMap<string, readonly Risk[]> {
  const found = new Map<string, readonly Risk[]>();
  for (const move of moves) {
    if (move.cautions.length === 0) continue;
    const key = placeKey(move, move.place);
    found.set(key, [...(found.get(key) ?? []), ...move.cautions]);
  }
  return found;
}

/** Where a written move is danced: one place is danced anew in every pass. */
const placeKey = ({ section, phrase }: Pick<Move, "section" | "phrase">, place: string): string =>
  `${section} ${phrase} ${place}`;
