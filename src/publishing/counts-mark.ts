import { createHash } from "node:crypto";
import type { Group, Routine, Version } from "../routine/routine.js";

/** Digits and capitals, without those that are taken for each other on a copied sheet: 0 O, 1 I L, 5 S, 2 Z, 8 B, U V. */
const letters = "34679ACDEFGHJKMNPQRTWXY";
const length = 4;

/**
 * A short mark of a version's counts, by the version's name: "K7Q3". Sheets and page carry it, so that an old sheet is told from a
 * new one. It changes when what is danced on which count does, be it a word; not with tempo, notes, gear or a date. The sheets of the
 * other side and of one group show the same counts, and have the same.
 *
 * @param routine as taught, with all its groups
 */
export function countsMarks({ sections, versions }: Routine): ReadonlyMap<string, string> {
  const order = sections.map(({ name, mirrored, phrases }) => [
    name,
    mirrored,
    phrases.map(({ numbers, say }) => [numbers, say]),
  ]);
  const marks = versions.map((version): [string, string] => {
    const others = version.groups.map((group) => [group.name, counted(group)]);
    return [version.id, markOf([order, counted(version), others])];
  });
  return new Map(marks);
}

/** What somebody who dances it does, and on which counts. */
function counted({ start, moves }: Version | Group): unknown {
  return [
    start,
    moves.map((move) => [
      [move.section, move.phrase, move.on, move.at.toFraction(), move.length.toFraction()],
      [move.cue.text, move.say?.map(({ at, cue }) => [at.toFraction(), cue.text]), move.hit, move.improvised],
      [move.after, move.through, move.steps, move.turn, move.travel, move.risks],
    ]),
  ];
}

function markOf(counts: unknown): string {
  const digest = createHash("sha256").update(JSON.stringify(counts)).digest();
  return Array.from(digest.subarray(0, length), (byte) => letters[byte % letters.length]).join("");
}
