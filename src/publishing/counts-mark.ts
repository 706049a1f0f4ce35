import { createHash } from "node:crypto";
import { mirror } from "../routine/mirror.js";
import type { Group, Routine, Version } from "../routine/routine.js";

/** Digits and capitals, without those that are taken for each other on a copied sheet: 0 O, 1 I L, 5 S, 2 Z, 8 B, U V. */
const letters = "34679ACDEFGHJKMNPQRTWXY";
const length = 4;

/**
 * A short mark of a version's counts, by the version's name: "K7Q3". Sheet and page carry it, so that an old sheet is told from a
 * new one. It changes when what is danced on which count does, be it a word; not with tempo, notes, gear or a date. The sheet of the other
 * side has the same, since it shows the same counts.
 */
export function countsMarks(routine: Routine): ReadonlyMap<string, string> {
  // Of both sides, the mirrored one: it is exactly the same whichever of them is given.
  const { sections, versions } = routine.mirrored ? routine : mirror(routine);
  const order = sections.map(({ name, mirrored, phrases }) => [
    name,
    mirrored,
    phrases.map(({ numbers, say }) => [numbers, say]),
  ]);
  return new Map(
    versions.map((version) => [version.id, markOf([order, version.groups.map(counted), counted(version)])]),
  );
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
