import type { Move, Stance, Version } from "./routine.js";
import type { Contact } from "./vocabulary.js";

type Loading = Pick<Move, "contacts" | "before" | "after" | "through">;

/** Contacts of a run of moves by part of the body, in the order in which they first come up: each move counts once. */
export function loadOf(moves: readonly Loading[]): Version["load"] {
  const load: Partial<Record<Contact, number>> = {};
  for (const move of moves) for (const part of loadedBy(move)) load[part] = (load[part] ?? 0) + 1;
  return load;
}

/** The parts that a move loads: those that its author names, and the knees where they begin to bear weight. */
export function loadedBy(move: Loading): ReadonlySet<Contact> {
  return new Set(comesToKnees(move) ? [...move.contacts, "knees" as const] : move.contacts);
}

function comesToKnees({ before, after, through }: Loading): boolean {
  return !bearsOnKnees(before) && (bearsOnKnees(after) || through === "kneeling");
}

/** Whether the knees bear weight in a stance. */
export function bearsOnKnees({ weight, height }: Pick<Stance, "weight" | "height">): boolean {
  return weight === "knees" || height === "kneeling";
}
